// Weeks by ISO 8601: they begin on Monday, and week 1 is the one with the year's first Thursday, so the days around
// New Year may belong to a week of the year before or after (ISO 8601-1:2019, from memory).

export interface IsoWeek {
  /** The year the week belongs to, not always that of the day. */
  readonly year: number;
  /** 1 to 52 or 53. */
  readonly week: number;
  /** 1 Monday to 7 Sunday. */
  readonly weekday: number;
}

const DAY = 86_400_000;

/** Days since 1970-01-01. Date.UTC reads no clock, but takes years below 100 for 19xx. */
const dayNumber = (year: number, month: number, day: number): number => Date.UTC(year, month - 1, day) / DAY;

/** 1 Monday to 7 Sunday; day 0 was a Thursday. */
const weekdayOf = (day: number): number => ((((day + 3) % 7) + 7) % 7) + 1;

/** The Monday of week 1: the week 4 January lies in. */
const firstMonday = (year: number): number => {
  const fourth = dayNumber(year, 1, 4);
  return fourth - weekdayOf(fourth) + 1;
};

const isYear = (year: number): boolean => Number.isInteger(year) && year >= 1583 && year <= 9999;

/** 52 or 53; undefined outside the years 1583 to 9999, which ISO 8601 is made for. */
export const weeksIn = (year: number): 52 | 53 | undefined =>
  isYear(year) ? ((firstMonday(year + 1) - firstMonday(year) === 371 ? 53 : 52) as 52 | 53) : undefined;

/** The week of a day written "2026-03-02"; undefined where that is not a day of the calendar. */
export function weekOf(text: string): IsoWeek | undefined {
  const day = readDay(text);
  if (day === undefined) return undefined;
  const weekday = weekdayOf(day);
  const year = new Date((day - weekday + 4) * DAY).getUTCFullYear();
  return { year, week: (day - weekday + 1 - firstMonday(year)) / 7 + 1, weekday };
}

/** The Monday a week begins with, "1978-10-30"; undefined where the year has no such week. */
export function mondayOf(year: number, week: number): string | undefined {
  const weeks = weeksIn(year);
  if (weeks === undefined || !Number.isInteger(week) || week < 1 || week > weeks) return undefined;
  return new Date((firstMonday(year) + 7 * (week - 1)) * DAY).toISOString().slice(0, 10);
}

/** Days since 1970-01-01 of "2026-03-02"; undefined for 30 February and the like. */
function readDay(text: string): number | undefined {
  const [, year, month, day] = (/^(\d{4})-(\d\d)-(\d\d)$/.exec(text) ?? []).map(Number);
  if (year === undefined || month === undefined || day === undefined || !isYear(year)) return undefined;
  const number = dayNumber(year, month, day);
  return new Date(number * DAY).toISOString().slice(0, 10) === text ? number : undefined;
}
