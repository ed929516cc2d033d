// Every statement that is made of a log, held against a plain reading of what the log was made from: nothing that
// failed is missing, nothing planned or put back is called done or fitted.
import fc from "fast-check";
import { beforeAll, expect, test } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import { statusOf } from "../../server/src/features/jobs/status";
import { diagnosisReport } from "../../server/src/features/shared/diagnosis";
import type { LogView } from "../../server/src/features/view";
import { ownerMarkdown, ownerReport } from "../../server/src/report/owner";
import { partsList } from "../../server/src/review/parts/list";
import type { Service } from "../../server/src/service";
import { openWorld } from "../support/workspace";
import { CHIPS, type Chip, ITEMS, story, type Truth, truthOf, written } from "./generated";

const URI = "mem:/ws/log.md";
let service: Service;
beforeAll(async () => {
  ({ service } = await openWorld(exampleLog("")));
});

const RUNS = Number(process.env.MENDLOG_RUNS ?? 60);

/** Reads the log that such a list of happenings makes, and holds one kind of statement against the list. */
const holds = (check: (view: LogView, truth: Truth) => void) =>
  fc.assert(
    fc.property(story, (all) => {
      service.open(URI, exampleLog(written(all)));
      const view = service.view(URI);
      if (!view) throw new Error("no log");
      check(view, truthOf(all));
    }),
    { numRuns: RUNS },
  );

const sorted = (all: Iterable<string>): string[] => [...new Set(all)].sort();
const refsIn = (all: readonly { readonly refs: readonly string[] }[]): string[] =>
  sorted(all.flatMap(({ refs }) => refs));
const chipsOf = (text: string): string[] => CHIPS.filter((ref) => new RegExp(`\\b${ref}\\b`).test(text));

test("the report finds all that failed and nothing else, and says so only where nothing did", () => {
  holds((view, { failed }) => {
    const report = ownerReport(view);
    const where = report.found.map((one) => one.where).join("\n");
    const told = [...CHIPS, "Switch matrix", ...ITEMS].filter((name) =>
      new RegExp(`\\b${name}\\b`).test(where),
    );
    expect(sorted(told)).toEqual(sorted(failed));
    expect(ownerMarkdown(report).includes("no reading outside its limits and no failed test")).toBe(
      failed.size === 0,
    );
  });
});

test("the report calls replaced what was, lists all work that was done, and no plan", () => {
  holds((view, { renewed, worked }) => {
    const report = ownerReport(view);
    for (const { where, outcome } of report.found)
      for (const ref of chipsOf(where))
        expect(`${ref} ${outcome}`).toBe(`${ref} ${renewed.has(ref as Chip) ? "replaced" : undefined}`);
    expect(report.done).toHaveLength(worked);
    expect(JSON.stringify(report.done)).not.toContain("to be replaced");
    // A part in the column of parts is one that went in.
    const parts = report.done.filter(({ part }) => part !== undefined);
    expect(sorted(parts.flatMap(({ where }) => chipsOf(where)))).toEqual(sorted(renewed));
  });
});

test("the report and the parts list have as fitted what was put in to stay, and as planned what was not", () => {
  holds((view, { fitted, planned, condemned }) => {
    const list = partsList(view);
    expect(refsIn(list.fitted)).toEqual(sorted(fitted));
    // One listed twice is two pieces.
    expect(list.fitted.reduce((sum, { quantity }) => sum + quantity, 0)).toBeGreaterThanOrEqual(fitted.size);
    expect(sorted(ownerReport(view).fitted.flatMap(({ where }) => chipsOf(where)))).toEqual(sorted(fitted));
    const wanted = list.suggested.filter(({ kind }) => kind === "part");
    const why = wanted.flatMap((line) => line.why);
    expect(sorted(why.filter((text) => text.endsWith("planned")).flatMap(chipsOf))).toEqual(sorted(planned));
    // What a tester or a trial condemned is to be bought until another part stands there.
    for (const ref of condemned) if (!fitted.has(ref)) expect(refsIn(wanted)).toContain(ref);
  });
});

test("the diagnosis says that nothing was found wrong only where nothing failed, and leaves nobody condemned out", () => {
  holds((view, { failed, condemned }) => {
    const report = diagnosisReport(view, 20);
    if (!report) throw new Error("no board");
    expect(report.bound.startsWith("Nothing was found wrong,")).toBe(failed.size === 0);
    // As a suspect, or where it was tried before as what was measured wrong.
    const named = sorted(
      [
        ...report.suspects.map(({ name }) => name),
        ...report.together.flatMap(({ excused }) => excused),
      ].flatMap(chipsOf),
    );
    for (const ref of condemned) expect(named).toContain(ref);
  });
});

test("the line below the editor counts what failed and what is not proven as the log has it", () => {
  holds((view, { proofs, failed }) => {
    const { unproven, failed: count, toProve } = statusOf(view, { today: "2026-03-02", oldAfterDays: 30 });
    const matrix = view.doc.text.includes("| dead |") || view.doc.text.includes("| ok |") ? 1 : 0;
    const states = [...proofs.values()];
    const lost = states.filter((state) => state === "failed").length;
    expect(toProve).toBe(4);
    // The matrix is an item of its own, and what it comes to is for its own tests.
    expect(count - lost).toBeGreaterThanOrEqual(0);
    expect(count - lost).toBeLessThanOrEqual(failed.has("Switch matrix") ? 1 : 0);
    expect(toProve - unproven).toBeLessThanOrEqual(states.length - lost + matrix);
    expect(toProve - unproven).toBeGreaterThanOrEqual(states.length - lost);
  });
});
