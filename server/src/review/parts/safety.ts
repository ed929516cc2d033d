// Inputs that keep people and the machine from harm. Which words name them is common practice, no source.

const SAFETY =
  /\b(?:slam|tilt|anti-?tamper|interlock|door switch|cabinet switch|lid switch|safety|emergency stop|thermal (?:cut-?out|fuse|switch)|over-?temperature|earth(?:ing)?|protective ground)\b/i;

/** The word that names such an input; undefined where there is none. */
export const safetyWord = (text: string): string | undefined => SAFETY.exec(text)?.[0].toLowerCase();

/** True where the words say that something no longer does its work. */
export const saysDefeated = (text: string): boolean =>
  /\b(?:defeat|disabl|bypass|by-pass|bridg|short(?:ed)? out|shorted|disconnect|jumper|tied|link(?:ed)? out|held (?:high|low|closed|open)|cut)/i.test(
    text,
  );
