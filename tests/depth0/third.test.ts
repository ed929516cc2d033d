// The same measure on a third set, written on 30 November 2026, when both others had been learned from. Whoever wrote it
// knew the formats, the devices and the other sets' faults, and had not looked at what reads a log. The first figures
// measured: 102 of 124 faults found, 6 findings that are not so, 40 of 48 parts named. Columns are told by what they hold
// since then, which was written with these logs in view: for an honest figure write a new set.
// The table: MENDLOG_DEPTH0=print npx vitest run tests/depth0/third.test.ts --reporter=verbose
import { beforeAll, describe, expect, it } from "vitest";
import { readCorpus } from "./corpus";
import { found, type Measured, measure, named, planted, sum, table } from "./measure";
import { PLANTED } from "./third/faults";

const CORPUS = { folder: new URL("./third/logs/", import.meta.url), planted: PLANTED };
const FOUND_AT_LEAST = 119;
const FALSE_AT_MOST = 1;
// Of the parts that a diagnosis has to name among its first five.
const NAMED_AT_LEAST = 46;

describe("a third log without a board file", () => {
  let all: Measured[];
  beforeAll(async () => {
    all = [];
    for (const specimen of readCorpus(CORPUS)) all.push(await measure(specimen));
    if (process.env.MENDLOG_DEPTH0 === "print") console.log(table(all));
  });

  it("is measured on enough logs and faults to mean something", () => {
    expect(all.length).toBeGreaterThanOrEqual(16);
    expect(sum(all.map(planted))).toBeGreaterThanOrEqual(120);
    for (const { specimen } of all) expect(specimen.clean, specimen.name).not.toBe(specimen.text);
  });

  it("has its faults found", () => {
    expect(sum(all.map(found)), table(all)).toBeGreaterThanOrEqual(FOUND_AT_LEAST);
  });

  it("has nothing else found", () => {
    expect(sum(all.map(({ wrong }) => wrong.length)), table(all)).toBeLessThanOrEqual(FALSE_AT_MOST);
  });

  it("has a diagnosis that names the parts", () => {
    expect(sum(all.map(named)), table(all)).toBeGreaterThanOrEqual(NAMED_AT_LEAST);
  });
});
