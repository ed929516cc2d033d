// What a corpus is held to: enough logs to mean something, its faults found, nothing else found, its parts named.
import { beforeAll, describe, expect, it } from "vitest";
import { readCorpus } from "./corpus";
import { found, type Measured, measure, named, planted, sum, table } from "./measure";

export interface Floors {
  readonly logs: number;
  readonly faults: number;
  readonly foundAtLeast: number;
  readonly falseAtMost: number;
  /** Of the parts that a diagnosis has to name among its first five. */
  readonly namedAtLeast: number;
}

export function holdCorpus(
  title: string,
  corpus: Parameters<typeof readCorpus>[0],
  { logs, faults, foundAtLeast, falseAtMost, namedAtLeast }: Floors,
): void {
  describe(title, () => {
    let all: Measured[];
    beforeAll(async () => {
      all = [];
      for (const specimen of readCorpus(corpus)) all.push(await measure(specimen));
      if (process.env.MENDLOG_DEPTH0 === "print") console.log(table(all));
    });

    it("is measured on enough logs and faults to mean something", () => {
      expect(all.length).toBeGreaterThanOrEqual(logs);
      expect(sum(all.map(planted))).toBeGreaterThanOrEqual(faults);
      for (const { specimen } of all) expect(specimen.clean, specimen.name).not.toBe(specimen.text);
    });

    it("has its faults found", () => {
      expect(sum(all.map(found)), table(all)).toBeGreaterThanOrEqual(foundAtLeast);
    });

    it("has nothing else found", () => {
      expect(sum(all.map(({ wrong }) => wrong.length)), table(all)).toBeLessThanOrEqual(falseAtMost);
    });

    it("has a diagnosis that names the parts", () => {
      expect(sum(all.map(named)), table(all)).toBeGreaterThanOrEqual(namedAtLeast);
    });
  });
}
