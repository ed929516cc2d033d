// What the tables of an item's procedure show since the last repair.

import { defined } from "../../base/defined";
import {
  crossingKey,
  keysOf,
  lineName,
  type MatrixLine,
  type MatrixShape,
  shapeOf,
} from "../../compute/matrix/shape";
import { judgeBlock } from "../../judge";
import type { LogContext } from "../../judge/context";
import type { Board, Matrix, ProvingItem } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import { kindOf } from "../../log/kinds";
import type { LocatedTable, LogTable, Reading } from "../../log/model";
import { isSinceRepair, type Timeline } from "../../log/timeline";
import { shift } from "../../text/span";
import { crossingOf, matrixLogs, matrixOfTable } from "../matrix/from-log";
import { provingOf } from "../matrix/log-review";
import { COVERS, type Covered } from "./coverage";
import { coilOf, linesFired, linesLit } from "./fired";
import { okOf } from "./ok";
import type { Coverage, Judged, ProofClaim, ShownByTables } from "./types";

export interface ProvingInputs {
  readonly doc: LogDocument;
  readonly ctx: LogContext;
  readonly board: Board;
  readonly tables: readonly LocatedTable[];
  readonly timeline: Timeline;
  /** Id of the ROM set in the log's front matter. */
  readonly romSet?: string;
}

export function evidenceFor(item: ProvingItem, sources: ProvingInputs): ShownByTables {
  const { board, ctx, tables, timeline, romSet } = sources;
  const procedure = ctx.library.procedure(item.procedure);
  const title = procedure?.title ?? item.procedure;
  const matrix = item.matrix === undefined ? undefined : board.matrices.get(item.matrix);
  const { covers, provesNothing } = kindOf(item.procedure);
  const fired = firedFor(item, board);
  const own = tables.filter(
    ({ table }) =>
      (table.procedure.id === item.procedure
        ? !matrix || matrixOfTable(table, board) === matrix
        : fired !== undefined && table.kind.fires) && isSinceRepair(timeline, table),
  );
  const judged: (Judged & { readonly start: number })[] = own.flatMap((placed) => {
    const judgements = judgeBlock(placed.block, ctx);
    return placed.table.readings.flatMap((reading) => {
      if (reading.value.kind === "empty" || isReserved(reading, board)) return [];
      // Of outputs that another item is of nothing is said here.
      const isOwn = placed.table.procedure.id === item.procedure;
      if (!isOwn && !fired?.(reading)) return [];
      const judgement = judgements.get(reading);
      return [
        defined({
          reading,
          start: placed.start,
          ok: spoken(reading, okOf(reading, judgement?.verdict)),
        }),
      ];
    });
  });
  const covered: Covered | undefined =
    covers === "matrix"
      ? coverMatrix(item, sources, judged)
      : covers && COVERS[covers](judged, item, board, romSet);
  const startOf = new Map(own.map(({ table, start }) => [table, start]));
  const spanOf = ({ table, cell }: Reading) => shift(cell.span, startOf.get(table) ?? 0);
  const against: ProofClaim[] = [
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
  const first = own.find(({ table }) => table === speaking[0]?.reading.table) ?? own[0];
  return defined({
    complete: all && !provesNothing && against.length === 0,
    for:
      first && (all || speaking.length > 0)
        ? [
            {
              span: headingSpan(first.table, first.start),
              text: tableText(first.table.procedure.title, covered),
            },
          ]
        : [],
    against,
    coverage: covered ? pick(covered) : undefined,
    wants: wanted(title, covered, sources, item),
  });
}

/** An unpowered reading disproves, and proves nothing. */
const spoken = ({ table }: Reading, ok: boolean | undefined): boolean | undefined =>
  ok === true && table.procedure.powered === "unpowered" ? undefined : ok;

/** Whether a row of outputs that were fired is of something that the item is of; undefined where the item is of none. */
function firedFor(item: ProvingItem, board: Board): ((reading: Reading) => boolean) | undefined {
  const { covers, matrix: kind } = kindOf(item.procedure);
  if (covers === "coils") return (reading) => coilOf(reading, board) !== undefined;
  const matrix = kind === "lamp" ? matrixFor(item, board) : undefined;
  if (!matrix) return undefined;
  const shape = shapeOf(matrix);
  return (reading) => linesFired(reading, shape).length > 0;
}

function wanted(
  title: string,
  covered: Covered | undefined,
  { ctx: { library } }: ProvingInputs,
  { procedure }: ProvingItem,
): string {
  const { provesNothing } = kindOf(procedure);
  if (provesNothing) return `"${title}" proves nothing by itself: try it at work, under power and load.`;
  if (library.procedure(procedure)?.powered !== "unpowered")
    return covered?.wants || `Test it and write the results under "${title} after repair".`;
  const rest = covered?.wants ? `. ${covered.wants}` : ": try it under power and load.";
  return `Unpowered readings cannot prove it${rest}`;
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

/** A crossing that must not be exercised speaks neither way. */
function isReserved(reading: Reading, board: Board): boolean {
  const matrix = matrixOfTable(reading.table, board);
  if (!matrix) return false;
  const shape = shapeOf(matrix);
  const cell = crossingOf(reading, shape);
  return cell !== undefined && keysOf(shape.reserved).has(crossingKey(cell));
}

function matrixFor(item: ProvingItem, board: Board): Matrix | undefined {
  const { matrix: kind } = kindOf(item.procedure);
  return (
    (item.matrix === undefined ? undefined : board.matrices.get(item.matrix)) ??
    [...board.matrices.values()].find((each) => each.kind === kind)
  );
}

function coverMatrix(
  item: ProvingItem,
  { doc, board }: ProvingInputs,
  judged: readonly Judged[],
): Covered | undefined {
  const matrix = matrixFor(item, board);
  if (!matrix) return undefined;
  const shape = shapeOf(matrix);
  const log = matrixLogs(doc, board).find((each) => each.matrix === matrix);
  const plan = log && provingOf(log, board);
  const what = "rows and columns that answer";
  const lit = linesLit(
    judged.filter(({ reading }) => reading.table.kind.fires),
    shape,
  );
  const isLit = (line: MatrixLine): boolean =>
    lit.some(({ kind, number }) => kind === line.kind && number === line.number);
  const all = plan ? [...plan.proven, ...plan.unproven] : linesOf(shape);
  const open = (plan ? plan.unproven : all).filter((line) => !isLit(line));
  const missing = open.map((line) => lineName(shape, line));
  const isBare = !plan && lit.length === 0;
  return {
    done: all.length - open.length,
    total: all.length,
    what,
    missing: isBare ? ["every row and column"] : missing,
    wants:
      open.length === 0
        ? ""
        : isBare
          ? `Test a crossing on every row and column of ${matrix.title}.`
          : plan && open.length === plan.unproven.length
            ? plan.sentence
            : `Test a crossing of ${matrix.title} on each of these: ${missing.join(", ")}.`,
  };
}

const linesOf = ({ rows, columns }: MatrixShape): readonly MatrixLine[] => [
  ...Array.from({ length: rows }, (_, index): MatrixLine => ({ kind: "row", number: index + 1 })),
  ...Array.from({ length: columns }, (_, index): MatrixLine => ({ kind: "column", number: index + 1 })),
];

/** "U14 pin 3", "row 7 column 4", "+5V", "Digit 2". */
function aboutOf({ subject, table }: Reading): string {
  const { ref, pin, rail, signal, item, row, column, cell } = subject;
  if (row && column) return `row ${row.text} column ${column.text}`;
  const place = ref ? `${ref.text}${pin ? ` pin ${pin.text}` : ""}` : undefined;
  return (
    rail?.text ?? place ?? signal?.text ?? item?.text ?? cell?.text ?? table.procedure.title.toLowerCase()
  );
}
