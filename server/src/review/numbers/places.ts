// What the returned boards of a type read, place by place, and the limits, the drift and the meters that follow.
import { memoEach } from "../../base/memo";
import { median } from "../../compute/measurement/robust";
import { trendOf } from "../../compute/measurement/trend";
import { boardHistory, returnedJobs } from "../../judge/baseline/history";
import { baselineLimits } from "../../judge/baseline/limits";
import { placeWords } from "../../judge/baseline/places";
import type { BaselinePlace, PlaceReading } from "../../judge/baseline/types";
import type { Logs } from "../../log/job-index";
import { dayNumber, groupBy, leftOn, sortedBy, yearOf } from "./order";
import type { DriftRow, LimitsRow, MeterRow, NumbersInput, PlaceColumns, YearRow } from "./types";

const DAYS_IN_YEAR = 365.25;
/** Boards that a drift is looked for in, the last returned first: every pair of them is looked at. */
export const LATEST_FOR_DRIFT = 400;

const columns = (board: string, place: BaselinePlace): PlaceColumns => ({
  board,
  procedure: place.procedure,
  measure: place.measure,
  load: place.load ?? null,
  place: placeWords(place),
});

export interface PlaceNumbers {
  readonly limits: readonly LimitsRow[];
  readonly drift: readonly DriftRow[];
  readonly years: readonly YearRow[];
  readonly meters: readonly MeterRow[];
}

/** All of one board; kept for as long as the jobs are the same object. */
export const placeNumbers = memoEach((input: NumbersInput, board: string): PlaceNumbers => {
  const known = input.boardOf(board);
  if (!known) return { limits: [], drift: [], years: [], meters: [] };
  const { library, logs } = input;
  const limits: LimitsRow[] = [];
  const drift: DriftRow[] = [];
  const years: YearRow[] = [];
  const meters: MeterRow[] = [];
  const jobs = returnedJobs(logs, board, Number.POSITIVE_INFINITY);
  const all = boardHistory(jobs, known, library);
  for (const readings of all.at.values()) {
    const [first] = readings;
    if (!first) continue;
    const place = columns(board, first.place);
    drift.push(...driftRow(place, readings, logs));
    years.push(...yearRows(place, readings, logs));
    meters.push(...meterRows(place, readings, logs));
  }
  // The limits are those that a log is judged by.
  for (const readings of boardHistory(returnedJobs(logs, board), known, library, all).at.values()) {
    const [first] = readings;
    if (first) limits.push(...limitRows(columns(board, first.place), readings));
  }
  return {
    limits: inOrder(limits, ({ revision }) => revision),
    drift: inOrder(drift),
    years: inOrder(years, ({ inYear }) => inYear),
    meters: inOrder(meters, ({ meter }) => meter),
  };
});

const inOrder = <T extends PlaceColumns>(
  rows: readonly T[],
  last: (row: T) => string | number | null = () => null,
) =>
  sortedBy(
    rows,
    (row) => row.procedure,
    (row) => row.measure,
    (row) => row.load,
    (row) => row.place,
    last,
  );

function limitRows(place: PlaceColumns, readings: readonly PlaceReading[]): LimitsRow[] {
  const row = (revision: string | null, of: readonly PlaceReading[]): LimitsRow[] => {
    const limits = baselineLimits(of);
    const middle = median(of.map(({ value }) => value).filter(Number.isFinite));
    if (!limits.ok || middle === undefined) return [];
    const { n, leftOut, centre, spread, low, high, unit } = limits.value;
    return [
      {
        ...place,
        revision,
        boards: n,
        leftOut: leftOut.length,
        median: middle,
        centre,
        spread,
        low: low ?? null,
        high: high ?? null,
        unit,
      },
    ];
  };
  const revisions = groupBy(
    readings.filter(({ revision }) => revision !== undefined),
    ({ revision }) => revision!,
  );
  return [...row(null, readings), ...[...revisions].flatMap(([revision, of]) => row(revision, of))];
}

function driftRow(place: PlaceColumns, readings: readonly PlaceReading[], jobs: Logs): DriftRow[] {
  const dated = readings.flatMap(({ uri, value }) => {
    const job = jobs.get(uri);
    const day = job && leftOn(job);
    return day !== undefined && Number.isFinite(value) ? [{ at: dayNumber(day), value }] : [];
  });
  const latest = dated.slice(0, LATEST_FOR_DRIFT);
  const trend = trendOf(latest);
  if (!trend) return [];
  const { slope, rising, falling, chance } = trend;
  return [
    {
      ...place,
      boards: latest.length,
      slope: slope * DAYS_IN_YEAR,
      rising,
      falling,
      unit: unitOf(readings),
      chance,
    },
  ];
}

function yearRows(place: PlaceColumns, readings: readonly PlaceReading[], jobs: Logs): YearRow[] {
  const dated = readings.flatMap((reading) => {
    const job = jobs.get(reading.uri);
    const inYear = job ? yearOf(job) : null;
    return inYear !== null && Number.isFinite(reading.value) ? [{ inYear, reading }] : [];
  });
  return [...groupBy(dated, ({ inYear }) => inYear)].map(([inYear, of]) => {
    const own = of.map(({ reading }) => reading);
    return {
      ...place,
      inYear,
      boards: own.length,
      median: median(own.map(({ value }) => value))!,
      unit: unitOf(own),
    };
  });
}

function meterRows(place: PlaceColumns, readings: readonly PlaceReading[], jobs: Logs): MeterRow[] {
  const finite = readings.filter(({ value }) => Number.isFinite(value));
  const byMeter = groupBy(finite, ({ uri }) => jobs.get(uri)?.meter ?? null);
  if (byMeter.size < 2) return [];
  return [...byMeter].map(([meter, of]) => ({
    ...place,
    meter,
    boards: of.length,
    median: median(of.map(({ value }) => value))!,
    unit: unitOf(of),
  }));
}

/** A short or an open circuit was typed without one. */
const unitOf = (readings: readonly PlaceReading[]): string =>
  readings.find(({ unit }) => unit !== "")?.unit ?? "";
