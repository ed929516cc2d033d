import { defined } from "../../base/defined";
import { judgeBlock } from "../../judge";
import { kindOf } from "../../log/kinds";
import { positionAt, wordInCell } from "../../log/position";
import { markdown } from "../../text/markdown";
import { type Span, touches } from "../../text/span";
import { headingApart } from "../shared/apart";
import { procedureDocumentation } from "../shared/documentation";
import { matrixPictureOfSection } from "../shared/hover-pictures";
import { refAt } from "../shared/part-name";
import type { Hover } from "../types";
import type { LogView } from "../view";
import { hoverCautions, hoverCell, hoverHeaderCell } from "./cell";
import { besideFindings, type FindingAside } from "./finding";
import { hoverFront } from "./front";
import { provingMarkdown } from "./matrix";
import { hoverPhotograph } from "./photograph";
import { hoverProse } from "./prose";
import { provingListMarkdown } from "./proving";

/**
 * What is known about what is at the cursor, and what the findings there rest on; undefined where there is nothing to say.
 * @param findings of the log
 */
export function hoverLog(
  view: LogView,
  offset: number,
  findings: Iterable<FindingAside> = [],
): Hover | undefined {
  const hover = hoverPhotograph(view, offset) ?? hoverPlace(view, offset);
  const beside = besideFindings(findings, offset, judgedAt(view, offset), view.ctx);
  if (!beside) return hover;
  return hover ? { ...hover, markdown: markdown`${hover.markdown}\n\n${beside.markdown}` } : beside;
}

/** The code that the reading's own verdict is reported by: its hover has all that the finding leaves out. */
function judgedAt(view: LogView, offset: number): string | undefined {
  const position = positionAt(view.doc, offset);
  if (position.kind !== "cell" || !position.reading) return undefined;
  return judgeBlock(position.placed.block, view.ctx).get(position.reading)?.code;
}

function hoverPlace(view: LogView, offset: number): Hover | undefined {
  const position = positionAt(view.doc, offset);
  switch (position.kind) {
    case "front":
      return hoverFront(view, position.place);
    case "heading": {
      const { procedure } = position.section;
      const ref = refAt(position, offset);
      const part = ref && hoverProse(view, ref);
      if (part || !procedure) return part;
      const words = touches(position.contentSpan, offset) ? position.contentSpan : position.span;
      const proven =
        kindOf(procedure.id).holds === "proving"
          ? provingListMarkdown(view)
          : provingMarkdown(view, position.section);
      const apart = headingApart(position.section);
      const about = procedureDocumentation(procedure, view.ctx);
      const text = apart === undefined ? about : markdown`${apart}\n\n${about}`;
      if (proven === undefined) return { span: words, markdown: text };
      const picture = matrixPictureOfSection(view, position.section, proven.length);
      return defined({ span: words, markdown: markdown`${proven}\n\n---\n\n${text}`, picture });
    }
    case "header-cell":
      return touches(position.span, offset) ? hoverHeaderCell(view, position) : undefined;
    case "cell":
      return (
        hoverCell(view, position, offset) ??
        hoverWord(view, position.span, offset) ??
        hoverCautions(position, offset)
      );
    case "prose":
      return position.word ? hoverProse(view, position.word) : undefined;
  }
}

/** True over a symptom of the board, whose hover is a diagnosis. */
export function wantsDiagnosis(view: LogView, offset: number): boolean {
  const position = positionAt(view.doc, offset);
  if (position.kind !== "front") return false;
  const { where, path } = position.place;
  return where === "value" && path[0] === "symptoms" && view.ctx.board !== undefined;
}

/** A cell that says something in words may name a part or a net, as a sentence may. */
function hoverWord(view: LogView, cell: Span, offset: number): Hover | undefined {
  const word = wordInCell(view.doc, cell, offset);
  return word && hoverProse(view, word);
}
