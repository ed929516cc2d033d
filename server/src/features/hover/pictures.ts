// What the log and the board say, gathered for the pictures.
import { judgeBlock, type Verdict } from "../../analysis/judge";
import {
  crossingOf,
  KIND_OF,
  type MatrixLog,
  matrixLogs,
  matrixOfTable,
} from "../../analysis/matrix/from-log";
import { type Recorded, sortResults } from "../../analysis/matrix/results";
import { allCells, type Cell, keyOf, keysOf, type MatrixShape, shapeOf } from "../../analysis/matrix/shape";
import { type Place, partPlace, pinPlace } from "../../analysis/place";
import type { Matrix } from "../../knowledge/types";
import type { LogTable, Reading, Section } from "../../log/model";
import { type ChipInput, chipPicture } from "../../pictures/chip";
import { type CellState, VERDICTS } from "../../pictures/marks";
import { matrixPicture } from "../../pictures/matrix";
import type { Picture } from "../../pictures/svg";
import { pinsInOrder } from "../describe";
import type { HoverPicture } from "../types";
import type { LogView } from "../view";

/** How the table of a part's pins begins: its picture stands above it. */
export const PIN_TABLE = "| Pin | Name | Direction | Net |\n";

/** The chip with the verdicts of this log, above the table of its pins; undefined where no pins are told. */
export function chipPictureFor(view: LogView, ref: string, markdown: string): HoverPicture | undefined {
  const at = markdown.lastIndexOf(PIN_TABLE);
  if (at < 0) return undefined;
  return {
    at,
    draw: () => {
      const input = chipInput(view, ref);
      return input && chipPicture(input);
    },
  };
}

/** What is known and said of a part's pins; undefined where its pins are not known. */
export function chipInput(view: LogView, ref: string): ChipInput | undefined {
  const board = view.ctx.board?.value;
  const place = partPlace(ref, board, view.ctx.library);
  const { device, part } = place;
  if (!device || !part) return undefined;
  const verdicts = verdictsOf(view, place);
  return {
    title: `${part.ref} ${part.device ?? device.id}`,
    package: device.package,
    pins: pinsInOrder(device).map((pin) => {
      const net = pinPlace(place, pin.number, board).net?.name;
      const verdict = verdicts.get(pin.number);
      return {
        number: pin.number,
        name: pin.name,
        ...(net === undefined ? {} : { net }),
        ...(verdict ? { verdict } : {}),
      };
    }),
  };
}

/**
 * By pin number. Of each kind of reading the last in the log counts; where several kinds were taken of a pin, the
 * heaviest verdict: a level within limits takes nothing back from a clamp that is open.
 */
function verdictsOf(view: LogView, { ref }: Place): ReadonlyMap<string, Verdict> {
  const latest = new Map<string, Map<string, Verdict>>();
  for (const { block } of view.doc.blocks) {
    for (const [reading, { verdict, place }] of judgeBlock(block, view.ctx)) {
      if (verdict === "not-measured" || place?.ref !== ref || !place.pin) continue;
      const ofPin = latest.get(place.pin.number) ?? new Map<string, Verdict>();
      latest.set(place.pin.number, ofPin);
      ofPin.set(`${reading.table.procedure.id} ${reading.measure}`, verdict);
    }
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

/** The grid with a crossing framed, below all that is said of it: cautions and what to clear come first. */
export function matrixPictureFor(
  view: LogView,
  table: LogTable,
  markdown: string,
  reading: Reading,
): HoverPicture | undefined {
  const board = view.ctx.board?.value;
  const matrix = board && KIND_OF[table.procedure.id] && matrixOfTable(table, board);
  if (!matrix) return undefined;
  const here = crossingOf(reading, shapeOf(matrix));
  return here && { at: markdown.length, draw: () => matrixDrawing(view, matrix, here) };
}

/** The grid of the matrix a heading's tables are of. */
export function matrixPictureOfSection(
  view: LogView,
  section: Section,
  at: number,
): HoverPicture | undefined {
  const board = view.ctx.board?.value;
  const log = board && matrixLogs(view.doc, board).find((each) => isOf(each, section));
  return log && { at, draw: () => matrixDrawing(view, log.matrix) };
}

const isOf = ({ tables }: MatrixLog, section: Section): boolean =>
  tables.some(({ table }) => table.section === section);

function matrixDrawing(view: LogView, matrix: Matrix, here?: Cell): Picture | undefined {
  const board = view.ctx.board?.value;
  const log = board && matrixLogs(view.doc, board).find((each) => each.matrix === matrix);
  if (!log) return undefined;
  return matrixPicture({
    title: matrix.title,
    rows: matrix.rows,
    columns: matrix.columns,
    cells: cellStates(log),
    ...(here ? { here } : {}),
  });
}

/** Every crossing by what was recorded of it last: results from before a repair give way to those from after it. */
function cellStates({ shape, tables }: MatrixLog): readonly (readonly CellState[])[] {
  const entries = tables.flatMap(({ phase, entries: own }) => own.map((entry) => ({ phase, entry })));
  const last = new Map<number, number>();
  for (const { phase, entry } of entries) {
    if (!("recorded" in entry)) continue;
    const key = keyOf(entry.recorded);
    last.set(key, Math.max(phase, last.get(key) ?? 0));
  }
  const recorded = entries.flatMap(({ phase, entry }): Recorded[] =>
    "recorded" in entry && last.get(keyOf(entry.recorded)) === phase ? [entry.recorded] : [],
  );
  // Shown while others were held closed and open itself, and not tested again after a later repair.
  const ghosts = entries.flatMap(({ phase, entry }) => {
    if (!("held" in entry)) return [];
    const shut = keysOf(entry.held.closed);
    return entry.held.seen.map(keyOf).filter((key) => !shut.has(key) && (last.get(key) ?? 0) <= phase);
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
  for (const cell of allCells(shape)) grid[cell.row - 1]?.push(stateOf(keyOf(cell)));
  return grid;
}
