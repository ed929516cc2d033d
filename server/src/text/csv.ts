// Comma-separated values by RFC 4180: CR LF behind every record, a header, quotes around what needs them.

declare const CSV: unique symbol;

/** Comma-separated values in which no cell is a formula. */
export type Csv = string & { readonly [CSV]: true };

/** One record a row, the header first. */
export const csv = (rows: readonly (readonly (string | number | undefined)[])[]): Csv =>
  rows.map((row) => `${row.map(field).join(",")}\r\n`).join("") as Csv;

/** Controls but for tabs and line ends: no table has a use for them, and on a terminal they are commands. */
const CONTROLS = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/g;

/**
 * A text that a spreadsheet would take for a formula gets an apostrophe in front: logs come from the post, and nothing
 * in them may be executed. Numbers are left alone.
 */
function field(value: string | number | undefined): string {
  if (typeof value !== "string") return value === undefined ? "" : String(value);
  const shown = value.replace(CONTROLS, "\ufffd").replace(/\r(?!\n)/g, "\n");
  const safe = /^[=+\-@\t\r\n]/.test(shown) ? `'${shown}` : shown;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
