// The bytes of a file from another program as text. Spreadsheets write UTF-16 and the code page of their machine as
// readily as UTF-8; a netlist holds little beside ASCII.

export type Decoded =
  | { readonly ok: true; readonly text: string; readonly note?: string }
  /** Goes on from the file's name. */
  | { readonly ok: false; readonly reason: string };

/** The text of a file that a board is imported from, without a byte order mark; refused where it holds binary data. */
export function decodeImported(bytes: Uint8Array): Decoded {
  const [a, b] = bytes;
  if (a === 0xff && b === 0xfe) return { ok: true, text: new TextDecoder("utf-16le").decode(bytes) };
  if (a === 0xfe && b === 0xff) return { ok: true, text: new TextDecoder("utf-16be").decode(bytes) };
  const zero = bytes.indexOf(0);
  if (zero >= 0)
    return {
      ok: false,
      reason: `is no text but binary data: there is a zero byte at ${zero}. Export a netlist, a board layout or a parts list`,
    };
  try {
    return { ok: true, text: new TextDecoder("utf-8", { fatal: true }).decode(bytes) };
  } catch {
    return {
      ok: true,
      text: new TextDecoder("windows-1252").decode(bytes),
      note: "is not UTF-8 and was read as Windows-1252: look at letters such as \u00b5 and \u03a9 in it",
    };
  }
}
