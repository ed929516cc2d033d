// A cell's value, kept by its text: the same few values stand in most cells, and are asked for again at every keystroke.
import { memoText } from "../base/memo";
import { type CellValue, type CellWant, readCell } from "./cell-value";

/** What `readCell` gives, the same object for the same text and want while it is remembered: nobody may change it. */
export const parseCell = (text: string, want: CellWant): CellValue => {
  const key =
    want.kind === "quantity"
      ? [want.unit, want.dimension, want.signed, want.decimalMark, want.beeps, want.pairs].join("\0")
      : want.kind;
  let read = readers.get(key);
  if (read === undefined) {
    if (readers.size >= WANTS_KEPT) readers.clear();
    read = memoText((text) => readCell(text, want));
    readers.set(key, read);
  }
  return read(text);
};

/** By what is wanted: the same values are read again and again. */
const readers = new Map<string, (text: string) => CellValue>();
const WANTS_KEPT = 100;
