// What a meter's beeper said of two points, in the words of people who have both hands full; common practice, no source.

import { beepOf } from "./words";

/** Remarks in brackets, and marks that stress what stands before them. */
const BRACKETS = /\s*[([]([^()[\]]*)[)\]]\s*/g;
const STRESS = /[.!*?\s]+$/;

/** A connection that is there one moment and gone the next. */
const COMES_AND_GOES =
  /\b(?:intermittent(?:ly)?|comes and goes|on and off|only (?:when|if|with|while)|(?:when|if|while) (?:it is |i |you )?(?:pressed|flexed|bent|pushed|wiggled|moved|tapped|cold|warm|hot)|faint|weak|scratchy|crackl\w*|chirps?|flickers?|brief(?:ly)?|short (?:beep|chirp|blip)|blips?|sometimes|unsteady|stutters?|then (?:ol|open|nothing|no|silent|silence|off|stops?))\b/i;
const DENIED =
  /^(?:no|not|n'?t|never|nothing|none|silent|silence|quiet|mute|dead|open|o\.?l|nc|n\/c|n\.c|without|broken|cut|interrupted|does(?: not|n'?t)|is not|isn'?t)\b|\b(?:track|trace|via|joint|wire|line|connection|link) (?:is )?(?:broken|open|cut|gone|interrupted)\b/i;
const BEEPED =
  /^(?:a |clear |steady |solid |good |loud |full )*(?:beep|bleep|buzz|ring|tone|sound|connect|continuity|cont\b|conduct|joined|linked|through)\w*|^(?:yes|ok|okay|good|short(?:ed)?|dead short)\b|^[+🔔🔊]$/iu;
const NO_SOUND = /^[🔇🔕]$/u;

/** "beep 0.4", "no beep, OL": the words before what the meter showed with them. */
const WITH_FIGURE =
  /^(?:(?:no |not |does not |doesn'?t |faint |clear |steady )?(?:beep|bleep|buzz|ring|tone|sound|continuity|joined|connected|yes|ok|good)\w*)[,;:]?\s+(?:at |with |reads? |and )?(.+)$/i;

/** What the words come to: a connection, none, one that comes and goes; or the figure that stands beside them. */
export type Beep<Figure> =
  | { readonly kind: "short" }
  | { readonly kind: "open" }
  | { readonly kind: "result"; readonly ok: undefined; readonly word: string }
  | Figure;

/**
 * Undefined for what is no word of a beeper.
 * @param measured reads a figure; undefined where there is none
 */
export function readBeep<Figure extends { readonly kind: string }>(
  plain: string,
  measured: (text: string) => Figure | undefined,
): Beep<Figure> | undefined {
  const said = whole(plain);
  if (said) return said;
  const aside = [...plain.matchAll(BRACKETS)].map(([, inside = ""]) => inside);
  const bare = plain.replace(BRACKETS, " ").trim().replace(STRESS, "");
  const outside = whole(bare) ?? byWords(bare, measured);
  const figure = outside && aside.map((text) => measured(text.trim())).find((one) => one && isFigure(one));
  // A beep that comes and goes is that, whatever stood on the meter meanwhile.
  return figure && outside.kind !== "result" ? figure : outside;
}

function whole(text: string): { readonly kind: "short" | "open" } | undefined {
  const beep = beepOf(text);
  return beep === undefined ? undefined : { kind: beep ? "short" : "open" };
}

function byWords<Figure extends { readonly kind: string }>(
  text: string,
  measured: (text: string) => Figure | undefined,
): Beep<Figure> | undefined {
  if (COMES_AND_GOES.test(text)) return { kind: "result", ok: undefined, word: text.toLowerCase() };
  const behind = WITH_FIGURE.exec(text)?.[1]?.trim();
  const figure = behind === undefined ? undefined : measured(behind);
  if (figure && (isFigure(figure) || figure.kind === "open")) return figure;
  if (measured(text)) return undefined;
  if (DENIED.test(text) || NO_SOUND.test(text)) return { kind: "open" };
  return BEEPED.test(text) ? { kind: "short" } : undefined;
}

const FIGURES = new Set(["quantity", "range", "bound"]);
const isFigure = ({ kind }: { readonly kind: string }): boolean => FIGURES.has(kind);

export const noBeep = (text: string): string =>
  `"${text}" is neither a beep nor ohms: write "beep", "no beep" or what the meter shows`;
