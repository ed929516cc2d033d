import type { ColumnRole } from "../../knowledge/types";
import { blockAt } from "../../log/document";
import type { Section } from "../../log/model";
import { positionAt } from "../../log/position";
import { nodeSpan } from "../../syntax/node-span";
import { fromDigits } from "../shared/digits";
import { byPins } from "../shared/tables/layouts";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { completeCell, completeHeaderCell } from "./cell";
import { completeFront } from "./front";
import { notes } from "./notes";
import { completeProse, designatorCompletions } from "./prose";

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
      // What stands beyond the header's last column is shown by nobody.
      if (position.cell.extra) return [];
      return [
        ...(position.role === "note" ? notes(view, position, offset) : completeCell(view, position)),
        ...(position.role === "note" || position.role === undefined
          ? designatorCompletions(view, offset, view.doc.text.slice(position.edit.start, offset))
          : []),
      ];
    case "prose":
      return inCode(view, offset) ? [] : completeProse(view, offset, position.section);
  }
}

/**
 * What digits that were just typed into a cell may stand for, and below a heading of readings the table of the chip that
 * is being typed on a line of its own; nothing anywhere else, where digits are only digits.
 */
export function completeDigits(view: LogView, offset: number): readonly Completion[] {
  const position = positionAt(view.doc, offset);
  if (position.kind === "prose") {
    const { section, before } = position;
    const isChip = section.procedure !== undefined && byPins(section.procedure) && CHIP_BEGUN.test(before);
    return isChip && !inCode(view, offset) ? completeProse(view, offset, section) : [];
  }
  return position.kind === "cell" && !position.cell.extra && position.span.end === offset
    ? fromDigits(view, position)
    : [];
}

/**
 * What a letter just typed brings up by itself: names where names belong, and nothing where a reading, a pin or a word of
 * one's own is being typed. A list that nobody asked for is only to help.
 */
export function completeLetters(view: LogView, offset: number): readonly Completion[] {
  const position = positionAt(view.doc, offset);
  switch (position.kind) {
    case "front":
    case "heading":
    case "header-cell":
      return completeLog(view, offset);
    case "cell": {
      if (position.cell.extra || position.span.end !== offset) return [];
      if (position.role !== undefined && NAMING.has(position.role)) return completeCell(view, position);
      const before = view.doc.text.slice(position.edit.start, offset);
      return position.role === "note" || position.role === undefined
        ? designatorCompletions(view, offset, before)
        : [];
    }
    case "prose": {
      if (inCode(view, offset)) return [];
      if (/^#{1,6}[ \t]/.test(position.before)) return completeProse(view, offset, position.section);
      if (LETTERS_OF_CHIP.test(position.before)) return chipsBegun(view, offset, position);
      return BRACKET.test(position.before) ? designatorCompletions(view, offset, position.before) : [];
    }
  }
}

/** The tables of the chips whose designators begin with the letters on this line, below a heading of readings by pins. */
const chipsBegun = (
  view: LogView,
  offset: number,
  { section, before }: { readonly section: Section; readonly before: string },
): readonly Completion[] =>
  section.procedure !== undefined && byPins(section.procedure)
    ? completeProse(view, offset, section).filter(({ filterText = "" }) =>
        filterText.toUpperCase().startsWith(before.toUpperCase()),
      )
    : [];

/** Columns whose cells are names of the board or of the trade, and no readings. */
const NAMING: ReadonlySet<ColumnRole> = new Set<ColumnRole>([
  "ref",
  "rail",
  "signal",
  "part",
  "from",
  "to",
  "item",
  "action",
  "cell",
  "circuit",
]);

/** A bracket opened for a name. */
const BRACKET = /\[[A-Z]{1,4}\d*$/;

/** What designators begin with, alone on its line. */
const LETTERS_OF_CHIP = /^[A-Za-z]{1,2}$/;

/** A designator in capitals, what is behind it of its number, or as much of a number as no day or count has. */
const CHIP_BEGUN = /^(?:[A-Z]{1,4}\d{1,4}(?: +[A-Z\d]*)?|\d{4,})$/;

/** True on a front-matter fence, in a fenced listing or in a comment: what stands there is no heading and no table. */
function inCode(view: LogView, offset: number): boolean {
  const front = view.doc.parsed.frontMatter;
  if (front && view.doc.text.slice(offset, front.span.end).trim() !== "") return true;
  const placed = blockAt(view.doc, offset);
  if (!placed) return false;
  const { text, tree } = placed.block.source;
  const at = offset - placed.start;
  return tree.children.some((node) => {
    if (node.type !== "code" && node.type !== "html") return false;
    const own = nodeSpan(text, node);
    return own !== undefined && own.start < at && at <= own.end;
  });
}
