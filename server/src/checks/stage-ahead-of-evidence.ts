import { type LogDocument, tablesOf } from "../log/document";
import { frontSpan } from "../log/front";
import { isOfWork } from "../log/kinds";
import { rowsOfWork } from "../log/timeline/work";
import { documentCheck, type LogInput } from "./check";

export default documentCheck({
  code: "stage-ahead-of-evidence",
  title: "A stage the log does not bear out",
  severity: "warning",
  scope: "document",
  ofSet: "once",
  why: "A job marked returned without a proving table is a board nobody can say was tried. The stage is only worth what the log shows for it.",
  remedy:
    "Record what was done, or set the stage back. Repairing calls for readings or an inspection, proving for work done, and returned for proving results and the date.",
  examples: {
    bad: [
      `---
mendlog: 1
returned: 2026-03-20
stage: returned
       ^^^^^^^^ stage-ahead-of-evidence: no proving results
---

## Inspection

| Item | Result |
|------|--------|
| Battery | leaked |

## Work done

| Ref | Action | Part |
|-----|--------|------|
| BT1 | remove |      |
`,
      `---
mendlog: 1
stage: proving
       ^^^^^^^ stage-ahead-of-evidence: no work
---

## Inspection

| Item | Result |
|------|--------|
| Battery | dusty |
`,
    ],
    good: [
      `---
mendlog: 1
stage: returned
returned: 2026-03-20
---

## Inspection

| Item | Result |
|------|--------|
| Battery | leaked |

## Work done

| Ref | Action | Part |
|-----|--------|------|
| BT1 | remove |      |

## Proving

| Item | Result |
|------|--------|
| Every switch input | ok |
`,
      `---
mendlog: 1
stage: diagnosing
---
`,
    ],
  },
  *run({ doc, front }) {
    const stage = front.stage;
    const span = frontSpan(doc, ["stage"]);
    if (typeof stage !== "string" || !span) return;
    const missing = missingFor(stage, doc, front);
    if (missing.length === 0) return;
    yield {
      span,
      fact: `The stage is "${stage}", but the log shows ${list(missing)}.`,
      step: "Write down what is missing, or set the stage back.",
    };
  },
  noFix: "The evidence has to be measured; only the person at the bench can say how far the job is.",
});

const NEEDS: Readonly<Record<string, readonly Evidence[]>> = {
  repairing: ["looked"],
  proving: ["looked", "worked"],
  returned: ["looked", "worked", "proven", "dated"],
};

type Evidence = "looked" | "worked" | "proven" | "dated";

const WORDS: Readonly<Record<Evidence, string>> = {
  looked: "no readings and no inspection",
  worked: "no work done",
  proven: "no proving results",
  dated: "no returned date",
};

function missingFor(stage: string, doc: LogDocument, front: LogInput["front"]): string[] {
  const needs = NEEDS[stage];
  if (!needs) return [];
  const seen = new Set<Evidence>();
  if (front.returned !== undefined) seen.add("dated");
  for (const { table } of tablesOf(doc)) {
    const filled = table.readings.some((reading) => reading.value.kind !== "empty");
    const { holds } = table.kind;
    if (isOfWork(table.kind)) {
      if (rowsOfWork(table).some(({ state }) => state !== "planned")) seen.add("worked");
    } else if (holds === "proving") {
      if (filled) seen.add("proven");
    } else if (filled || (holds === "inspection" && table.rows.some(({ cells }) => cells.note?.text)))
      seen.add("looked");
  }
  return needs.filter((need) => !seen.has(need)).map((need) => WORDS[need]);
}

const list = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
