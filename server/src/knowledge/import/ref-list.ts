// Lists of designators as parts lists have them: "C1, C4-C7", "R1 R2 R5", "R1;R2", "C1..C3", "C4 to C7".

export interface RefList {
  readonly refs: readonly string[];
  /** What in it is no designator. */
  readonly odd: readonly string[];
}

/** Widest range believed; a wider one is a slip of the key. */
const MOST_IN_RANGE = 500;
/** With a digit or in capitals: "C4", "2C", "TA-101", "LOGO"; not "see note", "12". */
const REF = /^(?=.*[A-Za-z])(?=.*\d|[A-Z_-]+$)[A-Za-z0-9][\w-]*$/;

export function readRefs(cell: string): RefList {
  const refs: string[] = [];
  const odd: string[] = [];
  const joined = cell
    .replace(/\s*(?:\u2013|\u2014|\u2212|\.{2,3}|\u2026|\bto\b|\bbis\b)\s*/gi, "-")
    // A lone hyphen between blanks is a range too: "C4 - C7".
    .replace(/\s+-\s*|\s*-\s+/g, "-");
  for (const word of joined.split(/[\s,;/+&]+/)) {
    if (word === "") continue;
    const range = rangeOf(word);
    if (range) refs.push(...range);
    else if (REF.test(word)) refs.push(word);
    else odd.push(word);
  }
  return { refs, odd };
}

/** "C4-C7" and "C4-7"; a designator may have a hyphen of its own, such as "TA-101". */
function rangeOf(word: string): string[] | undefined {
  const [, prefix = "", first = "", again = "", last = ""] =
    /^([A-Za-z_]+)(\d{1,6})-([A-Za-z_]*)(\d{1,6})$/.exec(word) ?? [];
  if (first === "" || (again !== "" && again !== prefix)) return undefined;
  const [from, to] = [Number(first), Number(last)];
  if (to <= from || to - from >= MOST_IN_RANGE) return undefined;
  // R01-R12 keeps its noughts.
  const width = first.startsWith("0") ? first.length : 0;
  return Array.from(
    { length: to - from + 1 },
    (_, index) => prefix + String(from + index).padStart(width, "0"),
  );
}
