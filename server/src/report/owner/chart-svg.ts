// One small drawing for a place that was measured: a lane for the reading before the repair (a ring) and one for the
// reading after it (a filled diamond) across the same limits, a band between dashed lines with its ends written below.
// What was read and how it lies to the limits stands at the end of its lane: shapes and words, no colour, carry it.
import { type Html, html, joinedHtml, markup } from "../../text/html";
import type { ChartMark, ReadingChart } from "./model";

const WIDTH = 356;
/** Room for "before" in front of the lanes and for "1.487 V, outside" behind them. */
const LEFT = 52;
const RIGHT = 232;
const LANE = 22;
const TOP = 3;
/** Share of the drawing on either side of what has to be shown. */
const AIR = 0.15;
/** Room at the right end of a lane for a reading beyond the scale. */
const BEYOND = 30;
/** A guess at how wide a letter of the labels is, to keep two of them apart. */
const LETTER = 7;

const SHORT: Readonly<Record<ChartMark["label"], string>> = {
  "before the repair": "before",
  "after the repair": "after",
  reading: "reading",
};

/** @param id unique in the page; a letter first. */
export function chartSvg(chart: ReadingChart, id: Html): Html {
  const x = scaleOf(chart);
  const marks = [chart.before, chart.after].filter((mark) => mark !== undefined);
  const bottom = TOP + LANE * marks.length + 3;
  const left = chart.low === undefined ? LEFT : x(chart.low);
  const right = chart.high === undefined ? RIGHT : x(chart.high);
  const limit = (at: number | undefined): Html =>
    at === undefined
      ? markup``
      : markup`<line class="limit" x1="${n(x(at))}" y1="${TOP}" x2="${n(x(at))}" y2="${bottom}"/>`;
  return joinedHtml(
    [
      markup`<svg viewBox="0 0 ${WIDTH} ${bottom + 16}" role="img" aria-labelledby="${id}">`,
      markup`<title id="${id}">${html(describe(chart))}</title>`,
      markup`<rect class="band" x="${n(left)}" y="${TOP}" width="${n(Math.max(0.5, right - left))}" height="${bottom - TOP}"/>`,
      limit(chart.low),
      limit(chart.high),
      ends(chart, x, bottom + 13),
      ...marks.map((mark, lane) => laneOf(mark, mark === chart.after, x, TOP + LANE * (lane + 0.5) + 1.5)),
      markup`</svg>`,
    ],
    "",
  );
}

function laneOf(mark: ChartMark, after: boolean, x: (value: number | undefined) => number, y: number): Html {
  return joinedHtml(
    [
      markup`<text x="0" y="${n(y + 4)}">${html(SHORT[mark.label])}</text>`,
      markup`<line class="axis" x1="${LEFT}" y1="${n(y)}" x2="${RIGHT}" y2="${n(y)}"/>`,
      after ? diamond(mark, x, y) : ring(mark, x, y),
      markup`<text x="${RIGHT + 8}" y="${n(y + 4)}">${html(`${mark.text}, ${mark.inside ? "within" : "outside"}`)}</text>`,
    ],
    "",
  );
}

/** The limits in numbers below their lines, moved apart where they would run into each other. */
function ends(
  { low, high, limits, ends: texts }: ReadingChart,
  x: (value: number) => number,
  y: number,
): Html {
  const label = (at: number, text: string, anchor: Html): Html =>
    markup`<text x="${n(at)}" y="${y}" text-anchor="${anchor}">${html(text)}</text>`;
  if (low === undefined || high === undefined || !texts) {
    const at = low === undefined ? high : low;
    const place = at === undefined ? LEFT : x(at);
    return label(Math.min(Math.max(place, LEFT + limits.length * 3), RIGHT), limits, markup`middle`);
  }
  const [lowText, highText] = texts;
  const near = x(high) - x(low) < ((lowText.length + highText.length) / 2 + 1.5) * LETTER;
  const middle = (x(low) + x(high)) / 2;
  return near
    ? joinedHtml([
        label(Math.min(x(low) + 4, middle - 4), lowText, markup`end`),
        label(Math.max(x(high) - 4, middle + 4), highText, markup`start`),
      ])
    : joinedHtml([label(x(low), lowText, markup`middle`), label(x(high), highText, markup`middle`)]);
}

/** The drawing in words. */
export function describe({ title, before, after, limits }: ReadingChart): string {
  const said = (mark: ChartMark): string =>
    `${mark.label} ${mark.text}, ${mark.inside ? "within limits" : "outside the limits"}`;
  return [
    `${title}: limits ${limits}`,
    ...(before ? [said(before)] : []),
    ...(after ? [said(after)] : []),
  ].join("; ");
}

/** From a value to its place; what lies beyond every number, an open reading, stands at the right end. */
function scaleOf({ low, high, before, after }: ReadingChart): (value: number | undefined) => number {
  const shown = [low, high, before?.value, after?.value].filter((value) => value !== undefined);
  const least = Math.min(...shown);
  const most = Math.max(...shown);
  const span = most - least || Math.abs(most) || 1;
  const from = least - AIR * span;
  const width = span * (1 + 2 * AIR);
  const open = [before, after].some((mark) => mark !== undefined && mark.value === undefined);
  const room = RIGHT - LEFT - (open ? BEYOND : 0);
  return (value) => (value === undefined ? RIGHT - 18 : LEFT + ((value - from) / width) * room);
}

const ring = ({ value }: ChartMark, x: (value: number | undefined) => number, y: number): Html =>
  markup`<circle class="before" cx="${n(x(value))}" cy="${n(y)}" r="6"/>${value === undefined ? beyond(markup`before`, y) : ""}`;

function diamond({ value }: ChartMark, x: (value: number | undefined) => number, y: number): Html {
  const at = x(value);
  return markup`<path class="after" d="M${n(at - 6)} ${n(y)}L${n(at)} ${n(y - 7)}L${n(at + 6)} ${n(y)}L${n(at)} ${n(y + 7)}Z"/>${value === undefined ? beyond(markup`after`, y) : ""}`;
}

/** An arrow head for a reading off the scale. */
const beyond = (kind: Html, y: number): Html =>
  markup`<path class="${kind}" d="M${RIGHT - 8} ${n(y - 5)}L${RIGHT - 1} ${n(y)}L${RIGHT - 8} ${n(y + 5)}Z"/>`;

const n = (value: number): number => Math.round(value * 10) / 10;
