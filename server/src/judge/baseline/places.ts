// A log's readings brought to the board's own names of places, one for each.

import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import type { Library } from "../../knowledge/library";
import type { Board } from "../../knowledge/types";
import { kindOf } from "../../log/kinds";
import type { LogSummary, SummaryReading, SummaryTable } from "../../log/summary";
import { diodeReference } from "../diode-window";
import { pinRole } from "../pin-role";
import { findRail } from "../rail-name";
import { pinName, type TestPoint, testPointAt } from "../test-point";
import type { BaselinePlace, BaselineReading, PlaceReading } from "./types";

/** A rail below this is taken for shorted, as where it is judged: common practice, no source. */
const SHORT_BELOW = 2;

/** A place by which maps know it, with what was measured there and under which load; case does not count. */
export function placeKey({ procedure, measure, load, at }: BaselinePlace): string {
  const place = "rail" in at ? `rail ${at.rail}` : `${at.ref.toUpperCase()}.${at.pin?.toUpperCase() ?? ""}`;
  return [procedure, measure, load ?? "", place].join("\n");
}

/** "U14.3", "U14" or "rail +5V". */
export const placeWords = ({ at }: BaselinePlace): string =>
  "rail" in at
    ? `rail ${at.rail}`
    : [at.ref, ...(at.pin === undefined ? [] : [at.pin])].join(".").toUpperCase();

/**
 * The reading of each place that speaks for the board as it left: the last one taken after repair, else the last
 * one of a part that was not replaced and that nothing known of it accuses. Places nobody can name are left out.
 */
export function placesOf(
  summary: LogSummary,
  board: Board,
  library: Library,
): ReadonlyMap<string, PlaceReading> {
  const replaced = new Set([
    ...summary.work.flatMap(({ replaced, ref, also = [] }) =>
      replaced ? [...designators(ref), ...also] : [],
    ),
    ...summary.fitted.flatMap(({ ref }) => designators(ref)),
  ]);
  const before = new Map<string, PlaceReading | undefined>();
  const after = new Map<string, PlaceReading | undefined>();
  for (const table of summary.tables) {
    if (kindOf(table.procedure).acrossJobs === "nothing") continue;
    const repaired = table.repair === "after" || (table.repair === undefined && table.behindWork);
    for (const reading of table.readings) {
      if (reading.apart) continue;
      const found = placed(table, reading, board, library);
      if (!found) continue;
      const { stands } = found;
      const { key, place } = shared(found.place, board);
      const value = singleValue(reading);
      const counts =
        value !== undefined &&
        (repaired || (!(stands && replaced.has(stands.ref.toUpperCase())) && !accused(table, value, stands)));
      const entry = counts ? { place, value, ...rest(summary, reading) } : undefined;
      (repaired ? after : before).set(key, entry);
    }
  }
  // Where the last word is one that does not count, an earlier one does not count either.
  const all = new Map<string, PlaceReading>();
  for (const [key, entry] of [...before, ...after]) {
    if (entry) all.set(key, entry);
    else all.delete(key);
  }
  return all;
}

interface Place {
  readonly key: string;
  readonly place: BaselinePlace;
}

/** Each place of a board once, with its key: the readings of hundreds of jobs share them. */
const placesOfBoard = memo((_board: Board) => new Map<string, Place>());

function shared(place: BaselinePlace, board: Board): Place {
  const places = placesOfBoard(board);
  const { procedure, measure, load = "", at } = place;
  const words = "rail" in at ? `rail ${at.rail}` : `${at.ref}\n${at.pin ?? "\n"}`;
  const written = `${procedure}\n${measure}\n${load}\n${words}`;
  let known = places.get(written);
  if (!known) {
    known = { key: placeKey(place), place };
    places.set(written, known);
  }
  return known;
}

/** "U12, U13" and "U12/U13" are two; a cell's remark behind the designator is none. */
function designators(ref: string | undefined): string[] {
  if (ref === undefined) return [];
  const whole = ref.toUpperCase();
  return [whole, ...(whole.match(/[A-Z]{1,4}\d{1,4}[A-Z]?(?!\w)/g) ?? [])];
}

function placed(
  { procedure, load }: SummaryTable,
  { ref, pin, rail, measure }: SummaryReading,
  board: Board,
  library: Library,
): { place: BaselinePlace; stands?: TestPoint } | undefined {
  const what = defined<Omit<BaselinePlace, "at">>({ procedure, measure, load });
  if (ref !== undefined) {
    const stands = testPointAt(ref, pin, board, library);
    return { place: { ...what, at: defined({ ref: stands.ref, pin: pinName(stands) }) }, stands };
  }
  const known = rail === undefined ? undefined : findRail(board, rail);
  return known && { place: { ...what, at: { rail: known.name } } };
}

/** Undefined where what was typed is not one value. */
function singleValue({ kind, low }: SummaryReading): number | undefined {
  if (kind === "value") return low;
  if (kind === "open") return Number.POSITIVE_INFINITY;
  return kind === "short" ? 0 : undefined;
}

/** A reading before repair that is a short or that its chip's family calls out of its window may be of the fault itself. */
function accused({ procedure }: SummaryTable, value: number, stands: TestPoint | undefined): boolean {
  const { judgedBy } = kindOf(procedure);
  if (judgedBy === "ground" && !stands) return value < SHORT_BELOW;
  if (judgedBy !== "diode" || !stands) return false;
  const usual = usualDrop(stands);
  if (!usual) return false;
  return value < (usual.low ?? Number.NEGATIVE_INFINITY) || value > (usual.high ?? Number.POSITIVE_INFINITY);
}

const usualDrop = memo((stands: TestPoint) => diodeReference(pinRole(stands), stands));

const rest = ({ uri, job, revision }: LogSummary, { resolution, unit }: SummaryReading) =>
  defined<Omit<BaselineReading, "value">>({
    uri,
    job: job ?? uri.slice(uri.lastIndexOf("/") + 1),
    revision,
    resolution,
    unit,
  });
