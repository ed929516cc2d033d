// A log as it is shown rendered: the verdict of every reading, and the pictures that belong below a table.

import { defined } from "../../base/defined";
import { memoBy } from "../../base/memo";
import type { Verdict } from "../../compute/verdict";
import { type Judgement, judgeBlock, judgementsOf } from "../../judge";
import { tablesOf } from "../../log/document";
import type { LogTable } from "../../log/model";
import { chipPicture } from "../../pictures/chip";
import { VERDICT_MARKS } from "../../pictures/marks";
import type { Picture } from "../../pictures/svg";
import { matrixOfTable } from "../../review/matrix/from-log";
import { inWords } from "../../text/saying";
import { chipInput, matrixDrawing } from "../shared/drawings";
import type { LogView } from "../view";

/** The verdict beside one reading. */
export interface ReadingMark {
  /** Offset of the reading's row in the document. */
  readonly at: number;
  /** The cell's place in its row, from 0. */
  readonly column: number;
  /** What stands in the cell, as Markdown: what is marked is held against it. */
  readonly text: string;
  readonly verdict: Verdict;
  /** The verdict's shape and its name. */
  readonly glyph: string;
  readonly words: string;
  readonly sentence: string;
}

/** A table of readings, offsets of the document. */
export interface MarkedTable {
  /** Of the heading that says what was measured; absent for a table before any heading. */
  readonly heading?: number;
  /** Of the header row. */
  readonly start: number;
  readonly marks: readonly ReadingMark[];
  readonly pictures: readonly Picture[];
}

/** Pins of one chip read in a table before its outline says more than the table does. */
const ENOUGH_PINS = 3;
/** Outlines below one table; a log of the whole board's logic would be a wall of them. */
const MOST_CHIPS = 6;

/** Every table of readings of the log, in its order. */
export function* previewOf(view: LogView): Generator<MarkedTable, void> {
  for (const { start, block, table } of tablesOf(view.doc)) {
    const judgements = judgementsOf(table, judgeBlock(block, view.ctx));
    const heading = table.section.heading;
    yield defined({
      heading: heading ? start + heading.span.start : undefined,
      start: start + table.source.header.span.start,
      marks: judgements.flatMap((judgement) => markOf(judgement, table, start)),
      pictures: [...matrixOf(view, table), ...chipsOf(view, table, judgements)],
    });
  }
}

/** Kinds of words that say how something did, "ok" or "dead": where nothing judges them they say it themselves. */
const WORDS: readonly string[] = ["result", "state", "text"];

const speaksForItself = ({ verdict, reading }: Judgement): boolean =>
  verdict === "not-measured" || (verdict === "unjudged" && WORDS.includes(reading.value.kind));

function markOf(judgement: Judgement, table: LogTable, start: number): ReadingMark[] {
  if (speaksForItself(judgement)) return [];
  const { reading, verdict, says } = judgement;
  const sentence = inWords(says);
  const row = table.source.rows[reading.row];
  const column = row?.cells.indexOf(reading.cell) ?? -1;
  if (!row || column < 0) return [];
  const { glyph, words } = VERDICT_MARKS[verdict];
  return [{ at: start + row.span.start, column, text: reading.cell.text, verdict, glyph, words, sentence }];
}

/** The grid as it stood after this table. */
function matrixOf(view: LogView, table: LogTable): Picture[] {
  const board = view.ctx.board?.value;
  const matrix = board && matrixOfTable(table, board);
  const picture = matrix && matrixDrawing(view, matrix, { until: table });
  return picture ? [picture] : [];
}

const chips = memoBy<LogTable, Picture[]>();

/** The outlines of the chips whose pins were read here, with the verdicts of this table alone. */
const chipsOf = (view: LogView, table: LogTable, judgements: readonly Judgement[]): Picture[] =>
  chips(table, () => drawChips(view, judgements), view.ctx);

function drawChips(view: LogView, judgements: readonly Judgement[]): Picture[] {
  const pins = new Map<string, Set<string>>();
  for (const { place, verdict } of judgements) {
    if (!place?.pin || verdict === "not-measured") continue;
    const read = pins.get(place.ref) ?? new Set<string>();
    pins.set(place.ref, read.add(place.pin.number));
  }
  const pictures: Picture[] = [];
  for (const [ref, read] of pins) {
    if (read.size < ENOUGH_PINS) continue;
    if (pictures.length === MOST_CHIPS) break;
    const input = chipInput(view, ref, judgements);
    const picture = input && chipPicture(input);
    if (picture) pictures.push(picture);
  }
  return pictures;
}
