// One board's part of the page: what it reads place by place, what cured it, what was replaced, how long it takes.
import { formatValue } from "../../quantity/format-value";
import { groupBy } from "../../review/numbers/order";
import type { DriftRow, LimitsRow, PlaceColumns } from "../../review/numbers/types";
import { cell, type Html, html, joinedHtml, markup } from "../../text/html";
import { table } from "../owner/page";
import { type Bar, barsSvg } from "./bars";
import { counted, percentText, placeKeyOf, type StatsSource, testWords } from "./source";
import { limitsInWords, yearsSvg } from "./years";

/** A drift is called clear where no drift would show one like it less often than this: common practice, no source. */
export const CLEAR = 0.05;
/** Drawings a board at most; the tables have the rest. */
const MOST_CHARTS = 12;
const MOST_BARS = 10;

/** @param id unique in the page; a letter first */
export function boardSection(board: string, id: Html, source: StatsSource): Html {
  const { numbers } = source;
  const own = <T extends { readonly board: string | null }>(rows: readonly T[]): T[] =>
    rows.filter((row) => row.board === board);
  const parts = [
    limitsPart(own(numbers.limits), id, source),
    driftPart(own(numbers.drift), source),
    metersPart(own(numbers.meters), source),
    curesPart(own(numbers.cures)),
    failuresPart(own(numbers.failures), id),
    hoursPart(own(numbers.hours)),
  ];
  return parts.every((part) => part === "")
    ? markup``
    : markup`<section>\n<h2>${html(source.boardTitle(board))}</h2>\n${joinedHtml(parts, "")}</section>\n`;
}

const part = (title: string, ...content: readonly Html[]): Html =>
  markup`<h3>${html(title)}</h3>\n${joinedHtml(content, "")}`;

const small = (text: string): Html => markup`<p class="small">${html(text)}</p>\n`;

function limitsPart(rows: readonly LimitsRow[], id: Html, source: StatsSource): Html {
  if (rows.length === 0) return markup``;
  const years = groupBy(source.numbers.years, placeKeyOf);
  const clear = new Set(source.numbers.drift.filter(isClear).map(placeKeyOf));
  const charts = rows
    .filter(({ revision }) => revision === null)
    .map((limits) => ({ limits, of: years.get(placeKeyOf(limits)) ?? [] }))
    .filter(({ of }) => of.length > 1)
    .sort((a, b) => Number(clear.has(placeKeyOf(b.limits))) - Number(clear.has(placeKeyOf(a.limits))))
    .slice(0, MOST_CHARTS)
    .map(({ limits, of }, at) => {
      const title = `${limits.place}, ${testWords(limits, source)}`;
      return markup`<figure>\n<figcaption>${cell(title)}</figcaption>\n${yearsSvg({ title, limits, years: of }, markup`${id}-y${at}`)}\n</figure>\n`;
    });
  return part(
    "What it reads",
    small(
      "Limits hold 95 % of all boards with 95 % confidence, by what returned boards read. What lies outside of them is unusual; what lies inside is not disproved.",
    ),
    charts.length === 0 ? markup`` : markup`<div class="charts">\n${joinedHtml(charts, "")}</div>\n`,
    table(
      ["Place", "Test", "Revision", "Boards", "Middle", "Limits", "Left out"],
      rows.map((row) => [
        cell(row.place),
        cell(testWords(row, source)),
        cell(row.revision ?? "all"),
        markup`${row.boards}`,
        cell(formatValue(row.median, row.unit)),
        cell(limitsInWords(row.low, row.high, row.unit)),
        row.leftOut === 0 ? "" : markup`${row.leftOut}`,
      ]),
      ["Boards", "Middle", "Left out"],
    ),
  );
}

const isClear = ({ chance }: DriftRow): boolean => chance < CLEAR;

function driftPart(rows: readonly DriftRow[], source: StatsSource): Html {
  const clear = rows.filter(isClear);
  if (rows.length === 0) return markup``;
  const none = small(
    `None of ${counted(rows.length, "place")} drifts so that it could not be chance (${percentText(CLEAR)}).`,
  );
  const list = table(
    ["Place", "Test", "Change in a year", "Boards", "Pairs that rise", "By chance"],
    clear.map((row) => [
      cell(row.place),
      cell(testWords(row, source)),
      cell(`${row.slope > 0 ? "+" : ""}${formatValue(row.slope, row.unit)}`),
      markup`${row.boards}`,
      markup`${row.rising} of ${row.rising + row.falling}`,
      cell(percentText(row.chance)),
    ]),
    ["Change in a year", "Boards", "Pairs that rise", "By chance"],
  );
  const tested = small(
    `The slope is the middle one of all pairs of boards. ${counted(rows.length, "place")} tried: by chance alone about ${Math.round(rows.length * CLEAR * 10) / 10} of them would be listed.`,
  );
  return part("What drifts over the years", ...(clear.length === 0 ? [none] : [list, tested]));
}

function metersPart(rows: StatsSource["numbers"]["meters"], source: StatsSource): Html {
  if (rows.length === 0) return markup``;
  const byPlace = groupBy<(typeof rows)[number], string>(rows, placeKeyOf);
  return part(
    "Each meter by itself",
    table(
      ["Place", "Test", "Meter and its middle reading"],
      [...byPlace.values()].map((of) => {
        const first: PlaceColumns = of[0]!;
        const each = of.map(
          ({ meter, median, unit, boards }) =>
            `${meter ?? "no meter named"}: ${formatValue(median, unit)} (${counted(boards, "board")})`,
        );
        return [cell(first.place), cell(testWords(first, source)), cell(each.join("; "))];
      }),
    ),
  );
}

function curesPart(rows: StatsSource["numbers"]["cures"]): Html {
  if (rows.length === 0) return markup``;
  return part(
    "What cured it",
    small(
      "Parts replaced in returned jobs that did not come back with the symptom. Which of them was at fault, they do not say.",
    ),
    table(
      ["Symptom", "Part", "Jobs", "Of"],
      rows.map(({ symptom, ref, cured, jobs }) => [
        cell(symptom),
        cell(ref),
        markup`${cured}`,
        markup`${jobs}`,
      ]),
      ["Jobs", "Of"],
    ),
  );
}

function failuresPart(rows: StatsSource["numbers"]["failures"], id: Html): Html {
  return failures(rows, "What was replaced most often", "Place", markup`${id}-f`);
}

/** Parts of at least two jobs, over all years; empty where there are none. */
export function failures(
  rows: StatsSource["numbers"]["failures"],
  title: string,
  header: string,
  id: Html,
): Html {
  const often = [...groupBy<(typeof rows)[number], string>(rows, ({ part: of }) => of)]
    .map(([of, years]) => ({
      of,
      jobs: years.reduce((sum, { jobs }) => sum + jobs, 0),
      years: years
        .map(({ inYear, jobs, ofJobs }) => `${inYear ?? "no date"}: ${jobs} of ${ofJobs}`)
        .reverse(),
    }))
    .filter(({ jobs }) => jobs > 1)
    .sort((a, b) => b.jobs - a.jobs || (a.of < b.of ? -1 : 1));
  if (often.length === 0) return markup``;
  const bars = often
    .slice(0, MOST_BARS)
    .map(({ of, jobs }): Bar => ({ label: of, count: jobs, text: counted(jobs, "job") }));
  return part(
    title,
    markup`<figure>\n${barsSvg(bars, id, title)}\n</figure>\n`,
    table(
      [header, "Jobs", "Year: jobs of all that year"],
      often.map(({ of, jobs, years }) => [cell(of), markup`${jobs}`, cell(years.join("; "))]),
      ["Jobs"],
    ),
  );
}

function hoursPart(rows: StatsSource["numbers"]["hours"]): Html {
  if (rows.length === 0) return markup``;
  const hours = (value: number): Html => markup`${Math.round(value * 100) / 100} h`;
  return part(
    "How long it takes",
    table(
      ["Symptom", "Jobs", "Shortest", "Middle", "Longest"],
      rows.map((row) => [
        cell(row.symptom ?? "all jobs"),
        markup`${row.jobs}`,
        hours(row.shortest),
        hours(row.median),
        hours(row.longest),
      ]),
      ["Jobs", "Shortest", "Middle", "Longest"],
    ),
  );
}
