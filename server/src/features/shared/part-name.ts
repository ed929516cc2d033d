// The designator in a cell that may say more of a part: its pin, or the number printed on it.
import type { Library } from "../../knowledge/library";
import type { CellText } from "../../log/model";
import { partWords } from "../../log/part-words";
import type { Position } from "../../log/position";
import { refText } from "../../log/read-rows";
import type { Cell } from "../../syntax/tables";
import { shift, touches } from "../../text/span";

/** "U5" of "U5 (7404)", "7404 U5" and "U5-4", "2C" of "2C (74LS00)"; the whole cell where there is no designator. */
export const refIn = (cell: Cell, library: Library): CellText =>
  partWords(cell, library)?.ref ?? refText(cell);

const DESIGNATOR = /^[A-Za-z]{1,4}\d{1,4}[A-Za-z]?$/;
const GRID_PLACE = /^\d{1,2}[A-Za-z]\d?$/;

/** True for "U5" and for a place of a board numbered like a map, "2C"; never for a part number. */
export const isDesignator = (word: string, library: Library): boolean =>
  (DESIGNATOR.test(word) || GRID_PLACE.test(word)) && library.device(word) === undefined;

/** Letters of parts that have a value, or nothing, printed on them, and no number of a device. */
const NO_NUMBER = /^(?:R|RN|RP|C|L|F|Y|X|BT|SW|J|P|CN|TP|K|S|LP|W|JP)\d/i;

/** False for resistors, plugs and the like, of which no library of devices knows. */
export const hasNumber = (ref: string): boolean => !NO_NUMBER.test(ref);

/** The designator at a place of a heading, which may name several; its span is of the document. */
export function refAt({ section, span, ref }: Extract<Position, { kind: "heading" }>, offset: number) {
  const by = span.start - (section.heading?.span.start ?? span.start);
  const refs = (section.refs ?? []).map((each): CellText => ({ ...each, span: shift(each.span, by) }));
  return [...(ref ? [ref] : []), ...refs].find((each) => touches(each.span, offset));
}
