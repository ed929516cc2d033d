// Date codes in a cell that holds nothing else: "7931 to 8012", "78.44, 79.02".

/** A piece of a cell that is shaped like a date code; whether it can be one is not asked here. */
export interface FoundCode {
  readonly text: string;
  /** UTF-16 offsets in the text given. */
  readonly start: number;
  readonly end: number;
}

const TOKEN = /\w[\w.\-/]*(?<![.\-/])/g;
const CODE = /^[A-Z]{0,2}(?:\d\d[.\-/]\d\d|\d{3,4})[A-Z]{0,2}$/i;

/**
 * Everything shaped like a date code. Only for cells known to hold date codes: a 7404 is shaped like week 4 of 1974,
 * and no form tells the two apart. A day (2026-03-02) is none.
 */
export function findDateCodes(text: string): readonly FoundCode[] {
  return [...text.matchAll(TOKEN)].flatMap(({ 0: token, index }) => {
    if (CODE.test(token)) return [{ text: token, start: index, end: index + token.length }];
    // "7931-8012": a mark between two codes, which counts only where all pieces are codes.
    const pieces = [...token.matchAll(/[^\-/]+/g)];
    if (!pieces.every(([piece]) => CODE.test(piece))) return [];
    return pieces.map(({ 0: piece, index: at }) => ({
      text: piece,
      start: index + at,
      end: index + at + piece.length,
    }));
  });
}
