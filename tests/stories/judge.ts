// Holds what the diagnosis says against a story's answer. What the words of an answer mean is told in README.md.
import type { Answer, BoardFile } from "./read";

/** What `mendlog diagnose --format json` gives, as far as it is judged here. */
export interface Said {
  readonly suspects: readonly { readonly name: string; readonly share: number }[];
  readonly together: readonly {
    readonly blamed: readonly string[];
    readonly excused: readonly string[];
    readonly share: number;
  }[];
  readonly next?: Advised;
}

export interface Advised {
  readonly kind: string;
  readonly ref?: string;
  readonly pin?: string;
  readonly net?: string;
}

/** The words by which a suspect that is a mistake at the bench is known, by the kind that an answer names. */
export const MISTAKES: Readonly<Record<string, RegExp>> = {
  "off-ground": /\b(off|not on|no) (the )?ground|lead (was )?off|ground lead|clip|without ground/i,
  reversed: /revers|swapped|wrong way|other way round/i,
  range: /\brange\b|\bAC\b|meter/i,
  counted: /count|wrong end|other end|miscount/i,
  shifted: /shift|slid|one row|row (up|down)|rows? off/i,
  charged: /charg/i,
  slip: /mistake in the reading|slip/i,
};
const MISTAKE = /mistake|slip|\blead\b|\bleads\b|wrong range|counted|shifted|charged|probe/i;

/** What is meant by the kinds of reading in an answer, by the kinds that the advice has. */
export const KINDS: Readonly<Record<string, RegExp>> = {
  diode: /diode|drop/,
  logic: /logic|state|probe/,
  voltage: /level|volt|rail|supply/,
  resistance: /resist|ohm/,
  continuity: /contin|ring|beep/,
  capacitance: /capac|esr/,
  "transistor-junctions": /junction/,
  "coil-resistance": /coil/,
  frequency: /freq|clock/,
  scope: /scope|oscillo/,
  memory: /memory/,
  lift: /lift|leg|apart/,
  pull: /pull|socket/,
  swap: /swap|replace|good part|exchange/,
  reflow: /reflow|joint/,
  inspect: /inspect|look/,
  discharge: /discharge/,
  "read-again": /again|reread|repeat/,
};

const escaped = (text: string): string => text.replace(/[.*+?^${}()|[\]\\]/g, "\\$&");
/** True where `word` stands in `text` by itself: "U1" is not in "U14". */
const holds = (text: string, word: string): boolean =>
  new RegExp(`(?<![\\w+-])${escaped(word)}(?![\\w])`).test(text);
const PIN = /^([A-Z]+\d+)\.(\w+)$/;

/** Whether a suspect's name is what one entry of `accept` means. */
export function isNamed(name: string, accept: string, board: BoardFile): boolean {
  const [word = "", ...rest] = accept.split(" ");
  const place = rest.at(-1);
  if (word === "mistake") {
    const kind = MISTAKES[rest[0] ?? ""];
    if (!kind?.test(name)) return false;
    return rest.length < 2 || (place !== undefined && atPlace(name, place));
  }
  if (MISTAKE.test(name)) return false;
  if (word === "net" || word === "bridge") return place !== undefined && holds(name, place);
  if (word === "socket") return /socket|contact/i.test(name) && place !== undefined && holds(name, place);
  if (word === "machine" || word === "loom")
    return /\b(machine|loom|harness|wiring|cabinet|cable)\b/i.test(name);
  if (word === "display")
    return /display|tube/i.test(name) && rest.every((part) => holds(name.replaceAll(",", ""), part));
  if (word === "setting") return /setting/i.test(name) || (place !== undefined && name === place);
  if (word === "cell" || word === "diode") return place !== undefined && isCrossing(name, place, board);
  if (PIN.test(accept)) return atPlace(name, accept);
  return name === accept;
}

function atPlace(name: string, place: string): boolean {
  const pin = PIN.exec(place);
  if (!pin) return holds(name, place);
  return holds(name, `${pin[1]} pin ${pin[2]}`) || holds(name, place) || holds(name, `${pin[1]}-${pin[2]}`);
}

function isCrossing(name: string, place: string, board: BoardFile): boolean {
  const [row = 0, column = 0] = place.split(",").map(Number);
  if (holds(name, place) || new RegExp(`row ${row}\\b.*column ${column}\\b`, "i").test(name)) return true;
  return Object.values(board.matrices ?? {}).some(({ cells }) => {
    const title = cells?.[row - 1]?.[column - 1];
    return title ? holds(name, title) : false;
  });
}

export interface Judged {
  /** The first suspect is one of the causes; of a mistake, that it leads. */
  readonly first: boolean;
  /** Every cause is among the first three, or first five of two faults. */
  readonly inThree: boolean;
  /** What was first instead. */
  readonly instead: string;
  readonly sensible: boolean;
  /** What was advised, in the words of an answer. */
  readonly advised: string;
  /** For the calibration: stated shares, and whether what they were stated for is so. */
  readonly claims: readonly { readonly share: number; readonly right: boolean }[];
}

export function judge(said: Said, answer: Answer, board: BoardFile): Judged {
  const { suspects, together, next } = said;
  const fits = (name: string, i: number) =>
    answer.causes[i]?.accept.some((accept) => isNamed(name, accept, board)) ?? false;
  const right = (name: string) => answer.causes.some((_, i) => fits(name, i));
  const best = together[0];
  const led =
    answer.class === "mistake" &&
    best !== undefined &&
    best.blamed.every(right) &&
    [...best.blamed, ...best.excused].some(right);
  const first = led || right(suspects[0]?.name ?? "");
  const excused = answer.class === "mistake" ? together.slice(0, 3).flatMap(({ excused }) => excused) : [];
  const window = suspects.slice(0, answer.causes.length > 1 ? 5 : 3).map(({ name }) => name);
  const inThree =
    first && answer.causes.length === 1
      ? true
      : answer.causes.every((_, i) => [...window, ...excused].some((name) => fits(name, i)));
  return {
    first,
    inThree,
    instead: suspects[0]?.name ?? "nothing",
    sensible: next
      ? answer.next.sensible.some((entry) => isAdvised(next, entry, board))
      : answer.next.sensible.includes("none"),
    advised: next ? `${next.kind} ${next.ref ?? ""}${next.pin ? `.${next.pin}` : ""}` : "nothing",
    claims: claimsOf(suspects, answer, fits),
  };
}

/** Suspects that mean the same cause are one claim, with the sum of their shares. */
function claimsOf(
  suspects: Said["suspects"],
  answer: Answer,
  fits: (name: string, cause: number) => boolean,
) {
  const claims: { share: number; right: boolean }[] = [];
  const of = answer.causes.map(() => 0);
  for (const { name, share } of suspects) {
    const cause = answer.causes.findIndex((_, i) => fits(name, i));
    if (cause < 0) claims.push({ share, right: false });
    else of[cause] = Math.min(1, (of[cause] ?? 0) + share);
  }
  for (const share of of) if (share > 0) claims.push({ share, right: true });
  return claims;
}

/** Whether the advice is what one entry of `sensible` or `silly` means: a kind of reading and a place. */
export function isAdvised(advised: Advised, entry: string, board: BoardFile): boolean {
  const [kind = "", ...rest] = entry.split(" ");
  const place = rest.join(" ");
  if (kind !== "any" && kind !== advised.kind && !KINDS[kind]?.test(advised.kind)) return false;
  if (place === "") return true;
  const { ref = "", pin } = advised;
  const net = advised.net ?? (pin ? netOf(`${ref}.${pin}`, board) : undefined);
  if (place === ref) return true;
  const named = PIN.exec(place);
  if (named) return ref === named[1] && pin === named[2];
  const rail = board.rails[place];
  const places = rail?.net ? [place, rail.net] : [place];
  if (net !== undefined && places.includes(net)) return true;
  if (places.includes(ref)) return true;
  if (/^(cell|machine|loom|diode)\b/.test(place)) {
    if (/\b(cell|crossing|machine|matrix|switch|loom)\b/.test(`${advised.kind.replaceAll("-", " ")} ${ref}`))
      return !place.includes(" ") || !/\d,\d/.test(ref) || ref.includes(place.slice(place.indexOf(" ") + 1));
  }
  return place.startsWith("cell ") && isCrossing(ref, place.slice(5), board);
}

export function netOf(pin: string, board: BoardFile): string | undefined {
  return Object.keys(board.nets).find((name) => board.nets[name]?.includes(pin));
}
