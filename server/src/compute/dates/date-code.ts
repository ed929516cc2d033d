// Date codes as stamped on parts: year and week. Makers count weeks in their own ways, which differ by a week at New
// Year; ISO 8601's count is used here, the only one that is written down.
import type { Advice } from "../../text/saying";
import type { Err } from "../result";
import { weekOf, weeksIn } from "./iso-week";

export interface Era {
  /** First and last year boards of the type were made. */
  readonly from: number;
  readonly to: number;
}

/** What is known of when a part can have been made; each of them narrows down what a code may mean. */
export interface CodeContext {
  readonly era?: Era;
  /** The last day the part can have been made on, "2026-03-02": when the log has seen it. */
  readonly latest?: string;
}

export interface DateCode {
  readonly ok: true;
  readonly form: "YYWW" | "YY.WW" | "YWW";
  readonly week: number;
  /** Years it may mean, ascending; more than one only for YWW. */
  readonly years: readonly number[];
  /** How the century or the decade was decided, as a sentence. */
  readonly because: string;
}

export interface NoDateCode extends Err {
  /**
   * Impossible: has the shape of a date code, but there is no such week. Doubtful: a week 53 of a year that has none by
   * ISO 8601; a maker's own work weeks may have had one.
   */
  readonly problem: "unreadable" | "impossible" | "doubtful";
  /** What may be behind it and what to do, where the shape is right. */
  readonly advice?: Advice;
}

/** Two digits below this are of the 2000s: no integrated circuit was sold before the 1960s (from memory). */
export const FIRST_YEAR = 1960;
const LAST_YEAR = FIRST_YEAR + 99;

/**
 * Reads "7844", "78.44", "78-44", "78/44" and "844", letters of plant or lot around them left out. Four digits are
 * taken as year and week, never week and year. The era decides the decade of a single digit, never a century.
 */
export function readDateCode(text: string, context: CodeContext = {}): DateCode | NoDateCode {
  const typed = text.trim();
  const [, y, mark, w] = /^[A-Z]{0,2}(\d\d?)([.\-/]?)(\d\d)[A-Z]{0,2}$/i.exec(typed) ?? [];
  if (y === undefined || w === undefined || (y.length === 1 && mark !== "")) {
    return {
      ok: false,
      problem: "unreadable",
      reason: `"${typed}" is not a date code: two digits of the year and two of the week, as 7844 or 78.44, or three digits, as 844.`,
    };
  }
  const week = Number(w);
  if (week < 1 || week > 53) return noSuchWeek(typed, y, w);
  const form = y.length === 1 ? "YWW" : mark === "" ? "YYWW" : "YY.WW";
  const all = yearsOf(Number(y), y.length);
  const years = all.filter((year) => week <= (weeksIn(year) ?? 0));
  if (years.length === 0) return noWeek53(typed, all);
  if (form !== "YWW") return { ok: true, form, week, years, because: centuryOf(years[0]!) };
  return { ok: true, form, week, ...decade(years, context) };
}

/** Years from 1960 to 2059 that end in these digits. */
function yearsOf(ending: number, digits: number): readonly number[] {
  const step = 10 ** digits;
  const first = FIRST_YEAR + ((ending - (FIRST_YEAR % step) + step) % step);
  return Array.from({ length: 100 / step }, (_, i) => first + i * step);
}

const centuryOf = (year: number): string =>
  `Two digits are read as ${FIRST_YEAR} to ${LAST_YEAR}, so this is ${year} (no integrated circuit is older, from memory).`;

function decade(
  years: readonly number[],
  { era, latest }: CodeContext,
): { readonly years: readonly number[]; readonly because: string } {
  const now = latest === undefined ? undefined : weekOf(latest)?.year;
  const past = now === undefined ? years : years.filter((year) => year <= now);
  // All in the future: kept, so that the caller can say so of the earliest.
  const possible = past.length > 0 ? past : years.slice(0, 1);
  if (!era) {
    return {
      years: possible,
      because: `One digit leaves the decade open: ${possible.join(", ")}.`,
    };
  }
  const inside = possible.filter((year) => year >= era.from && year <= era.to);
  if (inside.length > 0) {
    return {
      years: inside,
      because: `One digit leaves the decade open; ${inside.join(" and ")} ${inside.length === 1 ? "lies" : "lie"} in the board's era, ${era.from} to ${era.to}.`,
    };
  }
  const away = (year: number): number => Math.max(era.from - year, year - era.to);
  const least = Math.min(...possible.map(away));
  const nearest = possible.filter((year) => away(year) === least);
  return {
    years: nearest,
    because: `One digit leaves the decade open; ${nearest.join(" and ")} ${nearest.length === 1 ? "is" : "are"} nearest to the board's era, ${era.from} to ${era.to}.`,
  };
}

function noSuchWeek(typed: string, y: string, w: string): NoDateCode {
  const turned = y.length === 2 && Number(y) >= 1 && Number(y) <= 53;
  const cause = turned
    ? `Read the other way round it would be week ${Number(y)} of a year '${w}.`
    : undefined;
  return {
    ok: false,
    problem: "impossible",
    reason: `"${typed}" would be week ${Number(w)}; a year has weeks 1 to 52 or 53.`,
    advice: { cause, step: "Read the stamp again." },
  };
}

function noWeek53(typed: string, years: readonly number[]): NoDateCode {
  const [year] = years;
  const has = (step: 1 | -1): number => {
    let at = year! + step;
    while (weeksIn(at) === 52) at += step;
    return at;
  };
  const what = years.length === 1 ? `${year} had no week 53` : `no such year has a week 53`;
  const near = years.length === 1 ? `The nearest years with one are ${has(-1)} and ${has(1)}.` : undefined;
  return {
    ok: false,
    problem: "doubtful",
    reason: `"${typed}" is doubtful: by ISO 8601 ${what}.`,
    advice: {
      cause: "Makers counted their own work weeks, which may run to 53.",
      step: "Read the stamp again. If it says so, take it as the end of that year.",
      more: near,
    },
  };
}

/** The code a part made on this day would bear, "7844"; undefined where it is not a day. */
export function dateCodeOf(day: string): string | undefined {
  const week = weekOf(day);
  return week && `${String(week.year % 100).padStart(2, "0")}${String(week.week).padStart(2, "0")}`;
}
