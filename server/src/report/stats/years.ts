// What a place read year by year, across the limits of all boards: a band between dashed lines with its ends written at
// their height, a diamond for each year's middle reading, joined by a line.
import { formatValue } from "../../quantity/format-value";
import type { LimitsRow, YearRow } from "../../review/numbers/types";
import { type Html, html, joinedHtml, markup } from "../../text/html";

export interface YearsChart {
  readonly title: string;
  readonly limits: Pick<LimitsRow, "low" | "high" | "unit">;
  /** At least two, in their order. */
  readonly years: readonly YearRow[];
}

const WIDTH = 356;
const HEIGHT = 110;
const LEFT = 74;
const RIGHT = 340;
const TOP = 10;
const BOTTOM = 84;
/** Share of the height on either side of what has to be shown. */
const AIR = 0.12;
/** Two labels at the left are as far apart at least. */
const LINE = 13;

/** @param id unique in the page; a letter first */
export function yearsSvg({ title, limits: { low, high, unit }, years }: YearsChart, id: Html): Html {
  const shown = [low, high, ...years.map(({ median }) => median)].filter((value) => value !== null);
  const least = Math.min(...shown);
  const most = Math.max(...shown);
  const span = most - least || Math.abs(most) || 1;
  const y = (value: number): number =>
    BOTTOM - ((value - least + AIR * span) / (span * (1 + 2 * AIR))) * (BOTTOM - TOP);
  const first = years[0]?.inYear ?? 0;
  const last = years.at(-1)?.inYear ?? 0;
  const x = (year: number): number =>
    first === last ? (LEFT + RIGHT) / 2 : LEFT + 14 + ((year - first) / (last - first)) * (RIGHT - LEFT - 28);
  const top = high === null ? TOP : y(high);
  const bottom = low === null ? BOTTOM : y(low);
  const line = (at: number | null): Html =>
    at === null
      ? markup``
      : markup`<line class="limit" x1="${LEFT}" y1="${n(y(at))}" x2="${RIGHT}" y2="${n(y(at))}"/>`;
  const points = years.map(({ inYear, median }) => ({ inYear, at: x(inYear), y: y(median) }));
  return joinedHtml(
    [
      markup`<svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-labelledby="${id}">`,
      markup`<title id="${id}">${html(describe(title, limitsInWords(low, high, unit), years))}</title>`,
      markup`<rect class="band" x="${LEFT}" y="${n(top)}" width="${RIGHT - LEFT}" height="${n(Math.max(0.5, bottom - top))}"/>`,
      line(low),
      line(high),
      ends(low, high, unit, y),
      markup`<polyline class="course" points="${joinedHtml(
        points.map((at) => markup`${n(at.at)},${n(at.y)}`),
        " ",
      )}"/>`,
      ...points.map((at) => diamond(at.at, at.y)),
      ...labelled(points).map(
        ({ inYear, at }) =>
          markup`<text x="${n(at)}" y="${HEIGHT - 8}" text-anchor="middle">${inYear}</text>`,
      ),
      markup`</svg>`,
    ],
    "",
  );
}

/** "0.55 V to 0.61 V", "at most 50 mV". */
export function limitsInWords(low: number | null, high: number | null, unit: string): string {
  if (low === null && high === null) return "none";
  if (low === null) return `at most ${formatValue(high!, unit)}`;
  return high === null
    ? `at least ${formatValue(low, unit)}`
    : `${formatValue(low, unit)} to ${formatValue(high, unit)}`;
}

const describe = (title: string, limits: string, years: readonly YearRow[]): string =>
  `${title}: limits ${limits}; ${years
    .map(({ inYear, median, unit, boards }) => `${inYear} ${formatValue(median, unit)} of ${boards}`)
    .join(", ")}`;

function ends(low: number | null, high: number | null, unit: string, y: (value: number) => number): Html {
  const label = (value: number, at: number): Html =>
    markup`<text x="${LEFT - 6}" y="${n(at + 4)}" text-anchor="end">${html(formatValue(value, unit))}</text>`;
  if (low === null || high === null) {
    const only = low ?? high;
    return only === null ? markup`` : label(only, y(only));
  }
  const apart = Math.max(0, LINE - (y(low) - y(high))) / 2;
  return joinedHtml([label(high, y(high) - apart), label(low, y(low) + apart)]);
}

/** Years whose number has room below. */
function labelled<T extends { readonly at: number }>(points: readonly T[]): T[] {
  const kept: T[] = [];
  for (const point of points) if (kept.length === 0 || point.at - kept.at(-1)!.at > 34) kept.push(point);
  return kept;
}

const diamond = (x: number, y: number): Html =>
  markup`<path class="after" d="M${n(x - 5)} ${n(y)}L${n(x)} ${n(y - 6)}L${n(x + 5)} ${n(y)}L${n(x)} ${n(y + 6)}Z"/>`;

const n = (value: number): number => Math.round(value * 10) / 10;
