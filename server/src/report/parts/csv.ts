// Comma-separated values by RFC 4180: CR LF behind every record, a header, quotes around what needs them.

/** One record a row, the header first. */
export const csv = (rows: readonly (readonly (string | number | undefined)[])[]): string =>
  rows.map((row) => `${row.map(field).join(",")}\r\n`).join("");

/**
 * A text that a spreadsheet would take for a formula gets an apostrophe in front: logs come from the post, and nothing
 * in them may be executed. Numbers are left alone.
 */
function field(value: string | number | undefined): string {
  if (typeof value !== "string") return value === undefined ? "" : String(value);
  const safe = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe;
}
