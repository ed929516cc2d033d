// Where the decimal point of a cell is, so that a column can be lined up by it.

/** "~", ">=", a sign and the digits before the point. */
const LEAD = /^(?:(?:[<>]=?|[~≈∼≃≤≥±])[ \t]*)?[+\-\u2212]?\d*/;
/** A fraction ("." or "," or, as in 4k7, a letter), a unit, the other end of a range, a remark in brackets. */
const REST =
  /^(?:[.,]\d*|[RkKMGmunpµμΩ]\d+)?[ \t]*(?:[%°A-Za-zµμΩ\u2126][%°A-Za-zµμΩ\u2126/]{0,5})?(?:[ \t]*(?:-|–|\.{2,3}|…|to)[ \t]*[+\-\u2212]?\d[\d.,]*[ \t]*(?:[%°A-Za-zµμΩ\u2126]{1,6})?)?(?:[ \t]*[([][^()[\]]*[)\]])?\??$/;
const DATE = /^\d{4}-\d\d/;
/** More digits before the point than these are a serial number. */
const MOST_DIGITS = 9;
/** Longer cells are remarks. */
const LONGEST = 40;

/** Characters before the decimal point of a cell that is a number, with or without a unit; undefined for any other. */
export function beforePoint(text: string): number | undefined {
  if (text.length > LONGEST) return undefined;
  const lead = LEAD.exec(text)?.[0] ?? "";
  const digits = lead.match(/\d/g)?.length ?? 0;
  const rest = text.slice(lead.length);
  if (digits === 0 ? !/^[.,]\d/.test(rest) : digits > MOST_DIGITS) return undefined;
  return REST.test(rest) && !DATE.test(text) ? lead.length : undefined;
}

/**
 * True for a column that nobody has named and that holds figures: at least half of what is typed are numbers and one
 * has a fraction. Whole numbers alone may as well be names, of pins or of switches.
 */
export function looksNumeric(texts: readonly string[]): boolean {
  const typed = texts.filter((text) => text !== "");
  const numbers = typed.filter((text) => beforePoint(text) !== undefined);
  return numbers.length * 2 >= typed.length && numbers.some((text) => /\d?[.,]\d/.test(text));
}
