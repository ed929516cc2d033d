// Coils and lamps that were fired one by one, as the items of the proving list ask for them.

import { crossingKey, keysOf, type MatrixLine, type MatrixShape } from "../../compute/matrix/shape";
import type { Board, Coil } from "../../knowledge/types";
import type { Reading } from "../../log/model";
import { cellNamed } from "../matrix/from-log-words";
import { fold } from "./item-named";
import type { Judged } from "./types";

export const coilName = ({ title, driver }: Coil): string => title ?? driver;

/** By its title, else by its driver where only one coil hangs from that. */
export function coilOf({ subject }: Reading, { coils }: Board): Coil | undefined {
  const item = subject.item && fold(subject.item.text);
  const titled = coils.filter(({ title }) => title !== undefined && fold(title) === item);
  if (titled.length === 1) return titled[0];
  const ref = (subject.ref ?? subject.item)?.text.toUpperCase();
  const driven = coils.filter(({ driver }) => driver.toUpperCase() === ref);
  return driven.length === 1 ? driven[0] : undefined;
}

/** The lines of the lamp that was fired; none where it names no crossing, or one that must not be exercised. */
export function linesFired({ subject }: Reading, shape: MatrixShape): readonly MatrixLine[] {
  const cell = subject.item && cellNamed(subject.item.text, shape);
  if (!cell || keysOf(shape.reserved).has(crossingKey(cell))) return [];
  return [
    { kind: "row", number: cell.row },
    { kind: "column", number: cell.column },
  ];
}

/** Lines of lamps that lit when they were fired. */
export const linesLit = (fired: readonly Judged[], shape: MatrixShape): readonly MatrixLine[] =>
  fired.flatMap(({ reading, ok }) => (ok === true ? linesFired(reading, shape) : []));
