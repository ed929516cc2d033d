// What stood at a place in a reference job, which may be another chip than stands there on the board in hand.
import type { Library } from "../../knowledge/library";
import type { Board } from "../../knowledge/types";
import { kindOf } from "../../log/kinds";
import type { PartStated } from "../../log/stated/statement";
import type { LogSummary } from "../../log/summary";
import type { BaselinePlace } from "../baseline/types";
import { diodeReference } from "../diode-window";
import { pinRole } from "../pin-role";
import { partTestPoint, pinTestPoint, type TestPoint } from "../test-point";

/** Undefined for a rail. What the job's own log says of the part counts before the board that all logs share. */
export function testPointInJob(
  job: LogSummary | undefined,
  { at }: BaselinePlace,
  board: Board,
  library: Library,
): TestPoint | undefined {
  if ("rail" in at) return undefined;
  const part = partTestPoint(at.ref, board, library);
  const own = job?.stated.findLast(
    (said): said is PartStated =>
      said.kind === "part" && said.device !== undefined && said.ref.toUpperCase() === part.ref.toUpperCase(),
  );
  const found = own?.device === undefined ? undefined : library.device(own.device);
  const stands = found
    ? { ...part, device: found.device, ...(found.family ? { family: found.family } : {}) }
    : part;
  return at.pin === undefined ? stands : pinTestPoint(stands, at.pin, board);
}

/** The same for pins that are alike: of chips of one family, the same way round, on no rail. Undefined for others. */
export function likeKey({ procedure }: BaselinePlace, place: TestPoint | undefined): string | undefined {
  if (kindOf(procedure).judgedBy !== "diode" || !place?.family || pinRole(place) !== "signal")
    return undefined;
  return `${place.family.id} ${place.pin?.direction}`;
}

/** What the part's family usually reads there on the diode range. */
export const usualAt = ({ procedure }: BaselinePlace, place: TestPoint | undefined) =>
  kindOf(procedure).judgedBy === "diode" && place ? diodeReference(pinRole(place), place) : undefined;
