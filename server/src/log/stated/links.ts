// What a block says is joined: its continuity rows, and the notes that tell of pins tied to ground or to a rail.
import type { Library } from "../../knowledge/library";
import type { CellValue } from "../../quantity/cell-value";
import { CONTINUITY } from "../measures";
import type { CellText, LogBlock } from "../model";
import { partWords } from "../part-words";
import { railNamed } from "./rail-name";
import type { LinkEnd, LinkStated, LocatedStatement } from "./statement";
import { tiesIn, tiesStated } from "./ties";

/** More than leads, a track and a joint read is a part in between: common practice, no source. */
export const JOINED_BELOW = 5;

export function linksStated(block: LogBlock, library: Library): LocatedStatement<LinkStated>[] {
  return [...beepsIn(block, library), ...tiesIn(block), ...tiesStated(block)];
}

function beepsIn(block: LogBlock, library: Library): LocatedStatement<LinkStated>[] {
  return block.tables.flatMap(({ readings }) =>
    readings.flatMap(({ measure, subject, value }): LocatedStatement<LinkStated>[] => {
      const from = subject.from && linkEnd(subject.from, library);
      const to = subject.to && linkEnd(subject.to, library);
      if (measure !== CONTINUITY || !from || !to || !subject.from || !isJoined(value)) return [];
      return [{ kind: "link", ends: [from, to], span: subject.from.span }];
    }),
  );
}

/** True where a pin-to-pin reading is that of a track. */
export function isJoined(value: CellValue): boolean {
  if (value.kind === "short") return true;
  const ohms =
    value.kind === "quantity"
      ? value.quantity
      : value.kind === "range"
        ? value.high
        : value.kind === "bound" && value.op.startsWith("<")
          ? value.quantity
          : undefined;
  return ohms?.dimension === "resistance" && ohms.value < JOINED_BELOW;
}

/** "U5-4", "U5 pin 4", "J3.1"; a rail or ground by its name; any other single name is that of a net. */
export function linkEnd(cell: CellText, library: Library): LinkEnd | undefined {
  const words = partWords(cell, library);
  if (words) return words.pin ? { ref: words.ref.text, pin: words.pin.text } : undefined;
  const text = cell.text.trim();
  if (/^(?:gnd|ground|0\s*V|earth|chassis|common|vss|dgnd|agnd)$/i.test(text)) return { net: "GND" };
  const rail = railNamed(text);
  if (rail) return { net: rail.name };
  const pin = /^([A-Za-z]{1,4}\d{1,4}|\d{1,2}[A-Za-z])\s*[-.:]\s*([A-Za-z]\d{0,2}|\d{1,3})$/.exec(text);
  if (pin?.[1] !== undefined && pin[2] !== undefined) return { ref: pin[1], pin: pin[2] };
  return /^[A-Za-z/][\w/+*#~-]{0,30}$/.test(text) ? { net: text } : undefined;
}
