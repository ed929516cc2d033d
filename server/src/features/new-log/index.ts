// The text of a new log: its front matter, and the sections that its board calls for, still to be filled in.
import { defined } from "../../base/defined";
import type { Library } from "../../knowledge/library";
import type { Board } from "../../knowledge/types";
import { md } from "../../text/markdown";
import { writeLayout } from "../shared/tables/write";
import type { NamedBoard } from "./board-named";
import { type NewLogFacts, tidyFacts } from "./facts";
import { frontLines } from "./front";
import { sectionsFor } from "./sections";

export { boardFromWords, type NamedBoard } from "./board-named";
export type { NewLogFacts } from "./facts";

/**
 * @param board that the facts name, known or not
 * @returns the whole text, line ends LF
 */
export function newLogText(facts: NewLogFacts, board: NamedBoard | undefined, library: Library): string {
  const { board: _words, ...others } = tidyFacts(facts);
  const tidy = defined({ ...others, board: board?.id });
  const lines = [
    ...frontLines(tidy),
    "",
    `# ${titleOf(tidy, board)}`,
    "",
    ...cautionLines(board?.file?.value),
    ...sectionsFor(board, library).flatMap(({ heading, cautions, table }) => [
      `## ${md(heading)}`,
      "",
      ...cautions.flatMap((caution) => [`> Caution: ${md(caution)}`, ""]),
      // Where the tables come with the work there is a line to begin them on, apart from the caution above.
      ...(table ? [...writeLayout(table).plain, ""] : ["", ""]),
    ]),
  ];
  return `${lines.join("\n").trimEnd()}\n`;
}

/** What the board's own file warns of stands before everything else. */
const cautionLines = (board: Board | undefined): string[] =>
  board && board.cautions.length > 0
    ? ["## Cautions", "", ...board.cautions.map((caution) => `- ${md(caution)}`), ""]
    : [];

/** "Regatta controller 01873: a row is dead, lane 3 never scores". */
function titleOf({ job, serial, symptoms = [] }: NewLogFacts, board: NamedBoard | undefined): string {
  const named = board && isUndated(board.title) ? board.title : undefined;
  const what = named ?? (job !== undefined && isUndated(job) ? `Job ${job}` : "Repair log");
  const told = symptoms.map((symptom) => board?.known?.symptoms.get(symptom)?.title ?? symptom);
  // A day in a heading is read as the day of what stands below it.
  const wrong = told.filter(isUndated).join(", ");
  const name = [what, ...(serial !== undefined && isUndated(serial) ? [serial] : [])].join(" ");
  return md(wrong === "" ? name : `${name}: ${wrong}`);
}

const isUndated = (text: string): boolean => !/\d{4}-\d{2}-\d{2}/.test(text);
