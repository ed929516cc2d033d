import { splitHeader } from "../quantity/units";

/** Header words as compared: lower case, without a unit, anything in brackets, dots and doubled blanks. */
export function headerWord(text: string): string {
  return splitHeader(text)
    .word.replace(/[([][^)\]]*[)\]]/g, " ")
    .replace(/[*_`.:#]/g, " ")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase();
}
