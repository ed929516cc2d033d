import { positionAt } from "../../log/position";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { completeCell, completeHeaderCell } from "./cell";
import { completeFront } from "./front";
import { completeProse } from "./prose";

/**
 * What can stand at the cursor, best first. Nothing where nothing particular belongs: in a technician's prose
 * a list that pops up at every blank would only be in the way.
 */
export function completeLog(view: LogView, offset: number): readonly Completion[] {
  const position = positionAt(view.doc, offset);
  switch (position.kind) {
    case "front":
      return completeFront(view, position.place);
    case "heading":
      return completeProse(view, offset, position.section);
    case "header-cell":
      return completeHeaderCell(view, position);
    case "cell":
      return completeCell(view, position);
    case "prose":
      return completeProse(view, offset, position.section);
  }
}
