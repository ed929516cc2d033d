// This shop's own limits for a board: what the boards it returned read at the same place.

import { memoEach } from "../../base/memo";
import { type BaselineLimits, baselineLimits } from "./limits";
import { placeKey } from "./places";
import {
  type Baseline,
  type Baselines,
  type BoardHistory,
  CONFIDENCE,
  COVERAGE,
  FEWEST_BOARDS,
} from "./types";

/** Those of logs that are no jobs of the history themselves, by revision: they are all alike. */
const shared = memoEach((history: BoardHistory, revision: string | undefined) =>
  makeBaselines(history, undefined, revision),
);

/**
 * Undefined where there are too few jobs for any limits. The same object for the same history and revision, where
 * `last` is what the log had before.
 */
export function baselinesFor(
  history: BoardHistory,
  uri: string,
  revision: string | undefined,
  last?: Baselines,
): Baselines | undefined {
  const except = history.jobs.some((job) => job.uri === uri) ? uri : undefined;
  if (history.jobs.length - (except === undefined ? 0 : 1) < FEWEST_BOARDS) return undefined;
  if (last?.history === history && last.except === except && last.revision === revision) return last;
  return except === undefined ? shared(history, revision) : makeBaselines(history, except, revision);
}

function makeBaselines(
  history: BoardHistory,
  except: string | undefined,
  revision: string | undefined,
): Baselines {
  const known = new Map<string, Baseline | undefined>();
  return {
    history,
    except,
    revision,
    at(place) {
      const key = placeKey(place);
      if (known.has(key)) return known.get(key);
      const baseline = compute(history, key, except, revision);
      known.set(key, baseline);
      return baseline;
    },
  };
}

/** Boards of the log's own revision where enough of them were read, else those of all revisions. */
function compute(
  { at }: BoardHistory,
  key: string,
  except: string | undefined,
  revision: string | undefined,
): Baseline | undefined {
  const all = (at.get(key) ?? []).filter(({ uri }) => uri !== except);
  const same = revision === undefined ? [] : all.filter((reading) => reading.revision === revision);
  const narrow = baselineLimits(same);
  if (narrow.ok && revision !== undefined) {
    return { ...narrow.value, revision, source: sourceOf(narrow.value, revision) };
  }
  const wide = baselineLimits(all);
  return wide.ok ? { ...wide.value, source: sourceOf(wide.value, undefined) } : undefined;
}

/** Jobs named at most; the others are counted. */
const NAMED = 4;

const percent = (share: number): string => `${Math.round(share * 100)} %`;

function sourceOf({ n, jobs, leftOut }: BaselineLimits, revision: string | undefined): string {
  const of = revision === undefined ? "" : ` of revision ${revision}`;
  const without = leftOut.length === 0 ? "" : `, ${leftOut.length} more left out as unlike the others`;
  const named = jobs.slice(0, NAMED).map(({ job }) => job);
  const more = n > NAMED ? ` and ${n - NAMED} more` : "";
  return (
    `this shop's own readings: ${n} returned boards${of}${without}, ` +
    `${percent(COVERAGE)}/${percent(CONFIDENCE)} tolerance interval; jobs ${named.join(", ")}${more}`
  );
}
