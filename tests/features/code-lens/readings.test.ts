import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { lensesOf, lensTitle, symptomsPlace } from "../../../server/src/features/code-lens";
import { slice } from "../../../server/src/text/span";
import { openAt } from "../../support/workspace";

/** Lenses of one kind as "the line: what it says", and what they show. */
async function lenses(of: "readings" | "earlier", fixture: string): Promise<string[]> {
  const { view, service, uri } = await openAt(fixture.includes("$0") ? fixture : `${fixture}$0`);
  for await (const _ of service.index()) {
    // Every log of the workspace is remembered before its lenses are asked for.
  }
  const now = service.view(uri) ?? view;
  return lensesOf(now)
    .filter((lens) => lens.of === of)
    .map((lens) => {
      const from = now.doc.text.lastIndexOf("\n", lens.span.start - 1) + 1;
      const told = lensTitle(now, lens);
      const shown = [
        ...(told?.shows ?? []).map(({ span }) => slice(now.doc.text, span)),
        ...(told?.logs ?? []).map((log) => log.split("/").at(-1)),
      ];
      return `${now.doc.text.slice(from).split("\n")[0]} | ${told?.title} | ${shown.join(" ")}`;
    });
}

const table = (...rows: string[]): string =>
  `| Ref | Pin | Reading |\n|-----|-----|---------|\n${rows.map((row) => `| ${row} |\n`).join("")}`;

test("a table's verdicts, the heaviest first, and the places of what is not within limits", async () => {
  const rows = table("U14 | 2 | 1.42", "U14 | 4 | 0.57", "U14 | 6 | -0.4", "U15 | 3 | 0.58", "U15 | 9 | -");
  expect(await lenses("readings", exampleLog(`## Diode check\n\n${rows}`))).toEqual([
    "## Diode check | 4 readings: 1 impossible, 1 out of limits, 2 within limits; 1 not measured | -0.4 1.42",
  ]);
});

test("a row begun and left blank waits for nothing, one that names its pin does", async () => {
  const rows = table("U14 | 2 | 0.57", "U14 | 4 | ", " | | ");
  expect(await lenses("readings", exampleLog(`## Diode check\n\n${rows}`))).toEqual([
    "## Diode check | 1 reading: 1 within limits; 1 not measured | ",
  ]);
});

test("of several tables under one heading each has its own", async () => {
  const two = `## Diode check\n\n${table("U14 | 2 | 0.57")}\nThe other:\n\n${table("U15 | 3 | 0.58", "U15 | 5 | O.58")}`;
  expect(await lenses("readings", exampleLog(two))).toEqual([
    "| Ref | Pin | Reading | | 1 reading: 1 within limits | ",
    "| Ref | Pin | Reading | | 2 readings: 1 within limits, 1 not judged | ",
  ]);
});

test("results are counted by their words; a table with nothing filled in has no lens", async () => {
  const matrix = `## Switch matrix

| Row / column | 1  | 2    |
|--------------|----|------|
| 1            | ok | dead |
| 2            | OK | -    |
`;
  expect(await lenses("readings", exampleLog(matrix))).toEqual([
    "## Switch matrix | 3 results: 2 ok, 1 dead; 1 not measured | ",
  ]);
  expect(await lenses("readings", exampleLog(`## Diode check\n\n${table("U14 | 2 |  ")}`))).toEqual([]);
});

const job = (name: string, received: string, symptoms: string, board = "example"): string =>
  `//- ${name}.md\n${exampleLog("", `received: ${received}\nsymptoms: ${symptoms}\n`).replace("board: example", `board: ${board}`)}`;

test("earlier jobs of the same board with the same symptom, the latest first", async () => {
  const others = [
    job("a", "2026-01-01", "[dead]"),
    job("b", "2026-02-01", "[Dead, hums]"),
    job("later", "2026-09-01", "[dead]"),
    job("other", "2026-01-01", "[dead]", "another"),
  ].join("");
  expect(await lenses("earlier", `${others}${job("now", "2026-05-01", "[dead]")}$0`)).toEqual([
    "symptoms: [dead] | 2 earlier jobs with this symptom | b.md a.md",
  ]);
  expect(await lenses("earlier", `${others}${job("now", "2026-05-01", "[dead, hums]")}$0`)).toEqual([
    "symptoms: [dead, hums] | 2 earlier jobs: 2 with dead, 1 with hums | b.md a.md",
  ]);
  expect(
    await lenses("earlier", `${others}${job("now", "2026-05-01", "[hums, dead]").replace("dead", "x")}$0`),
  ).toEqual(["symptoms: [hums, x] | 1 earlier job with hums | b.md"]);
  expect(await lenses("earlier", `${others}${job("now", "2025-05-01", "[dead]")}$0`)).toEqual([]);
});

test("where a log's text names its symptoms", () => {
  const text = exampleLog("symptoms: none\n", "symptoms: [dead]  \r\n");
  expect(slice(text, symptomsPlace(text))).toBe("symptoms: [dead]");
  expect(symptomsPlace("---\nmendlog: 1\n---\n")).toEqual({ start: 0, end: 0 });
});
