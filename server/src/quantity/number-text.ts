// Digits with a decimal mark and perhaps thousands groups, as people type them.
//
// Decision on the comma: a comma is a decimal mark ("0,58", "12,05") except where it can only be grouping
// ("1,234.5", "1,234,567"). One comma with one to three digits before it, not starting with 0, and exactly
// three behind it ("1,500") could be either, a factor of a thousand apart: that is refused with both readings
// named, unless the caller knows which mark the log uses. A lone point is always the decimal mark, because
// that is what meters show.

export type DecimalMark = "comma" | "point";

export type NumberText =
  | { readonly ok: true; readonly int: string; readonly frac: string }
  | { readonly ok: false; readonly message: string; readonly suggestions: readonly string[] };

const GROUPED_BY_SPACE = /^\d{1,3}(?:['\u00a0\u2009\u202f]\d{3})+(?:[.,]\d*)?$/;
const AMBIGUOUS = /^[1-9]\d{0,2},\d{3}$/;

/**
 * Reads a run of digits, marks and separators without sign, exponent or unit.
 * `suggestions` of a failure are other spellings of the same run, the likeliest first.
 */
export function readNumber(run: string, mark?: DecimalMark): NumberText {
  let text = run;
  if (/['\u00a0\u2009\u202f]/.test(text)) {
    if (!GROUPED_BY_SPACE.test(text)) return refuse(run, "its groups are not three digits each", []);
    text = text.replace(/['\u00a0\u2009\u202f]/g, "");
  }
  const dots = text.split(".").length - 1;
  const commas = text.split(",").length - 1;
  if (dots + commas === 0) return { ok: true, int: text, frac: "" };
  if (dots === 1 && commas === 0) return cut(text, ".");
  if (commas === 1 && dots === 0) {
    if (!AMBIGUOUS.test(text) || mark === "comma") return cut(text, ",");
    if (mark === "point") return { ok: true, int: text.replace(",", ""), frac: "" };
    const decimal = text.replace(",", ".");
    const whole = text.replace(",", "");
    return {
      ok: false,
      message: `"${run}" can be read as ${decimal} or as ${whole}: write the one meant`,
      suggestions: [decimal, whole],
    };
  }
  const decimal = dots === 1 && commas > 0 ? "." : commas === 1 && dots > 0 ? "," : undefined;
  if (dots === 1 && commas === 1)
    return cutGrouped(run, text.lastIndexOf(".") > text.lastIndexOf(",") ? "." : ",");
  if (decimal) return cutGrouped(run, decimal);
  const groups = text.split(/[.,]/);
  if ((dots === 0 || commas === 0) && isGrouped(groups)) return { ok: true, int: groups.join(""), frac: "" };
  return refuse(run, "it has more than one decimal mark", [onePoint(text)]);
}

function cut(text: string, mark: string): NumberText {
  const [int = "", frac = ""] = text.split(mark);
  if (int === "" && frac === "") return refuse(text, "it has no digits", []);
  return { ok: true, int: int === "" ? "0" : int, frac };
}

function cutGrouped(run: string, mark: "." | ","): NumberText {
  const at = run.lastIndexOf(mark);
  const groups = run.slice(0, at).split(mark === "." ? "," : ".");
  const frac = run.slice(at + 1);
  if (isGrouped(groups) && /^\d+$/.test(frac)) return { ok: true, int: groups.join(""), frac };
  return refuse(run, "its decimal and thousands marks do not fit together", [onePoint(run)]);
}

const isGrouped = (groups: readonly string[]): boolean =>
  groups.length > 1 && groups.every((g, i) => (i === 0 ? /^[1-9]\d{0,2}$/.test(g) : /^\d{3}$/.test(g)));

/** The first mark kept as a point, every other dropped: "5,0,0" to "5.00". */
function onePoint(text: string): string {
  const [first = "", ...rest] = text.split(/[.,]+/);
  const frac = rest.join("");
  return frac === "" ? first || "0" : `${first || "0"}.${frac}`;
}

const refuse = (run: string, why: string, suggestions: readonly string[]): NumberText => ({
  ok: false,
  message: `"${run}" is not a number: ${why}`,
  suggestions,
});
