import { judgeBlock } from "../../judge";
import type { Judgement } from "../../judge/types";
import { tablesOf } from "../../log/document";
import type { Reading } from "../../log/model";
import { VERDICT_MARKS } from "../../pictures/marks";
import { inWords } from "../../text/saying";
import { boardsOf, type LogView } from "../view";
import { bounded, MOST_READINGS } from "./bounds";

/** One reading with its verdict, in words that an assistant can pass on. */
export interface AssistantReading {
  /** What was read, by the role of the cells that say so: { ref: "U14", pin: "3" }; its `board` too where there are several. */
  readonly of: Readonly<Record<string, string>>;
  /** As it is typed. */
  readonly reading: string;
  /** "Out of limits". */
  readonly verdict: string;
  readonly sentence: string;
  /** The table's procedure: "Diode check". */
  readonly procedure: string;
}

export interface AssistantReadings {
  /** Readings that were asked for, all of them. */
  readonly total: number;
  /** Each with the offset of its cell. */
  readonly readings: readonly (AssistantReading & { readonly at: number })[];
  /** Where to go on; absent where these are the last. */
  readonly next?: number;
}

export interface WhichReadings {
  /** A designator; every part's where it is not given. */
  readonly ref?: string;
  /** How many of them to pass over. */
  readonly from?: number;
}

/** The readings of a log with their verdicts, in its order; empty cells are none. */
export function assistantReadings(view: LogView, { ref, from = 0 }: WhichReadings): AssistantReadings {
  const wanted = ref?.trim().toUpperCase();
  const all: {
    readonly reading: Reading;
    readonly start: number;
    readonly table: Judgement;
    readonly board: string | undefined;
  }[] = [];
  for (const { doc, ctx } of boardsOf(view)) {
    for (const { start, block, table } of tablesOf(doc)) {
      const judged = judgeBlock(block, ctx);
      for (const reading of table.readings) {
        const judgement = judged.get(reading);
        if (!judgement || reading.value.kind === "empty") continue;
        if (wanted && reading.subject.ref?.text.toUpperCase() !== wanted) continue;
        all.push({ reading, start, table: judgement, board: doc.ofSet?.name });
      }
    }
  }
  // Two boards of a set may stand in turns.
  if (view.set)
    all.sort((a, b) => a.start - b.start || a.reading.cell.span.start - b.reading.cell.span.start);
  const first = Number.isInteger(from) && from > 0 ? from : 0;
  const end = first + MOST_READINGS;
  return {
    total: all.length,
    readings: all.slice(first, end).map(({ reading, start, table, board }) => {
      const { of, ...rest } = assistantReading(table);
      return {
        ...rest,
        of: board === undefined ? of : { board: bounded(board), ...of },
        at: start + reading.cell.span.start,
      };
    }),
    ...(end < all.length ? { next: end } : {}),
  };
}

export function assistantReading({ reading, verdict, says }: Judgement): AssistantReading {
  const of = Object.entries(reading.subject).flatMap(([role, cell]) =>
    cell ? [[role, bounded(cell.text)] as const] : [],
  );
  return {
    of: Object.fromEntries(of),
    reading: bounded(reading.cell.text.trim()),
    verdict: VERDICT_MARKS[verdict].words,
    sentence: bounded(inWords(says)),
    procedure: bounded(reading.table.procedure.title),
  };
}
