// What the tables of an item's procedure show since the last repair.

import { defined } from "../../base/defined";
import { keyOf, keysOf, lineName, shapeOf } from "../../compute/matrix/shape";
import { judgeBlock } from "../../judge";
import type { LogContext } from "../../judge/context";
import type { Board, ProvingItem } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import { kindOf } from "../../log/kinds";
import type { LogTable, PlacedTable, Reading } from "../../log/model";
import { isSinceRepair, type Timeline } from "../../log/timeline";
import { shift } from "../../text/span";
import { crossingOf, matrixLogs, matrixOfTable } from "../matrix/from-log";
import { provingOf } from "../matrix/log-review";
import { COVERS, type Covered, type Judged } from "./coverage";
import type { Coverage, Said, Shown } from "./types";

export interface Sources {
  readonly doc: LogDocument;
  readonly ctx: LogContext;
  readonly board: Board;
  readonly tables: readonly PlacedTable[];
  readonly timeline: Timeline;
  /** Id of the ROM set in the log's front matter. */
  readonly romSet?: string;
}

export function evidenceFor(item: ProvingItem, sources: Sources): Shown {
  const { board, ctx, tables, timeline, romSet } = sources;
  const procedure = ctx.library.procedure(item.procedure);
  const title = procedure?.title ?? item.procedure;
  const matrix = item.matrix === undefined ? undefined : board.matrices.get(item.matrix);
  const own = tables.filter(
    (placed) =>
      placed.table.procedure.id === item.procedure &&
      (!matrix || matrixOfTable(placed.table, board) === matrix) &&
      isSinceRepair(timeline, placed.table),
  );
  const judged: (Judged & { readonly start: number; readonly sentence?: string })[] = own.flatMap(
    (placed) => {
      const judgements = judgeBlock(placed.block, ctx);
      return placed.table.readings.flatMap((reading) => {
        if (reading.value.kind === "empty" || isReserved(reading, board)) return [];
        const judgement = judgements.get(reading);
        return [
          defined({
            reading,
            start: placed.start,
            ok: okOf(reading, judgement?.verdict),
            sentence: judgement?.sentence,
          }),
        ];
      });
    },
  );
  const { covers } = kindOf(item.procedure);
  const covered: Covered | undefined =
    covers === "matrix" ? coverMatrix(item, sources) : covers && COVERS[covers](judged, item, board, romSet);
  const startOf = new Map(own.map(({ table, start }) => [table, start]));
  const spanOf = ({ table, cell }: Reading) => shift(cell.span, startOf.get(table) ?? 0);
  const against: Said[] = [
    ...judged
      .filter(({ ok }) => ok === false)
      .map(({ reading }) => ({
        span: spanOf(reading),
        text: `${aboutOf(reading)} reads "${reading.value.typed}"`,
      })),
    ...(covered?.wrong ?? []).map(({ reading, text }) => ({ span: spanOf(reading), text })),
  ];
  const speaking = judged.filter(({ ok }) => ok === true);
  const all = covered
    ? covered.missing.length === 0
    : speaking.length > 0 && judged.every(({ reading, ok }) => ok === true || reading.spec.role === "check");
  const powered = procedure?.powered !== "unpowered";
  const first = own[0];
  return defined({
    complete: all && powered && against.length === 0,
    for:
      first && (all || speaking.length > 0)
        ? [{ span: headingSpan(first.table, first.start), text: tableText(title, covered) }]
        : [],
    against,
    coverage: covered ? pick(covered) : undefined,
    wants: powered
      ? covered?.wants || `Test it and write the results under "${title} after repair".`
      : "Unpowered readings cannot prove it: try it under power and load.",
  });
}

const pick = ({ done, total, what, missing }: Covered) =>
  defined<Coverage>({
    done,
    total,
    what,
    missing,
  });

const tableText = (title: string, covered: Covered | undefined): string =>
  `the table "${title}" shows ${covered ? `${covered.done} of ${covered.total ?? covered.done} ${covered.what}` : "it working"}`;

const headingSpan = ({ source }: LogTable, start: number) => shift(source.header.span, start);

/** The words of the log decide results, the judgement decides readings; everything else says neither. */
function okOf({ spec, value }: Reading, verdict: string | undefined): boolean | undefined {
  if (spec.role === "result") return value.kind === "result" ? value.ok : undefined;
  if (spec.role !== "reading") return undefined;
  if (verdict === "within-limits") return true;
  return verdict === "out-of-limits" || verdict === "impossible" ? false : undefined;
}

/** A crossing that must not be exercised speaks neither way. */
function isReserved(reading: Reading, board: Board): boolean {
  const matrix = matrixOfTable(reading.table, board);
  if (!matrix) return false;
  const shape = shapeOf(matrix);
  const cell = crossingOf(reading, shape);
  return cell !== undefined && keysOf(shape.reserved).has(keyOf(cell));
}

function coverMatrix(item: ProvingItem, { doc, board }: Sources): Covered | undefined {
  const kind = kindOf(item.procedure).matrix;
  const matrix =
    (item.matrix === undefined ? undefined : board.matrices.get(item.matrix)) ??
    [...board.matrices.values()].find((each) => each.kind === kind);
  if (!matrix) return undefined;
  const shape = shapeOf(matrix);
  const log = matrixLogs(doc, board).find((each) => each.matrix === matrix);
  const plan = log && provingOf(log, board);
  const what = "rows and columns that answer";
  if (!plan) {
    const total = shape.rows + shape.columns;
    return {
      done: 0,
      total,
      what,
      missing: ["every row and column"],
      wants: `Test a crossing on every row and column of ${matrix.title}.`,
    };
  }
  return {
    done: plan.proven.length,
    total: plan.proven.length + plan.unproven.length,
    what,
    missing: plan.unproven.map((line) => lineName(shape, line)),
    wants: plan.unproven.length > 0 ? plan.sentence : "",
  };
}

/** "U14 pin 3", "row 7 column 4", "+5V", "Digit 2". */
function aboutOf({ subject, table }: Reading): string {
  const { ref, pin, rail, signal, item, row, column, cell } = subject;
  if (row && column) return `row ${row.text} column ${column.text}`;
  const place = ref ? `${ref.text}${pin ? ` pin ${pin.text}` : ""}` : undefined;
  return (
    rail?.text ?? place ?? signal?.text ?? item?.text ?? cell?.text ?? table.procedure.title.toLowerCase()
  );
}
