// What a mistyped reading was most likely meant to be. A suggestion is offered, never applied: the caller
// shows it as a fix that the technician takes or leaves.

const LOOKALIKES: Readonly<Record<string, string>> = {
  O: "0",
  o: "0",
  Q: "0",
  D: "0",
  l: "1",
  I: "1",
  i: "1",
  "|": "1",
  Z: "2",
  S: "5",
  B: "8",
};

/** The part of a cell that stands where digits belong: up to the first letter that is like no digit. */
const NUMERIC = /^([<>≤≥=~≈ ]*[+-]? ?)([\dOoQDlIi|ZSB.,]+)(.*)$/s;

/**
 * Candidate corrections, the likeliest first. None is guaranteed to read: the caller keeps the first that does.
 * The text must be short (a cell), since every candidate is tried.
 */
export function slipCandidates(text: string): string[] {
  const found: string[] = [];
  const add = (candidate: string): void => {
    const trimmed = candidate.trim();
    if (trimmed !== text && !found.includes(trimmed)) found.push(trimmed);
  };
  const shorn = text.replace(/[.,;:!?*'"`]+$/, "");
  add(shorn);
  for (const base of [text, shorn]) {
    const digits = lettersToDigits(base);
    for (const candidate of [digits, oneMark(digits)]) {
      add(candidate);
      add(candidate.replace(/([A-Za-zµΩ%])\1+(?![A-Za-z])/g, "$1"));
      add(candidate.replace(/(\d) *([.,]) *(?=\d)/g, "$1$2"));
    }
  }
  return found;
}

/** "O.58", "0.S8", "l.42": only where a real digit or a decimal mark shows that a number was meant. */
function lettersToDigits(text: string): string {
  const match = NUMERIC.exec(text);
  if (!match) return text;
  const [, before = "", run = "", after = ""] = match;
  if (!/[\d.,]/.test(run)) return text;
  return before + run.replace(/[OoQDlIi|ZSB]/g, (letter) => LOOKALIKES[letter] ?? letter) + after;
}

/** Repeated or mixed-up decimal marks: "0..58" to "0.58", "5,0,0" to "5.00". */
function oneMark(text: string): string {
  let seen = false;
  return text.replace(/(?<=\d)[.,]+(?=\d)/g, () => {
    if (seen) return "";
    seen = true;
    return ".";
  });
}
