// Boards that somebody says work: what their logs read is what other boards of the type are held against, at once and
// from one board, as wide as that can honestly be.
import { memo, memoEach } from "../../base/memo";
import type { Meter } from "../../knowledge/types";
import { placeKey } from "../baseline/places";
import type { BaselinePlace, BoardHistory, PlaceReading } from "../baseline/types";
import type { TestPoint } from "../test-point";
import { uncertaintyAt } from "../uncertainty";
import { windowFrom } from "./limits";
import { likeKey, testPointInJob, usualAt } from "./there";
import type { ReferenceLimits, ReferenceReading, References } from "./types";
import { type LikePins, leastWidth, likePins, windowWidth } from "./width";
import { referenceSource } from "./words";

export type { ReferenceLimits, ReferenceReading, References } from "./types";

/** A board's reference jobs with the meters they were read with, by the log's uri. Never changes. */
export interface ReferenceJobs {
  readonly history: BoardHistory;
  readonly meters: ReadonlyMap<string, Meter>;
}

/** Those of logs that are no reference jobs themselves, by revision: they are all alike. */
const shared = memoEach((jobs: ReferenceJobs, revision: string | undefined) =>
  makeReferences(jobs, undefined, revision),
);

/**
 * Undefined where no other log is a reference. The same object for the same jobs and revision, where `last` is what the
 * log had before.
 */
export function referencesFor(
  jobs: ReferenceJobs,
  uri: string,
  revision: string | undefined,
  last?: References,
): References | undefined {
  const { history } = jobs;
  const except = history.jobs.some((job) => job.uri === uri) ? uri : undefined;
  if (history.jobs.every((job) => job.uri === except)) return undefined;
  if (last?.of === jobs && last.except === except && last.revision === revision) return last;
  return except === undefined ? shared(jobs, revision) : makeReferences(jobs, except, revision);
}

function makeReferences(
  jobs: ReferenceJobs,
  except: string | undefined,
  revision: string | undefined,
): References {
  const known = new Map<string, ReferenceLimits | undefined>();
  return {
    of: jobs,
    except,
    revision,
    at(place, family) {
      const key = placeKey(place);
      const kept = `${family ?? ""}\n${key}`;
      if (known.has(kept)) return known.get(kept);
      const all = (jobs.history.at.get(key) ?? []).filter(({ uri }) => uri !== except);
      const limits = limitsFrom(jobs, all, revision, family);
      known.set(kept, limits);
      return limits;
    },
  };
}

/** Boards of the log's own revision where one of them was read there, else those of all revisions. */
function limitsFrom(
  jobs: ReferenceJobs,
  all: readonly PlaceReading[],
  revision: string | undefined,
  family: string | undefined,
): ReferenceLimits | undefined {
  const same = revision === undefined ? [] : all.filter((reading) => reading.revision === revision);
  const counting = (same.length > 0 ? same : all).map((reading) => ({
    reading,
    stands: standsAt(jobs, reading),
  }));
  const [first] = counting;
  // One board that reads open where another does not: they are unlike, and neither says what is right.
  if (!first || counting.some(({ reading }) => !Number.isFinite(reading.value))) return undefined;
  const unlike = counting.some(
    ({ stands }) => family !== undefined && stands?.family !== undefined && stands.family.id !== family,
  );
  if (unlike) return undefined;
  const { place } = first.reading;
  const usual = usualAt(place, first.stands);
  // What a ground pin reads no board has to show.
  if (usual?.kind === "physics") return undefined;
  const readings = counting.map(({ reading, stands }) => withWidth(jobs, reading, stands));
  if (!isWhole(readings)) return undefined;
  const unit = readings.find((reading) => reading.unit !== "")?.unit ?? unitOf(jobs, place);
  return {
    ...windowFrom(readings, usual, place.measure === "ripple"),
    unit,
    readings,
    source: referenceSource(readings, unit, revision),
  };
}

const isWhole = (readings: readonly (ReferenceReading | undefined)[]): readings is ReferenceReading[] =>
  readings.every((reading) => reading !== undefined);

const standsAt = ({ history }: ReferenceJobs, { place, uri }: PlaceReading): TestPoint | undefined =>
  testPointInJob(
    history.jobs.find((job) => job.uri === uri),
    place,
    history.board,
    history.library,
  );

const columnOf = ({ history }: ReferenceJobs, { procedure, measure }: BaselinePlace) =>
  history.library.procedure(procedure)?.columns.find((column) => column.measure === measure);

/** A short was typed without one. */
const unitOf = (jobs: ReferenceJobs, place: BaselinePlace): string => columnOf(jobs, place)?.unit ?? "";

function withWidth(
  jobs: ReferenceJobs,
  { place, ...reading }: PlaceReading,
  stands: TestPoint | undefined,
): ReferenceReading | undefined {
  const quantity = columnOf(jobs, place)?.quantity;
  const fn = functionOf(jobs, place, quantity);
  const least = leastWidth(reading.value, quantity, fn === "diode");
  if (!least) return undefined;
  const typed = { value: reading.value, resolution: digitOf(reading) };
  const expanded = uncertaintyAt(typed, jobs.meters.get(reading.uri), fn);
  return {
    ...reading,
    ...windowWidth(least, likeIn(jobs, reading.uri, likeKey(place, stands)), expanded / 2),
  };
}

/** A bare "0" is how a reading of 0.000 is written. */
const digitOf = ({ value, resolution }: Pick<PlaceReading, "value" | "resolution">): number =>
  value === 0 && resolution >= 1 ? 0 : resolution;

/** What the meter was set to. */
function functionOf(
  { history }: ReferenceJobs,
  { procedure, measure }: BaselinePlace,
  quantity: string | undefined,
): string | undefined {
  const own = history.library.procedure(procedure)?.meter?.function;
  if (quantity === "voltage") {
    if (own === "diode" || measure === "diode") return "diode";
    return measure === "ripple" ? "ac-volts" : "dc-volts";
  }
  if (quantity === "resistance") return measure === "esr" ? "esr" : "ohms";
  return quantity === "current" ? "dc-amps" : own;
}

function likeIn(jobs: ReferenceJobs, uri: string, key: string | undefined): LikePins | undefined {
  return key === undefined ? undefined : allLikes(jobs).get(`${uri}\n${key}`);
}

/** The like pins of each job, worked out when first asked for. */
const allLikes = memo((jobs: ReferenceJobs): ReadonlyMap<string, LikePins | undefined> => {
  const groups = new Map<string, PlaceReading[]>();
  for (const reading of [...jobs.history.at.values()].flat()) {
    const key = likeKey(reading.place, standsAt(jobs, reading));
    if (key === undefined) continue;
    const id = `${reading.uri}\n${key}`;
    const group = groups.get(id);
    if (group) group.push(reading);
    else groups.set(id, [reading]);
  }
  const likeOf = (group: readonly PlaceReading[]) =>
    likePins(
      group.map(({ value }) => value),
      group.map(digitOf),
    );
  return new Map([...groups].map(([id, group]) => [id, likeOf(group)]));
});
