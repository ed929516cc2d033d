import { defined } from "../../base/defined";
import { positionAt } from "../../log/position";
import { expectedHere, windowHere } from "../shared/expected";
import type { LogView } from "../view";

export interface Expected {
  /** The limits alone, "0.4 V to 0.7 V": what there is time for with a probe in the hand. */
  readonly window?: string;
  /** A sentence with its source. */
  readonly sentence?: string;
}

/** What the cell at the offset should read; empty where nothing says. */
export function expectedAtCell(view: LogView, offset: number): Expected {
  const position = positionAt(view.doc, offset);
  if (position.kind !== "cell") return {};
  const { table } = position;
  const cells = table.shape === "wide" ? table.procedure.wide?.cells : undefined;
  const spec =
    position.spec ?? table.procedure.columns.find(({ measure, role }) => measure === cells || role === cells);
  return defined({
    window: windowHere(view, position, spec),
    sentence: expectedHere(view, position, spec),
  });
}
