import { expect, test } from "vitest";
import type { LogSummary } from "../../../server/src/log/summary";
import { curesOf } from "../../../server/src/review/diagnosis/history";

const job = (name: string, more: Partial<LogSummary> = {}, ...replaced: readonly string[]): LogSummary => ({
  uri: `mem:/${name}.md`,
  job: name,
  board: "example",
  stage: "returned",
  symptoms: ["row-dead"],
  work: replaced.map((ref) => ({ ref, action: "replaced", replaced: true })),
  fitted: [],
  tables: [],
  proving: [],
  stated: [],
  ...more,
});
const asked = { uri: "mem:/now.md", board: "example", symptoms: ["row-dead", "other"] };
const counts = (...jobs: readonly LogSummary[]) => curesOf(asked, jobs);

test("what was replaced on returned boards of the type with one of the symptoms, once a job", () => {
  expect(counts(job("a", {}, "U14", "u14", "U12"), job("b", {}, "U14"))).toEqual([
    { ref: "U14", count: 2 },
    { ref: "U12", count: 1 },
  ]);
});

test("other boards, other symptoms, open jobs and the log itself say nothing", () => {
  expect(
    counts(
      job("a", { board: "another" }, "U1"),
      job("b", { symptoms: ["no-sound"] }, "U1"),
      job("c", { stage: "proving" }, "U1"),
      job("now", {}, "U1"),
    ),
  ).toEqual([]);
  expect(curesOf({ ...asked, symptoms: [] }, [job("a", {}, "U1")])).toEqual([]);
});

test("a job that came back with the symptom cured nothing", () => {
  const back = job("b", { comebackOf: "a", stage: "diagnosing" });
  expect(counts(job("a", {}, "U1"), back)).toEqual([]);
  expect(counts(job("a", {}, "U1"), { ...back, symptoms: ["no-sound"] })).toEqual([{ ref: "U1", count: 1 }]);
});

test("work that replaced nothing is no cure", () => {
  const cleaned = { work: [{ ref: "J2", action: "reflowed", replaced: false }] };
  expect(counts(job("a", cleaned))).toEqual([]);
});

test("every part of a row of work counts", () => {
  const pair = { work: [{ ref: "u3", also: ["U4"], action: "replaced", replaced: true }] };
  expect(counts(job("a", pair))).toEqual([
    { ref: "U3", count: 1 },
    { ref: "U4", count: 1 },
  ]);
});
