// What the columns of a parts list are called. The words are those that programs and people put there (from memory).

export type Column = "ref" | "value" | "partNumber" | "package" | "quantity" | "unfitted" | "fitted";

/** Of a column's words the first that is there counts, and a header serves one column. */
const WORDS: Readonly<Record<Column, string>> = {
  ref:
    "reference; references; reference s; reference designator; reference designators; ref; refs; ref s; ref des; refdes; " +
    "ref designator; ref designators; part reference; component reference; designator; designators; designator s; " +
    "designation; bezeichner; referenz; referenzen; parts; part; components; bauteil; name; position; location",
  value:
    "value; values; val; part value; component value; comment; wert; bauteilwert; description; bezeichnung; rating",
  partNumber:
    "part number; part no; part nr; partnumber; manufacturer part number; manufacturer part; mfr part number; mfr part; " +
    "mfg part number; mpn; part name; part type; device; chip; ic; type; component; part; typ; order number; bestellnummer; artikelnummer",
  package: "package; footprint; case; case package; pattern; housing; gehäuse; bauform",
  quantity: "quantity; qty; qnty; count; number; pcs; menge; anzahl; stück",
  unfitted: "dnp; dni; dnf; do not populate; do not fit; not fitted; unfitted; nicht bestücken",
  fitted: "fitted; populate; populated; mounted; bestückt",
};

/** Headers that tell a value where no better one does. */
const LEFT_OVER: ReadonlySet<string> = new Set([
  "part",
  "parts",
  "component",
  "components",
  "name",
  "type",
  "typ",
  "bauteil",
]);

const plain = (header: string): string =>
  header
    .toLowerCase()
    .replace(/[^\p{L}\d]+/gu, " ")
    .trim();

/** Which column holds what, by the headers. */
export function columnsOf(cells: readonly string[]): ReadonlyMap<Column, number> {
  const headers = cells.map(plain);
  const found = new Map<Column, number>();
  const taken = new Set<number>();
  for (const [column, words] of Object.entries(WORDS) as [Column, string][]) {
    for (const word of words.split("; ")) {
      const at = headers.findIndex((header, index) => header === word && !taken.has(index));
      if (at < 0) continue;
      found.set(column, at);
      taken.add(at);
      break;
    }
  }
  // "Part | Refs | Device": what is left over tells what the parts are that have no number.
  const left = headers.findIndex((header, at) => !taken.has(at) && LEFT_OVER.has(header));
  if (!found.has("value") && left >= 0) found.set("value", left);
  return found;
}
