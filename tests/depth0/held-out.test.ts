// The same measure on logs that no rule was written with in view: what a technician's log can expect who writes as nobody
// here did. A miss here is no reason to look at these logs: write one like it for the other set.
// The table: MENDLOG_DEPTH0=print npx vitest run tests/depth0/held-out.test.ts --reporter=verbose
import { beforeAll, describe, expect, it } from "vitest";
import { readCorpus } from "./corpus";
import { PLANTED } from "./held-out/faults";
import { found, type Measured, measure, named, planted, sum, table } from "./measure";

const CORPUS = { folder: new URL("./held-out/logs/", import.meta.url), planted: PLANTED };
// What holds now, to be raised when it is more.
const FOUND_AT_LEAST = 98;
const FALSE_AT_MOST = 52;
// Of the parts that a diagnosis has to name among its first five.
const NAMED_AT_LEAST = 29;

describe("a held-out log without a board file", () => {
  let all: Measured[];
  beforeAll(async () => {
    all = [];
    for (const specimen of readCorpus(CORPUS)) all.push(await measure(specimen));
    if (process.env.MENDLOG_DEPTH0 === "print") console.log(table(all));
  });

  it("is measured on enough logs and faults to mean something", () => {
    expect(all.length).toBeGreaterThanOrEqual(20);
    expect(sum(all.map(planted))).toBeGreaterThanOrEqual(110);
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
