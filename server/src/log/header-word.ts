import { memoText } from "../base/memo";
import { splitHeader } from "../quantity/units";

/**
 * Header words as compared: lower case, without a unit, anything in brackets, dots and doubled blanks; an arrow between two
 * words is a "to", and a dash has no blanks around it.
 */
export const headerWord = memoText((text: string): string =>
  splitHeader(text)
    .word.replace(/[([][^)\]]*[)\]]/g, " ")
    .replace(/[*_`.:#]/g, " ")
    .replace(/\s*(?:\u2192|[-=]>|>)\s*/g, " to ")
    .replace(/(?<=\w)\s+[-\u2013]\s+(?=\w)/g, "-")
    .replace(/\s+/g, " ")
    .trim()
    .toLowerCase(),
);
