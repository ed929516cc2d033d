import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { mondayOf, weekOf, weeksIn } from "../../../server/src/compute/dates/iso-week";
import { judgeDateCode } from "../../../server/src/compute/dates/judge-date-code";

// Widely published examples of ISO 8601's week calendar; recomputed.
describe("days and their weeks", () => {
  test.each([
    ["2019-12-30", 2020, 1, 1],
    ["2005-01-01", 2004, 53, 6],
    ["2005-01-02", 2004, 53, 7],
    ["2005-01-03", 2005, 1, 1],
    ["1977-01-01", 1976, 53, 6],
    ["1981-12-31", 1981, 53, 4],
    ["1970-01-01", 1970, 1, 4],
    ["1969-12-31", 1970, 1, 3],
  ])("%s", (day, year, week, weekday) => {
    expect(weekOf(day)).toEqual({ year, week, weekday });
  });

  test.each(["2026-02-29", "2026-13-01", "2026-00-10", "26-01-01", "0050-01-01", "", "2026-3-2"])(
    "%j is no day",
    (text) => {
      expect(weekOf(text)).toBeUndefined();
    },
  );
});

const YEARS = Array.from({ length: 21 }, (_, i) => 1970 + i);

test("years with a week 53 between 1970 and 1990: 1970, 1976, 1981, 1987", () => {
  expect(YEARS.filter((year) => weeksIn(year) === 53)).toEqual([1970, 1976, 1981, 1987]);
  // Makers count weeks by rules of their own, so it is doubtful there and no more.
  const doubtful = YEARS.filter((year) => {
    const ruling = judgeDateCode(`${year % 100}53`);
    return ruling.ok && ruling.verdict === "suspect";
  });
  expect(doubtful).toEqual(YEARS.filter((year) => ![1970, 1976, 1981, 1987].includes(year)));
});

// The other definition of a long year: it begins or ends on a Thursday.
test("long years begin or end on a Thursday, 71 of them in 400 years", () => {
  let long = 0;
  for (let year = 1800; year < 2200; year += 1) {
    const thursday = [`${year}-01-01`, `${year}-12-31`].some(
      (day) => new Date(`${day}T00:00:00Z`).getUTCDay() === 4,
    );
    expect(weeksIn(year)).toBe(thursday ? 53 : 52);
    if (thursday) long += 1;
  }
  expect(long).toBe(71);
});

test("every day lies in the week that begins with its Monday", () => {
  fc.assert(
    fc.property(fc.integer({ min: -60_000, max: 60_000 }), (days) => {
      const date = new Date(days * 86_400_000);
      const { year, week, weekday } = weekOf(date.toISOString().slice(0, 10))!;
      const monday = new Date(date);
      monday.setUTCDate(monday.getUTCDate() - (weekday - 1));
      expect(monday.getUTCDay()).toBe(1);
      expect(mondayOf(year, week)).toBe(monday.toISOString().slice(0, 10));
    }),
  );
});

test.each([
  [1979, 53],
  [1979, 0],
  [1979, 1.5],
  [1500, 1],
  [Number.NaN, 1],
])("no Monday for week %d %d", (year, week) => {
  expect(mondayOf(year, week)).toBeUndefined();
});
