import { positionAt } from "../../log/position";
import { procedureDocumentation } from "../documentation";
import type { Hover } from "../types";
import type { LogView } from "../view";
import { hoverCell, hoverHeaderCell } from "./cell";
import { hoverFront } from "./front";
import { hoverProse } from "./prose";

/** What is known about what stands at the cursor; undefined where there is nothing to say. */
export function hoverLog(view: LogView, offset: number): Hover | undefined {
  const position = positionAt(view.doc, offset);
  switch (position.kind) {
    case "front":
      return hoverFront(view, position.place);
    case "heading": {
      const { procedure } = position.section;
      if (!procedure) return undefined;
      return { span: position.contentSpan, markdown: procedureDocumentation(procedure, view.ctx) };
    }
    case "header-cell":
      return hoverHeaderCell(view, position);
    case "cell":
      return hoverCell(view, position);
    case "prose":
      return position.word ? hoverProse(view, position.word) : undefined;
  }
}
