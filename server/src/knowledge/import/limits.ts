/** Longest file read, in bytes and in characters. The largest demo board of Debian's kicad-demos has 7 MiB. */
export const MOST_IMPORTED = 32 * 1024 * 1024;
