/** True where a text's bytes begin with the byte order mark of UTF-16, either way round. Such a text is told and not read. */
export const isUtf16 = ([a, b]: Uint8Array): boolean =>
  (a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff);
