import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { type GuideStep, guideStep } from "../../../server/src/features/guide";
import { applyEdits } from "../../../server/src/text/edits";
import { openAt } from "../../support/workspace";

const table = (...rows: string[]): string =>
  `| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n${rows.map((row) => `| ${row} |\n`).join("")}`;

async function guided(body: string, findings: Parameters<typeof guideStep>[1] = []) {
  const { view, offset } = await openAt(exampleLog(body.includes("$0") ? body : `${body}$0`));
  const step = guideStep(view, findings, offset);
  const { text } = view.doc;
  const cell = step?.cell;
  const after = cell ? applyEdits(text, cell.edits) : text;
  const marked = cell ? `${after.slice(0, cell.cursor)}^${after.slice(cell.cursor)}` : "";
  const line = marked.split("\n").find((each) => each.includes("^"));
  return { step: step as GuideStep, line, after };
}

describe("the next reading", () => {
  test("of a suspect is typed into a new row of the table that has its readings", async () => {
    const { step, line, after } = await guided(`## Diode check\n\n${table("U14 | 2 | OL | ")}\nWords.\n`);
    expect(step.kind).toBe("read");
    expect(step.action).toContain(`${step.ref} pin ${step.pin}`);
    expect(line).toMatch(new RegExp(`^\\| ${step.ref} +\\| ${step.pin} +\\| \\^`));
    // The row stands in the table, and the words below it are apart from it as before.
    expect(after).toMatch(/\|\n\nWords\.\n/);
    expect(step.window).toMatch(/^(?:[\d.]+ m?V to|at most|at least) [\d.]+ m?V$/);
    expect(step.expect).toContain(step.window);
  });

  test("goes to a cell that waits for it, without an edit", async () => {
    const first = await guided(`## Diode check\n\n${table("U14 | 2 | OL | ")}`);
    const { ref, pin } = first.step;
    const { step, line } = await guided(
      `## Diode check\n\n${table("U14 | 2 | OL | ", `${ref} | ${pin} |  | `)}`,
    );
    expect([step.ref, step.pin]).toEqual([ref, pin]);
    expect(step.cell?.edits).toEqual([]);
    expect(line).toMatch(new RegExp(`^\\| ${ref} \\| ${pin} \\| ?\\^`));
  });

  test("has its chip drawn with the pin marked, where the outline is known", async () => {
    const { step } = await guided(`## Diode check\n\n${table("U14 | 2 | OL | ")}`);
    expect(step.picture?.alt).toContain(`put the probe on pin ${step.pin}`);
  });
});

describe("the row that is left", () => {
  test("is padded by the same edits that lead on, whether the next cell is there or is made", async () => {
    const there = `## Diode check\n\n${table("U14 | 2 | 0.58$0 | ", "U14 | 4 |  | ")}`;
    const filled = await guided(there);
    expect(filled.after).toContain("| U14 | 2   | 0.58    |      |\n");
    expect(filled.line).toMatch(/^\| U14 \| 4 \|/);
    const made = await guided(`## Diode check\n\n${table("U14 | 2 | OL$0 | ")}\nWords.\n`);
    expect(made.after).toContain("| U14 | 2   | OL      |      |\n");
    expect(made.line).toMatch(new RegExp(`^\\| ${made.step.ref} +\\| ${made.step.pin} +\\| \\^`));
  });

  test("stays as it is where the cursor stays in it", async () => {
    const { step } = await guided(`## Diode check\n\n${table("U14 | 2 | $0 | ")}`);
    expect(step.cell?.edits).toEqual([]);
  });
});

describe("where nothing is suspected", () => {
  const body = `## Diode check\n\n${table("U14 | 2 | 0.58 | ", "U14 | 4 |  | ", "U14 | 6 |  | ")}`;

  test("the next empty cell is filled in, from the cursor on", async () => {
    expect((await guided(body)).line).toMatch(/^\| U14 \| 4 \|/);
    const below = body.replace("U14 | 4 | ", "U14 | 4 | - $0");
    const { step, line } = await guided(below);
    expect(line).toMatch(/^\| U14 \| 6 \|/);
    expect(step).toMatchObject({ kind: "fill", ref: "U14", pin: "6", action: "Read U14 pin 6" });
  });

  test("and nothing is left in a table that is full", async () => {
    const { step } = await guided(`## Diode check\n\n${table("U14 | 2 | 0.58 | ")}`);
    expect(step).toBeUndefined();
  });
});

describe("a table that was read in a wrong way", () => {
  const body = `## Diode check\n\n${table("U14 | 2 | OL | ", "U14 | 4 | OL | ")}`;
  const at = (text: string) => exampleLog(text).indexOf("OL |", exampleLog(text).indexOf("U14 | 2"));
  const doubt = (text: string, more: object = {}) => ({
    message: "The lead was off ground.",
    severity: "warning",
    data: {
      spoilt: { places: [at(text), text.length > 0 ? exampleLog(text).indexOf("OL |", at(text) + 1) : 0] },
      ...more,
    },
  });

  test("comes first: its pins are read anew below it, one after the other", async () => {
    const { step, line, after } = await guided(body, [doubt(body)]);
    expect(step).toMatchObject({ kind: "check", ref: "U14", pin: "2", action: "The lead was off ground." });
    expect(line).toMatch(/^\| U14 +\| 2 +\| *\^/);
    expect(after).toContain("\n## Diode check again\n");
    const second = `${body}\n## Diode check again\n\n${table("U14 | 2 | 0.58 | ")}`;
    const next = await guided(second, [doubt(second)]);
    expect(next.step).toMatchObject({ kind: "check", ref: "U14", pin: "4" });
    expect(next.line).toMatch(/^\| U14 +\| 4 +\| *\^/);
    expect(next.after.match(/## Diode check again/g)).toHaveLength(1);
  });

  test("is mended where it stands, where its readings only stand in the wrong rows", async () => {
    const { step, line } = await guided(body, [doubt(body, { edits: [{}] })]);
    expect(step.cell?.edits).toEqual([]);
    expect(line).toMatch(/^\| U14 \| 2 \| \^OL/);
  });

  test.each([
    ["a finding without such a list", { message: "x", data: { spoilt: { places: [] } } }],
    ["a finding of another check", { message: "x", data: { spoilt: "yes" } }],
    ["a finding without data", { message: "x" }],
    ["a doubt that is not certain", { ...doubt(body), severity: "information" }],
  ])("%s is none", async (_, finding) => {
    expect((await guided(body, [finding])).step.kind).toBe("read");
  });
});

test("a lead that was off ground is a doubt by the checks' own word", async () => {
  const open = ["1", "2", "3", "7", "14"].map((pin) => `U14 | ${pin} | OL | `);
  const { view, service, uri } = await openAt(exampleLog(`## Diode check\n\n${table(...open)}$0`));
  const step = guideStep(view, service.findings(uri), 0);
  expect(step).toMatchObject({ kind: "check", ref: "U14", pin: "1" });
  expect(step?.action).toContain("lead was not on ground");
});
