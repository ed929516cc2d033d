// One small drawing for a place that was measured: the limits as a band between dashed lines, a ring for the reading
// before and a filled diamond for the one after. Words beside it say the same.
import { html } from "./escape";
import type { ChartMark, ReadingChart } from "./model";

const WIDTH = 320;
const HEIGHT = 44;
const MARGIN = 16;
const LINE = 22;
/** Share of the drawing on either side of what has to be shown. */
const AIR = 0.15;
/** Room at the right end for a reading beyond the scale. */
const BEYOND = 40;

/** @param id unique in the page; a letter first. */
export function chartSvg(chart: ReadingChart, id: string): string {
  const x = scaleOf(chart);
  const left = chart.low === undefined ? MARGIN : x(chart.low);
  const right = chart.high === undefined ? WIDTH - MARGIN : x(chart.high);
  const limit = (at: number | undefined): string =>
    at === undefined ? "" : `<line class="limit" x1="${n(x(at))}" y1="4" x2="${n(x(at))}" y2="40"/>`;
  return [
    `<svg viewBox="0 0 ${WIDTH} ${HEIGHT}" role="img" aria-labelledby="${id}">`,
    `<title id="${id}">${html(describe(chart))}</title>`,
    `<rect class="band" x="${n(left)}" y="6" width="${n(Math.max(0.5, right - left))}" height="32"/>`,
    `<line class="axis" x1="${MARGIN}" y1="${LINE}" x2="${WIDTH - MARGIN}" y2="${LINE}"/>`,
    limit(chart.low),
    limit(chart.high),
    chart.before ? ring(chart.before, x) : "",
    chart.after ? diamond(chart.after, x) : "",
    "</svg>",
  ].join("");
}

/** The drawing in words. */
export function describe({ title, before, after, limits }: ReadingChart): string {
  const said = (mark: ChartMark): string =>
    `${mark.text}, ${mark.inside ? "within limits" : "outside the limits"}`;
  return [
    `${title}: limits ${limits}`,
    ...(before ? [`${before.label} ${said(before)}`] : []),
    ...(after ? [`${after.label} ${said(after)}`] : []),
  ].join("; ");
}

/** From a value to its place; what lies beyond every number, an open reading, stands at the right end. */
function scaleOf({ low, high, before, after }: ReadingChart): (value: number | undefined) => number {
  const ends = [low, high, before?.value, after?.value].filter((value) => value !== undefined);
  const least = Math.min(...ends);
  const most = Math.max(...ends);
  const span = most - least || Math.abs(most) || 1;
  const from = least - AIR * span;
  const width = span * (1 + 2 * AIR);
  const open = [before, after].some((mark) => mark !== undefined && mark.value === undefined);
  const room = WIDTH - 2 * MARGIN - (open ? BEYOND : 0);
  return (value) => (value === undefined ? WIDTH - MARGIN - 8 : MARGIN + ((value - from) / width) * room);
}

const ring = ({ value }: ChartMark, x: (value: number | undefined) => number): string =>
  `<circle class="before" cx="${n(x(value))}" cy="${LINE}" r="6"/>${value === undefined ? beyond("before") : ""}`;

function diamond({ value }: ChartMark, x: (value: number | undefined) => number): string {
  const at = x(value);
  return `<path class="after" d="M${n(at - 6)} ${LINE}L${n(at)} ${LINE - 7}L${n(at + 6)} ${LINE}L${n(at)} ${LINE + 7}Z"/>${value === undefined ? beyond("after") : ""}`;
}

/** An arrow head for a reading off the scale. */
const beyond = (kind: string): string =>
  `<path class="${kind}" d="M${WIDTH - 9} ${LINE - 6}L${WIDTH - 2} ${LINE}L${WIDTH - 9} ${LINE + 6}Z"/>`;

const n = (value: number): string => String(Math.round(value * 10) / 10);
