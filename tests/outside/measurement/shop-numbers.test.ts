// Mean and standard deviation of the limits against the reference data sets NumAcc2, NumAcc3 and NumAcc4 of NIST's
// Statistical Reference Datasets, univariate summary statistics (data rules and certified values from memory), and the
// shop's numbers against simple-statistics over the exported tables.
import { medianAbsoluteDeviation, median as medianOf, sampleStandardDeviation } from "simple-statistics";
import { beforeAll, describe, expect, test } from "vitest";
import { baselineLimits } from "../../../server/src/judge/baseline/limits";
import type { ShopNumbers } from "../../../server/src/review/numbers";
import { run } from "../../cli/memory";
import { madeShop } from "../../export/shop";
import { valueIn } from "../../support/computed";

const readings = (values: readonly number[]) =>
  values.map((value, i) => ({ uri: `mem:/${i}.md`, job: String(i), value, resolution: 0, unit: "V" }));

/** 1001 values: the first, then 500 times one step below and one above. */
const numAcc = (base: number, low: number, high: number): number[] => [
  base,
  ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high)),
];

describe("NIST's reference data sets", () => {
  test.each([
    ["NumAcc2", numAcc(1.2, 1.1, 1.3), 1.2, 0.1, 12],
    ["NumAcc3", numAcc(1000000.2, 1000000.1, 1000000.3), 1000000.2, 0.1, 8],
    ["NumAcc4", numAcc(10000000.2, 10000000.1, 10000000.3), 10000000.2, 0.1, 7],
  ])("%s", (_, values, mean, deviation, digits) => {
    const { n, centre, spread, leftOut } = valueIn(baselineLimits(readings(values)));
    expect(n + leftOut.length).toBe(values.length);
    expect(leftOut).toEqual([]);
    expect(Math.abs(centre / mean - 1)).toBeLessThan(10 ** -digits);
    expect(Math.abs(spread / deviation - 1)).toBeLessThan(10 ** -digits);
  });
});

type Line = Readonly<Record<string, never>>;
interface Place {
  readonly log_no: number;
  readonly procedure: string;
  readonly measure: string;
  readonly load: string | null;
  readonly place: string;
  readonly read_value: number | null;
  readonly resolution: number;
}
interface Job {
  readonly log_no: number;
  readonly job: string;
  readonly board: string;
  readonly unit: number;
  readonly stage: string;
  readonly returned: string | null;
  readonly comeback_of: string | null;
  readonly hours: number | null;
}

describe("the shop's numbers against simple-statistics", () => {
  let numbers: ShopNumbers;
  let jobs: Job[];
  let places: Place[];
  beforeAll(async () => {
    const { files } = madeShop(80, 7);
    numbers = JSON.parse((await run(["stats", "--format", "json"], files)).out);
    const { written } = await run(["export", "-o", "out", "--format", "ndjson"], files);
    const lines = (table: string): Line[] =>
      written
        .get(`/w/out/${table}.ndjson`)!
        .trim()
        .split("\n")
        .map((line) => JSON.parse(line));
    jobs = lines("jobs") as unknown as Job[];
    places = lines("places") as unknown as Place[];
  });

  /** Returned, not come back, each board's last. */
  const speaking = (board: string): Job[] => {
    const cameBack = new Set(jobs.flatMap(({ comeback_of }) => comeback_of ?? []));
    const own = jobs.filter(
      (job) => job.board === board && job.stage === "returned" && !cameBack.has(job.job),
    );
    return own.filter(
      (job) => !own.some((other) => other.unit === job.unit && (other.returned ?? "") > (job.returned ?? "")),
    );
  };

  test("limits: who is left out, the median, the mean and the standard deviation", () => {
    const rows = numbers.limits.filter(({ revision }) => revision === null);
    expect(rows.length).toBeGreaterThan(8);
    for (const row of rows) {
      const logs = new Set(speaking(row.board).map(({ log_no }) => log_no));
      const here = places.filter(
        (place) =>
          logs.has(place.log_no) &&
          place.place === row.place &&
          place.procedure === row.procedure &&
          place.measure === row.measure &&
          place.load === row.load,
      );
      const finite = here.flatMap(({ read_value }) => read_value ?? []);
      const digit = Math.sqrt(
        here.reduce((sum, { resolution }) => sum + resolution ** 2, 0) / here.length / 12,
      );
      const middle = medianOf(finite);
      // simple-statistics has the plain MAD; 0.6745 is what the handbook divides by (1.3.5.17).
      const sigma = Math.max(medianAbsoluteDeviation(finite) / 0.6744897501960817, digit);
      const kept = finite.filter((value) => Math.abs(value - middle) <= 3.5 * sigma);
      if (medianAbsoluteDeviation(finite) > 0) {
        expect([row.boards, row.leftOut], row.place).toEqual([kept.length, here.length - kept.length]);
        expect(row.spread).toBeCloseTo(Math.max(sampleStandardDeviation(kept), digit), 12);
        expect(row.centre).toBeCloseTo(kept.reduce((sum, value) => sum + value, 0) / kept.length, 12);
      }
      expect(row.median).toBeCloseTo(middle, 12);
    }
  });

  test("hours: the median and the ends", () => {
    const rows = numbers.hours.filter(({ symptom }) => symptom === null);
    expect(rows).toHaveLength(2);
    for (const row of rows) {
      const hours = jobs.flatMap(({ board, stage, hours: of }) =>
        board === row.board && stage === "returned" && of !== null ? [of] : [],
      );
      expect(row).toMatchObject({
        jobs: hours.length,
        median: expect.closeTo(medianOf(hours), 12),
        shortest: Math.min(...hours),
        longest: Math.max(...hours),
      });
    }
  });
});
