import type { Section } from "../../log/model";
import { shift } from "../../text/span";
import { byPins, tablesToFill } from "../shared/tables/layouts";
import type { LogView } from "../view";
import type { Lens, LensTitle } from "./types";

/** A quoted paragraph that a new log, or somebody, warns in before the work. */
const CAUTION = /^[ \t]*>[ \t]*(?:\*\*)?caution\b.*(?:\r?\n[ \t]*>.*)*$/gim;

/**
 * Above a heading of readings with nothing below it yet, where there is a table for it. Not where anything but
 * cautions stands there, be it a word or a comment, nor where smaller headings follow, nor in the log of a board that has left.
 */
export function emptyLenses(view: LogView): readonly Lens[] {
  return emptySections(view).map(({ lens }) => lens);
}

export function emptyTitle(view: LogView, lens: Lens): LensTitle | undefined {
  const found = emptySections(view).find((each) => each.lens.span.start === lens.span.start);
  if (!found) return undefined;
  const { procedure, ref } = found.section;
  return {
    title:
      procedure && byPins(procedure)
        ? `Nothing here yet: type ${ref?.text ?? someChip(view)}, or insert a table`
        : "Nothing here yet: insert a table",
  };
}

/** Where nobody knows a chip yet, its number belongs to it. */
const someChip = ({ ctx }: LogView): string =>
  ctx.board && ctx.board.value.parts.size > 0
    ? "a designator"
    : "a designator and its number, such as U5 7404";

function emptySections(view: LogView): { readonly lens: Lens; readonly section: Section }[] {
  const { doc, front } = view;
  if (front.stage === "returned" || front.stage === "scrapped") return [];
  const headed = doc.blocks.flatMap(({ start, block }) =>
    block.sections.flatMap((section) =>
      section.heading
        ? [{ section, depth: section.heading.depth, at: shift(section.heading.span, start) }]
        : [],
    ),
  );
  return headed.flatMap(({ section, depth, at }, i) => {
    const next = headed[i + 1];
    if (!hasTable(view, section) || (next && next.depth > depth)) return [];
    if (doc.text.slice(at.end, next?.at.start).replace(CAUTION, "").trim() !== "") return [];
    return [{ lens: { span: at, of: "empty" }, section }];
  });
}

/** A chip's table needs no more than a number that the library knows. */
const hasTable = (view: LogView, { procedure }: Section): boolean =>
  procedure !== undefined && (byPins(procedure) || tablesToFill(procedure, view).length > 0);
