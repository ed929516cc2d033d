import type { OpenFile } from "./io";

/** Bytes as a file of which one may ask for pieces. */
export const openBytes = (bytes: Uint8Array): OpenFile => ({
  size: bytes.length,
  read: (from, length) =>
    from < 0 || from + length > bytes.length ? undefined : bytes.subarray(from, from + length),
  close: () => {},
});
