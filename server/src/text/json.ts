declare const JSON_TEXT: unique symbol;

/** JSON as it is written into a file or on a terminal. */
export type Json = string & { readonly [JSON_TEXT]: true };

/** Controls that JSON lets stand as they are and a terminal takes for commands, and what turns the order of letters round. */
const UNSEEN = /[\u007f-\u009f\u061c\u200e\u200f\u202a-\u202e\u2028\u2029\u2066-\u2069]/g;

/** The value, indented, with a line end. It reads back the same; no character in it does anything to a terminal. */
export const json = (value: unknown, replacer?: (key: string, value: unknown) => unknown): Json =>
  `${JSON.stringify(value, replacer, 2).replace(UNSEEN, escaped)}\n` as Json;

const escaped = (char: string): string => `\\u${char.charCodeAt(0).toString(16).padStart(4, "0")}`;
