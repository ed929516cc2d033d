// What the log and the board say, gathered for the pictures.

import { defined } from "../../base/defined";
import { type Recorded, sortResults } from "../../compute/matrix/results";
import { allCells, type Crossing, crossingKey, keysOf, type MatrixShape } from "../../compute/matrix/shape";
import type { Verdict } from "../../compute/verdict";
import { type Judgement, judgeBlock } from "../../judge";
import { partTestPoint, pinTestPoint, type TestPoint } from "../../judge/test-point";
import type { Matrix } from "../../knowledge/types";
import type { LogTable } from "../../log/model";
import { latestTimes } from "../../log/timeline/latest";
import type { ChipInput } from "../../pictures/chip";
import { type CellState, VERDICTS } from "../../pictures/marks";
import { matrixPicture } from "../../pictures/matrix";
import type { Picture } from "../../pictures/svg";
import { type MatrixLog, matrixLogs } from "../../review/matrix/from-log";
import type { LogView } from "../view";
import { pinsInOrder } from "./describe";

/**
 * What is known and said of a part's pins; undefined where its pins are not known.
 * @param judgements those that count, in the order of the log; without them all of the log's
 */
export function chipInput(
  view: LogView,
  ref: string,
  judgements: Iterable<Judgement> = judgementsIn(view),
): ChipInput | undefined {
  const board = view.ctx.board?.value;
  const place = partTestPoint(ref, board, view.ctx.library);
  const { device, part } = place;
  if (!device || !part) return undefined;
  const verdicts = verdictsOf(judgements, place);
  return {
    title: `${part.ref} ${part.device ?? device.id}`,
    package: device.package,
    pins: pinsInOrder(device).map((pin) => {
      const net = pinTestPoint(place, pin.number, board).net?.name;
      const verdict = verdicts.get(pin.number);
      return defined({
        number: pin.number,
        name: pin.name,
        net,
        verdict,
      });
    }),
  };
}

function* judgementsIn({ doc, ctx }: LogView): Generator<Judgement, void> {
  for (const { block } of doc.blocks) yield* judgeBlock(block, ctx).values();
}

/**
 * By pin number. Of each kind of reading the last in the log counts; where several kinds were taken of a pin, the
 * heaviest verdict: a level within limits takes nothing back from a clamp that is open.
 */
function verdictsOf(judgements: Iterable<Judgement>, { ref }: TestPoint): ReadonlyMap<string, Verdict> {
  const latest = new Map<string, Map<string, Verdict>>();
  for (const { reading, verdict, place } of judgements) {
    if (verdict === "not-measured" || place?.ref !== ref || !place.pin) continue;
    const ofPin = latest.get(place.pin.number) ?? new Map<string, Verdict>();
    latest.set(place.pin.number, ofPin);
    ofPin.set(`${reading.table.procedure.id} ${reading.measure}`, verdict);
  }
  const heaviest = (ofPin: ReadonlyMap<string, Verdict>): Verdict | undefined => {
    const all = [...ofPin.values()];
    return VERDICTS.find((verdict) => all.includes(verdict));
  };
  return new Map(
    [...latest].flatMap(([pin, ofPin]) => {
      const verdict = heaviest(ofPin);
      return verdict ? [[pin, verdict] as const] : [];
    }),
  );
}

/**
 * The grid of a matrix.
 * @param until the last table that counts; without it all of the log's do
 */
export function matrixDrawing(
  view: LogView,
  matrix: Matrix,
  { here, until }: { readonly here?: Crossing; readonly until?: LogTable } = {},
): Picture | undefined {
  const board = view.ctx.board?.value;
  const log = board && matrixLogs(view.doc, board).find((each) => each.matrix === matrix);
  if (!log) return undefined;
  const last = until ? log.tables.findIndex(({ table }) => table === until) : -1;
  const shown = last < 0 ? log : { ...log, tables: log.tables.slice(0, last + 1) };
  return matrixPicture(
    defined({
      title: matrix.title,
      rows: matrix.rows,
      columns: matrix.columns,
      cells: cellStates(shown),
      here,
    }),
  );
}

/** Every crossing by what was recorded of it last: results from before a repair give way to those from after it. */
function cellStates({ shape, tables }: MatrixLog): readonly (readonly CellState[])[] {
  const entries = tables.flatMap(({ phase, entries: own }) => own.map((entry) => ({ phase, entry })));
  const results = entries.flatMap(({ phase, entry }) =>
    "recorded" in entry ? [{ phase, recorded: entry.recorded }] : [],
  );
  const last = latestTimes(
    results,
    ({ recorded }) => crossingKey(recorded),
    ({ phase }) => phase,
  );
  const recorded = results.flatMap(({ phase, recorded: one }): Recorded[] =>
    last.get(crossingKey(one)) === phase ? [one] : [],
  );
  // Shown while others were held closed and open itself, and not tested again after a later repair.
  const ghosts = entries.flatMap(({ phase, entry }) => {
    if (!("held" in entry)) return [];
    const shut = keysOf(entry.held.closed);
    return entry.held.seen.map(crossingKey).filter((key) => !shut.has(key) && (last.get(key) ?? 0) <= phase);
  });
  return statesOf(shape, recorded, new Set(ghosts));
}

function statesOf(
  shape: MatrixShape,
  recorded: readonly Recorded[],
  ghosts: ReadonlySet<number>,
): readonly (readonly CellState[])[] {
  const sorted = sortResults(shape, recorded);
  const results = sorted.ok ? sorted.results : undefined;
  const reserved = keysOf(shape.reserved);
  const shown = new Set([...(results?.others.values() ?? [])].flatMap((others) => [...others]));
  const stateOf = (key: number): CellState => {
    if (reserved.has(key)) return "reserved";
    if (results?.dead.has(key)) return "dead";
    if (results?.stuck.has(key)) return "stuck";
    if (results?.intermittent.has(key)) return "intermittent";
    if (ghosts.has(key) || shown.has(key) || (results?.others.get(key)?.size ?? 0) > 0) return "phantom";
    return results?.tested.has(key) ? "works" : "untested";
  };
  const grid: CellState[][] = Array.from({ length: shape.rows }, () => []);
  for (const cell of allCells(shape)) grid[cell.row - 1]?.push(stateOf(crossingKey(cell)));
  return grid;
}
