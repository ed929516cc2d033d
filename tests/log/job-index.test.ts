import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { returnedJobs } from "../../server/src/judge/baseline/history";
import { MOST_BOARDS } from "../../server/src/judge/baseline/types";
import { jobIndex, type Logs } from "../../server/src/log/job-index";
import type { LogSummary } from "../../server/src/log/summary";
import { logSummary } from "../support/log-summary";

const logsOf = (all: readonly LogSummary[]): Logs => new Map(all.map((each) => [each.uri, each]));

const word = fc.constantFrom(undefined, "", " ", "a", "A ", "b", "a-17", "A-17", "01", "1");
const some = fc
  .array(fc.record({ board: word, serial: word, job: word, comebackOf: word }), { maxLength: 12 })
  .map((all) => all.map((each, i) => logSummary(`mem:/${i}.md`, each as Partial<LogSummary>)));

describe("the workspace's logs by what they are looked for", () => {
  it("finds what a look through all of them finds", () => {
    const like = (a: string | undefined, b: string) =>
      a !== undefined && b.trim() !== "" && a.trim().toLowerCase() === b.trim().toLowerCase();
    fc.assert(
      fc.property(some, fc.constantFrom("a", "A", "b ", "", "01", "A-17"), (all, asked) => {
        const index = jobIndex(logsOf(all));
        expect(index.ofBoard(asked)).toEqual(all.filter(({ board }) => board === asked));
        expect(index.numbered(asked)).toEqual(all.filter(({ job }) => like(job, asked)));
        expect(index.ofSerial("a", asked)).toEqual(
          all.filter(({ board, serial }) => like(board, "a") && like(serial, asked)),
        );
        expect([...index.cameBack]).toEqual([...new Set(all.flatMap(({ comebackOf }) => comebackOf ?? []))]);
      }),
    );
  });

  it("lets the boards returned last speak for the next, so many of each revision", () => {
    const all = Array.from({ length: 3 * MOST_BOARDS }, (_, i) =>
      logSummary(`mem:/${i}.md`, {
        board: "x",
        stage: "returned",
        revision: i % 3 === 0 ? "A" : "B",
        returned: `20${String(10 + Math.floor(i / 300)).padStart(2, "0")}-01-${String(1 + (i % 28)).padStart(2, "0")}`,
      }),
    );
    const jobs = returnedJobs(logsOf(all), "x");
    expect(jobs.filter(({ revision }) => revision === "A")).toHaveLength(MOST_BOARDS);
    expect(jobs.filter(({ revision }) => revision === "B")).toHaveLength(MOST_BOARDS);
    const days = jobs.map(({ returned }) => returned ?? "");
    expect(days).toEqual([...days].sort().reverse());
  });
});
