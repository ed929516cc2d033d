// One telling of when each table of a log was taken: what work stands before it and what after, and which of that work
// was done, which only planned, and which tried and put back. Words and places alone, no verdicts.

import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import type { KeyRun } from "../../base/runs";
import type { Span } from "../../text/span";
import { shift } from "../../text/span";
import type { LogDocument } from "../document";
import { blockRuns, tablesThat } from "../in-blocks";
import type { CellText, LogBlock, LogTable, Qualifiers } from "../model";
import { type RowOfWork, rowsOfWork, rowsRead, withPutBack } from "./work";

/**
 * A table of work is a repair where at least one of its rows was done or put back: hands were on the board, and what
 * was read above it may read otherwise below. Plans are none.
 */
export interface Timeline {
  readonly repairs: number;
  /** The most repairs that a table was taken after; see `Moment`. */
  readonly latest: number;
  readonly moments: ReadonlyMap<LogTable, Moment>;
  /** Every row of work and of parts fitted, in the order of the log. */
  readonly rows: readonly WorkRow[];
  /** Designator as typed, in capitals, to the last repair in which another part was put there to stay, from 1. */
  readonly replaced: ReadonlyMap<string, number>;
  /** The same for any work that was done there. */
  readonly worked: ReadonlyMap<string, number>;
  /** The latest ISO 8601 day written beside work that was done. */
  readonly lastDay?: string;
}

/** When a table was taken. */
export interface Moment {
  /** How many repairs came before: as its heading says before or after one, else as many as stand above. */
  readonly repairs: number;
  /** The same, half a step later for what was taken "again" or "after cleaning": repair or none, it came later. */
  readonly order: number;
  /** How many repairs stand above it, whatever its heading says. */
  readonly above: number;
  /** Work that was done, or a part fitted, stands in it or above it. */
  readonly behindWork: boolean;
}

export interface WorkRow extends RowOfWork {
  /** The repair it is part of, from 1; where it is only planned, the last one before it. */
  readonly repair: number;
  /** Spans in its cells count from here. */
  readonly start: number;
}

/** What was done to the board and when each table was taken, by the whole log. Made once for a document. */
export const timelineOf = memo((doc: LogDocument): Timeline => {
  const rows = withPutBack(placedRows(doc));
  const first = rows.find(({ state, bare, kind }) => state === "done" && !(kind === "fitted" && bare))?.table;
  const replaced = new Map<string, number>();
  const worked = new Map<string, number>();
  let lastDay: string | undefined;
  for (const row of rows) {
    if (row.kind !== "work" || row.state === "planned") continue;
    if (row.day !== undefined && (lastDay === undefined || row.day > lastDay)) lastDay = row.day;
    const ref = row.ref?.text.toUpperCase();
    if (ref === undefined || row.state !== "done") continue;
    worked.set(ref, row.repair);
    if (row.replaced) replaced.set(ref, row.repair);
  }
  const moments = new Map<LogTable, Moment>();
  let above = 0;
  let behindWork = false;
  let latest = 0;
  for (const { run } of blockRuns(doc)) {
    for (const told of tablesInRun(run)) {
      const { table } = told;
      // What a swap came to was seen of the part that stood there before, and stands before what was left in.
      const swaps = table.kind.holds === "swaps" ? momentOf(told, above, behindWork) : undefined;
      if (told.isRepair) above += 1;
      behindWork ||= table === first;
      const moment = swaps ?? momentOf(told, above, behindWork);
      latest = Math.max(latest, moment.repairs);
      moments.set(table, moment);
    }
  }
  return defined({
    repairs: above,
    latest,
    moments,
    rows,
    replaced,
    worked,
    lastDay,
  });
});

function placedRows(doc: LogDocument): WorkRow[] {
  const rows: WorkRow[] = [];
  let repair = 0;
  for (const { start, table } of tablesOfWork(doc)) {
    if (isRepair(table)) repair += 1;
    for (const row of rowsRead(table)) rows.push({ ...row, repair, start });
  }
  return rows;
}

/** Every other table has no rows of work. */
const tablesOfWork = tablesThat((table) => rowsRead(table).length > 0);

const isRepair = (table: LogTable): boolean =>
  rowsOfWork(table).some(
    ({ kind, state }) =>
      kind === "work" && (table.kind.holds === "swaps" ? state === "done" : state !== "planned"),
  );

/** "Resistance to ground after cleaning", "Diode check again". */
const AGAIN = /\b(?:after|again|second time|once more)\b/i;

/** What a table says by itself of when it was taken. */
interface TableInTime {
  readonly table: LogTable;
  readonly isRepair: boolean;
  readonly said: Qualifiers["repair"];
  readonly again: boolean;
}

const tablesInRun = memo(({ keys }: KeyRun<LogBlock>): readonly TableInTime[] =>
  keys.flatMap(({ tables }) =>
    tables.map((table): TableInTime => {
      const { qualifiers, heading } = table.section;
      const said = qualifiers.repair;
      return {
        table,
        isRepair: isRepair(table),
        said,
        again: said === undefined && AGAIN.test(heading?.text ?? ""),
      };
    }),
  ),
);

function momentOf({ said, again }: TableInTime, above: number, behindWork: boolean): Moment {
  const repairs = said === "before" ? 0 : said === "after" ? Math.max(1, above) : above;
  return { repairs, order: again ? repairs + 0.5 : repairs, above, behindWork };
}

const BEFORE_ALL: Moment = { repairs: 0, order: 0, above: 0, behindWork: false };

/** When a table of the timeline's document was taken; before all work for any other. */
export const momentIn = ({ moments }: Timeline, table: LogTable): Moment => moments.get(table) ?? BEFORE_ALL;

/** Taken after that repair: by the table's heading where that says before or after, else by standing below it. */
export function isAfter(timeline: Timeline, table: LogTable, repair: number): boolean {
  const said = table.section.qualifiers.repair;
  return said === undefined ? momentIn(timeline, table).above >= repair : said === "after";
}

/** Taken since the last repair; everything is where there was none. */
export const isSinceRepair = (timeline: Timeline, table: LogTable): boolean =>
  isAfter(timeline, table, timeline.repairs);

/** True for a row read since the last repair: by its own day where it and the work have one, else by its table. */
export function isRowSinceRepair(timeline: Timeline, table: LogTable, row: number): boolean {
  const day = table.rows.find(({ index }) => index === row)?.cells.date?.text ?? "";
  return timeline.lastDay !== undefined && /^\d{4}-\d{2}-\d{2}$/.test(day)
    ? day >= timeline.lastDay
    : isSinceRepair(timeline, table);
}

/** What was done, or put in, in the order of the log. */
export const workRows = (doc: LogDocument): readonly WorkRow[] => rowsThatAre(doc, "done");

/** What is only planned, in the order of the log. */
export const plannedRows = (doc: LogDocument): readonly WorkRow[] => rowsThatAre(doc, "planned");

const rowsThatAre = (doc: LogDocument, wanted: WorkRow["state"]): WorkRow[] =>
  timelineOf(doc).rows.filter(({ state, bare }) => state === wanted && !bare);

/** Where a cell of a row of work stands in the document. */
export const placeIn = (row: WorkRow, cell: CellText): Span => shift(cell.span, row.start);
