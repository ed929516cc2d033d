import { formatValue } from "../../quantity/format-value";
import type { ReferenceReading } from "./types";

/** Jobs named at most; the others are counted. */
const NAMED = 4;

/**
 * Whose word the limits are and how they came about: "the reference job 2026-003 read 0.58 V there; one board, at least
 * ±50 mV by common practice, no source".
 * @param revision of the board in hand: another one is said
 */
export function referenceSource(
  readings: readonly ReferenceReading[],
  unit: string,
  revision: string | undefined,
): string {
  return `the ${readText(readings, unit, revision)} there; ${howMany(readings)}, ${widthText(readings, unit)}`;
}

/** The same as it stands in a board file, where it is known by its first words again. */
export const fileSourceOf = (readings: readonly ReferenceReading[], unit: string): string =>
  `${readText(readings, unit, undefined)}; ${howMany(readings)}, ${widthText(readings, unit)}`;

function readText(readings: readonly ReferenceReading[], unit: string, revision: string | undefined): string {
  const named = readings.slice(0, NAMED);
  const jobs = listed(named.map((it) => it.job + other(it, revision)));
  const values = listed(named.map(({ value }) => formatValue(value, unit)));
  const rest = readings.length - named.length;
  const [moreJobs, moreValues] = rest > 0 ? [` and ${rest} more`, " and more"] : ["", ""];
  return `reference job${readings.length === 1 ? "" : "s"} ${jobs}${moreJobs} read ${values}${moreValues}`;
}

const howMany = ({ length }: readonly ReferenceReading[]): string =>
  length === 1 ? "one board" : `${length} boards, each`;

const other = (it: ReferenceReading, revision: string | undefined): string =>
  it.revision !== undefined && revision !== undefined && it.revision !== revision
    ? ` (revision ${it.revision})`
    : "";

function widthText(readings: readonly ReferenceReading[], unit: string): string {
  const widest = readings.reduce((a, b) => (b.half > a.half ? b : a));
  const { spread, least, share, half } = widest;
  if (spread)
    return `±${round(half, unit)}: its ${spread.pins} like pins spread by ${round(spread.sigma, unit)}, with the meter's uncertainty (95 %)`;
  const figure = share === undefined ? formatValue(least, unit) : `${Math.round(share * 100)} %`;
  return `at least ±${figure} by common practice, no source`;
}

const round = (value: number, unit: string): string => formatValue(Number(value.toPrecision(2)), unit);

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
