// How a part number as printed on a part is taken apart. Makers' prefixes, speed letters and package suffixes
// are from memory; they serve to find an entry of the library, which names its own source.

export interface Part74 {
  /** Library id of the function: "7404". */
  readonly id: string;
  /** The number behind the family letters: "04", "4051". */
  readonly number: string;
  /** Letters of the family: "" for 7404, "LS" for 74LS04. */
  readonly letters: string;
}

/** Upper case, without blanks: the form in which part numbers are compared. */
export const normalPart = (typed: string): string => typed.toUpperCase().replaceAll(/\s+/g, "");

/**
 * A 74xx or 54xx number, with or without maker and case: "SN74LS04N" is 7404 in family LS. Only makers who
 * made the 54 series are believed before 54: there are transistors and thyristors numbered 54xx.
 */
export function as74(part: string): Part74 | undefined {
  const match =
    /^(?:([A-Z]{0,4})74|((?:SN|DM|MC|MM|JM|CD|N|S|F)?)54)([A-Z]{0,4}?)(\d{2,5})(?:[A-Z]{1,4}\d{0,2})?(?:[-/].*)?$/.exec(
      part,
    );
  if (!match) return undefined;
  const [, , , letters = "", number = ""] = match;
  return { id: `74${number}`, number, letters };
}

/**
 * The number that "LS139", "HC04" and "'138" are short for; the text itself where it is short for none. Letters that
 * alone are those of a designator (S00, F74) are not believed.
 */
export function inFull(part: string): string {
  if (/^'[A-Z]{0,4}\d{2,5}/.test(part)) return `74${part.slice(1)}`;
  return /^(?:LS|ALS|AHCT?|HCT?|ACT|FCT|BCT)\d{2,5}[A-Z]{0,2}$/.test(part) ? `74${part}` : part;
}

/** Letters that begin a transistor's own number, so that BF324 is not taken for a 324. */
const TRANSISTOR = /^(?:A[CF]|B[CDFSU][A-Z]?|TIP|MPS[A-Z]?|MJ[DE]?|PN|IRF[A-Z]*|VN|ZTX)$/;

/**
 * Numbers that another maker's part of the same digits bears, with other pins: Texas Instruments' TMS2716 is
 * the three-supply part, and its 2716 is called 2516 (from memory).
 */
const NOT_THE_SAME = /^TMS2716(?!\d)/;

/** The numbers under which a part may be listed, the one nearest to what was typed first. */
export function* candidates(part: string): Generator<string> {
  yield part;
  const bare = part.replace(/[-/].*$/, "");
  const [, prefix = "", rest = ""] = /^([A-Z]*)(.*)$/.exec(bare) ?? [];
  yield* withoutSuffix(bare);
  if (prefix === "" || rest === "" || TRANSISTOR.test(prefix) || NOT_THE_SAME.test(bare)) return;
  for (const core of withoutSuffix(rest)) {
    yield core;
    // MC14011 is Motorola's way to write 4011.
    if (prefix === "MC" && /^14\d{3}$/.test(core)) yield core.slice(1);
  }
}

/** The number, then the same with up to four letters of case and grade taken off its end. */
function* withoutSuffix(part: string): Generator<string> {
  yield part;
  // 68A02 and 68B02 are faster 6802.
  const speed = /^([A-Z]*6[58])[ABC](\d\d)([A-Z]{0,2})$/.exec(part);
  if (speed) yield `${speed[1]}${speed[2]}`;
  for (let cut = 1; cut <= 4 && /[A-Z]$/.test(part.slice(0, part.length - cut + 1)); cut++) {
    const shorter = part.slice(0, part.length - cut);
    if (!/\d/.test(shorter)) return;
    yield shorter;
  }
}
