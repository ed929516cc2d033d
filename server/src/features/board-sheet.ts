// What a bench sheet of a board is made from where there is no log yet: a log that nobody has typed in, with a table for
// each rail, each chip and each matrix of the board.

import { KINDS } from "../log/kinds";
import { boardLayouts, chipLayout, chipsOf, type TableLayout } from "./shared/tables/layouts";
import type { LogView } from "./view";

/** The head of such a log: enough for its board to be known. */
export const blankHead = (board: string): string =>
  `---\nmendlog: 1\nboard: ${JSON.stringify(board)}\n---\n\n`;

/** The whole of it. @param view of the head alone */
export function blankLog(view: LogView): string {
  const { ctx } = view;
  const board = ctx.board?.value;
  if (!board) return view.doc.text;
  const tables = KINDS.filter(({ boardSheet }) => boardSheet)
    .sort((a, b) => a.boardSheet!.order - b.boardSheet!.order)
    .flatMap(({ id, place, boardSheet }) => {
      const procedure = ctx.library.procedure(id);
      if (!procedure) return [];
      if (place === "pin")
        return chipsOf(view).map((chip) =>
          section(`${procedure.title} ${chip.ref}`, chipLayout(procedure, chip, view)),
        );
      return (boardSheet?.said ?? [""]).flatMap((said) =>
        boardLayouts(procedure, board).map((layout) =>
          section(said === "" ? procedure.title : `${procedure.title}, ${said}`, layout),
        ),
      );
    });
  return [view.doc.text, ...tables].join("");
}

function section(heading: string, { header, rows }: TableLayout): string {
  const line = (cells: readonly (string | undefined)[]): string =>
    `| ${cells.map((cell) => (cell ?? "").replaceAll("|", "\\|")).join(" | ")} |\n`;
  return `## ${heading}\n\n${line(header)}${line(header.map(() => "---"))}${rows.map(line).join("")}\n`;
}
