// What may be taken for a symptom or for each other: displays with a segment dark, switches that do the same to the
// player. Said beside the symptom, so that the cheap test comes before the meter.
import type { LogContext } from "../../judge/context";
import type { Board, Symptom } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import {
  inputsCalled,
  inputsMeant,
  type NamedInput,
  type SharedLine,
  sharedLines,
} from "../../review/symptoms/inputs";
import { resultsAt } from "../../review/symptoms/results";
import { darkSegment } from "../../review/symptoms/segments";
import { joined, type Markdown, markdown, md } from "../../text/markdown";

/** More inputs than these are no hint any more. */
const NAMED = 8;

/**
 * Look-alikes of a symptom of the board file, or the inputs that other words may mean.
 * @param typed the symptom as written in the log
 */
export function lookAlikes(
  typed: string,
  symptom: Symptom | undefined,
  ctx: LogContext,
  board: Board,
  doc: LogDocument,
): Markdown | undefined {
  const displays = symptom ? displayLines(symptom, board) : [];
  const inputs = symptom ? inputsCalled(symptom.inputs ?? [], board) : inputsMeant(typed, board);
  const parts = [
    ...(displays.length > 0 ? [markdown`**Looks the same on the display:**\n${joined(displays, "\n")}`] : []),
    ...(inputs.length > 0 ? [inputText(symptom === undefined, inputs, ctx, board, doc)] : []),
  ];
  return parts.length > 0 ? joined(parts, "\n\n") : undefined;
}

function displayLines(symptom: Symptom, board: Board): Markdown[] {
  const { shows } = symptom;
  if (shows === undefined) return [];
  return [...board.symptoms.values()].flatMap((other) => {
    if (other === symptom || other.shows === undefined) return [];
    const here = darkSegment(shows, other.shows);
    const there = darkSegment(other.shows, shows);
    const title = markdown`${md(other.shows)} (${md(other.title)})`;
    if (here !== undefined) {
      return [
        markdown`- ${title} shows as this with segment ${md(here.toUpperCase())} dark: run a display test first.`,
      ];
    }
    return there === undefined
      ? []
      : [
          markdown`- With segment ${md(there.toUpperCase())} dark this one shows as ${title}: run a display test first.`,
        ];
  });
}

function inputText(
  guessed: boolean,
  inputs: readonly NamedInput[],
  ctx: LogContext,
  board: Board,
  doc: LogDocument,
): Markdown {
  const found = resultsAt(doc, board);
  const lines = inputs.slice(0, NAMED).map((input) => {
    const { row, column } = input.cell;
    const said = found(input);
    return markdown`- **${md(input.name)}**: row ${row} (${lineText(input.matrix.rows[row - 1], board, ctx)}), column ${column} (${lineText(input.matrix.columns[column - 1], board, ctx)})${said === undefined ? "" : markdown`; in this log: ${md(said)}`}`;
  });
  if (inputs.length > NAMED) lines.push(markdown`- and ${inputs.length - NAMED} more`);
  const shared = sharedLines(inputs);
  return joined(
    [
      markdown`**${guessed ? markdown`Inputs these words may mean` : markdown`Inputs that do the same`}:**\n${joined(lines, "\n")}`,
      ...(inputs.length > 1 ? [apart(inputs, shared)] : []),
    ],
    "\n\n",
  );
}

/** "SW_ROW_7: U14 pin 1". */
function lineText(net: string | undefined, board: Board, { library }: LogContext): Markdown {
  if (net === undefined) return markdown`no net given`;
  const chips = (board.nets.get(net)?.pins ?? []).filter(({ ref }) => {
    const device = board.parts.get(ref)?.device;
    return device !== undefined && library.device(device) !== undefined;
  });
  return joined(
    [md(net), ...chips.slice(0, 2).map(({ ref, pin }) => markdown`${md(ref)} pin ${md(pin)}`)],
    ", ",
  );
}

/** Which test tells the inputs apart. */
function apart(inputs: readonly NamedInput[], shared: readonly SharedLine[]): Markdown {
  const all = shared.find((line) => line.inputs.length === inputs.length);
  if (all) {
    const other = all.kind === "row" ? "columns" : "rows";
    return markdown`To tell them apart: all are on ${md(all.kind)} ${all.number}. If every one of them is dead, that line is; if one alone is, look at its switch, diode and wire. Their ${md(other)} differ, so close them one at a time and watch which ${md(other)} answer.`;
  }
  const some = shared[0];
  const pair = some
    ? markdown` ${joined(
        some.inputs.map(({ name }) => md(name)),
        " and ",
      )} share ${md(some.kind)} ${some.number}, so they fail together when that line does; the others do not.`
    : markdown` No two of them share a row or a column, so one dead line accounts for one of them only.`;
  return markdown`To tell them apart: close each at the bench and see which crossing answers.${pair}`;
}
