// What the workspace remembers of a log once its text is let go: small, plain data, without a verdict in it.

import { defined } from "../base/defined";
import { memo } from "../base/memo";
import type { FrontMatter, Stage } from "../knowledge/load-front-matter";
import type { CellValue } from "../quantity/cell-value";
import { sectionsOfSet } from "./boards-of-set";
import { type LogDocument, tablesOf } from "./document";
import { hoursIn } from "./hours";
import type { LogRow, LogTable, Qualifiers, Reading } from "./model";
import { statementsOf, withoutPlace } from "./stated/of-block";
import type { Statement } from "./stated/statement";
import { momentIn, timelineOf, type WorkRow } from "./timeline";

/** What one log is to all others: who, which board, what was read, done and proven. Days are ISO 8601. */
export interface LogSummary {
  readonly uri: string;
  /** The first heading of the first level. */
  readonly title?: string;
  readonly job?: string;
  /** Board id as written; whether there is such a board is not asked here. */
  readonly board?: string;
  readonly revision?: string;
  readonly serial?: string;
  readonly owner?: string;
  readonly meter?: string;
  readonly stage?: Stage;
  /** ISO 8601 days. */
  readonly received?: string;
  readonly returned?: string;
  readonly symptoms: readonly string[];
  readonly comebackOf?: string;
  /** As its front matter says; the shop's own days of warranty are not in it. */
  readonly warrantyUntil?: string;
  /** Its board is known to work: what it reads stands for others of the type. */
  readonly reference?: true;
  /** Hours noted in it, added up; absent where none are. */
  readonly hours?: number;
  readonly work: readonly WorkItem[];
  readonly fitted: readonly FittedPart[];
  /** In the order of the log, tables without a reading left out. */
  readonly tables: readonly SummaryTable[];
  readonly proving: readonly ProvingResult[];
  /** What it says of its board, the same words once. */
  readonly stated: readonly Statement[];
  /** Ids of the boards, where the log is about several; it then has no `board`. */
  readonly boards?: readonly string[];
  /** What it says of each of them. */
  readonly each?: readonly LogSummary[];
}

/** What the logs say board by board. */
export const eachBoard = (logs: Iterable<LogSummary>): LogSummary[] =>
  [...logs].flatMap((log) => log.each ?? [log]);

/** One row of work that is not only planned, every cell as typed. */
export interface WorkItem {
  readonly ref?: string;
  /** Further designators of the same row, in capitals; absent where it names one or none. */
  readonly also?: readonly string[];
  readonly action: string;
  readonly part?: string;
  /** The action says that another part stands there now, and no row that the first was put back. */
  readonly replaced: boolean;
}

export interface FittedPart {
  readonly ref?: string;
  readonly part: string;
}

export interface ProvingResult {
  readonly item: string;
  readonly result: string;
  /** Absent where the words leave it open. */
  readonly ok?: boolean;
}

/** The readings of one table; what holds for all of them is said once. */
export interface SummaryTable extends Qualifiers {
  readonly procedure: string;
  /** Work that was done, or a part fitted, stands above it. */
  readonly behindWork: boolean;
  readonly readings: readonly SummaryReading[];
}

/** A quantity that was read, with its place as typed. Values in `unit`, SI base. */
export interface SummaryReading {
  readonly ref?: string;
  readonly pin?: string;
  readonly rail?: string;
  readonly signal?: string;
  readonly measure: string;
  /** A part or a track was off while it was read, so that it is not what the whole board reads. */
  readonly apart?: true;
  /** `about` is a value with a "~" before it; `over` and `under` are bounds, whose value stands in `low` or `high`. */
  readonly kind: "value" | "about" | "range" | "over" | "under" | "open" | "short";
  /** Lower and upper end of what was typed, alike for a single value; an end that is open is absent. */
  readonly low?: number;
  readonly high?: number;
  /** One step of the last digit typed; 0 where no number was. */
  readonly resolution: number;
  readonly unit: string;
}

/**
 * Sums up a log as it stands. A log of which nothing can be read gives a summary with nothing in it.
 */
export function summarise(doc: LogDocument): LogSummary {
  const { boards } = doc.frontMatter.value ?? {};
  if (!boards) return summaryOf(doc);
  const { board: _board, ...whole } = summaryOf(doc);
  const { logs } = sectionsOfSet(doc, boards);
  return { ...whole, stated: [], boards: boards.map(({ board }) => board), each: logs.map(summaryOf) };
}

function summaryOf(doc: LogDocument): LogSummary {
  const front: Partial<FrontMatter> = doc.frontMatter.value ?? {};
  const timeline = timelineOf(doc);
  const fitted: FittedPart[] = [];
  const proving: ProvingResult[] = [];
  const tables: SummaryTable[] = [];
  for (const { table } of tablesOf(doc)) {
    const sum = sumOf(table);
    fitted.push(...sum.fitted);
    proving.push(...sum.proving);
    if (sum.readings.length === 0) continue;
    tables.push({
      procedure: table.procedure.id,
      ...table.section.qualifiers,
      behindWork: momentIn(timeline, table).behindWork,
      readings: sum.readings,
    });
  }
  const title = titleOf(doc);
  return defined({
    uri: doc.uri,
    title,
    ...present(front, ["job", "board", "revision", "serial", "owner", "meter", "stage"]),
    ...present(front, ["received", "returned", "comebackOf", "reference", "warrantyUntil"]),
    symptoms: front.symptoms ?? [],
    hours: hoursNoted(doc),
    work: timeline.rows.flatMap(workItem),
    fitted,
    tables,
    proving,
    stated: statedIn(doc),
  });
}

/** What one table adds; kept with the table, so that an edit costs its own block only. */
interface TableSum {
  readonly fitted: readonly FittedPart[];
  readonly proving: readonly ProvingResult[];
  readonly readings: readonly SummaryReading[];
}

const sumOf = memo((table: LogTable): TableSum => {
  const { holds } = table.kind;
  return {
    fitted: holds === "fitted" ? table.rows.flatMap(fittedPart) : [],
    proving: holds === "proving" ? table.readings.flatMap(provingResult) : [],
    readings: table.readings.flatMap(summaryReading),
  };
});

/** Added in ten-thousandths, the finest that can be noted: 0.1 and 0.2 are 0.3. */
function hoursNoted(doc: LogDocument): number | undefined {
  const { lines } = hoursIn(doc);
  if (lines.length === 0) return undefined;
  return lines.reduce((sum, { hours }) => sum + Math.round(Number(hours) * 1e4), 0) / 1e4;
}

function workItem({ kind, state, replaced, refs, row: { cells } }: WorkRow): WorkItem[] {
  if (kind !== "work" || state === "planned") return [];
  const { ref, action, part } = cells;
  const first = ref?.text.toUpperCase();
  const also = refs.filter((each) => each !== first);
  return [
    defined({
      ref: ref?.text,
      also: refs.length > 1 && also.length > 0 ? also : undefined,
      action: action?.text ?? "",
      part: part?.text,
      replaced,
    }),
  ];
}

const fittedPart = ({ cells: { ref, part } }: LogRow): FittedPart[] =>
  part ? [defined({ ref: ref?.text, part: part.text })] : [];

function provingResult({ subject, value }: Reading): ProvingResult[] {
  const item = subject.item?.text;
  if (item === undefined || value.kind === "empty") return [];
  const ok = value.kind === "result" ? value.ok : undefined;
  return [defined({ item, result: value.typed, ok })];
}

function summaryReading({ subject, spec, measure, value, apart }: Reading): SummaryReading[] {
  if (spec.role !== "reading") return [];
  const read = quantityRead(value, spec.quantity);
  if (!read) return [];
  const { ref, pin, rail, signal } = subject;
  return [
    defined({
      ref: ref?.text,
      pin: pin?.text,
      rail: rail?.text,
      signal: signal?.text,
      measure,
      apart: apart ? (true as const) : undefined,
      ...read,
    }),
  ];
}

type Read = Pick<SummaryReading, "kind" | "low" | "high" | "resolution" | "unit">;

/** Undefined for a cell without a quantity, and for one of another dimension than the column's: it is no reading. */
function quantityRead(value: CellValue, wanted: string | undefined): Read | undefined {
  switch (value.kind) {
    case "quantity": {
      const { value: at, resolution, unit, dimension } = value.quantity;
      if (wanted !== undefined && dimension !== wanted) return undefined;
      return { kind: value.approx ? "about" : "value", low: at, high: at, resolution, unit };
    }
    case "range": {
      const { low, high } = value;
      if (wanted !== undefined && high.dimension !== wanted) return undefined;
      const resolution = Math.max(low.resolution, high.resolution);
      return { kind: "range", low: low.value, high: high.value, resolution, unit: high.unit };
    }
    case "bound": {
      const { value: at, resolution, unit, dimension } = value.quantity;
      if (wanted !== undefined && dimension !== wanted) return undefined;
      return value.op.startsWith(">")
        ? { kind: "over", low: at, resolution, unit }
        : { kind: "under", high: at, resolution, unit };
    }
    case "open":
      return { kind: "open", resolution: 0, unit: "" };
    case "short":
      return { kind: "short", low: 0, high: 0, resolution: 0, unit: "" };
    default:
      return undefined;
  }
}

function statedIn({ blocks, library }: LogDocument): Statement[] {
  const all = new Map<string, Statement>();
  for (const { block } of blocks) {
    for (const placed of statementsOf(block, library).all) {
      const statement = withoutPlace(placed);
      all.set(JSON.stringify(statement), statement);
    }
  }
  return [...all.values()];
}

function titleOf(doc: LogDocument): string | undefined {
  for (const { block } of doc.blocks) {
    const heading = block.source.headings.find(({ depth }) => depth === 1);
    if (heading) return heading.text;
  }
  return undefined;
}

function present<T, K extends keyof T>(from: T, keys: readonly K[]): Pick<T, K> {
  const some: Partial<T> = {};
  for (const key of keys) if (from[key] !== undefined) some[key] = from[key];
  return some as Pick<T, K>;
}
