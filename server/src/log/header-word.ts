import { memoText } from "../base/memo";
import { splitHeader } from "../quantity/units";

/** Header words as compared: lower case, without a unit, anything in brackets, dots and doubled blanks. */
export const headerWord = memoText((text: string): string =>
  splitHeader(text)
    .word.replace(/[([][^)\]]*[)\]]/g, " ")
    .replace(/[*_`.:#]/g, " ")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase(),
);
