import { defined } from "../base/defined";
import { memo } from "../base/memo";
import { tablesOf } from "../log/document";
import type { CellText, LogTable } from "../log/model";
import { refText } from "../log/read-rows";
import { isAfter, placeIn, type Timeline, timelineOf, type WorkRow } from "../log/timeline";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

export default documentCheck({
  code: "replaced-not-retested",
  title: "A replaced part with no reading after it",
  severity: "warning",
  scope: "document",
  why: "A new part can be dead, in backwards or sitting on a lifted pad. Until it has been measured in place, the replacement is a guess.",
  remedy:
    "Take the part's readings again under a heading that says so, such as `Diode check after repair`. Until the stage is proving this is only a reminder.",
  examples: {
    bad: [
      exampleLog(
        `## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |

## Work done

| Ref | Action  | Part   |
|-----|---------|--------|
| U14 | replace | 74LS04 |
  ^^^ replaced-not-retested: no reading of U14
`,
        "stage: proving\n",
      ),
    ],
    good: [
      exampleLog(
        `## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |

## Work done

| Ref | Action  | Part   |
|-----|---------|--------|
| U14 | replace | 74LS04 |
| U15 | clean   |        |

## Diode check after repair

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 0.57    |
`,
        "stage: proving\n",
      ),
    ],
  },
  *run({ doc, front }) {
    const timeline = timelineOf(doc);
    const due = front.stage === "proving" || front.stage === "returned";
    for (const { ref, row } of lastReplacements(timeline)) {
      const measured = [...tablesOf(doc)].some(
        ({ table }) =>
          !table.kind.outOfCircuit &&
          isAfter(timeline, table, row.repair) &&
          measuredRefs(table).has(ref.text.toUpperCase()),
      );
      if (measured) continue;
      yield defined({
        span: placeIn(row, ref),
        severity: due ? undefined : ("information" as const),
        fact: `${ref.text} was replaced, but the log has no reading of ${ref.text} after that.`,
        step: 'Measure it in place under a heading such as "Diode check after repair".',
      });
    }
  },
  noFix: "The reading has to be taken.",
});

/** The last replacement at a place is the one that has to be measured. */
function lastReplacements({ rows }: Timeline): readonly { readonly ref: CellText; readonly row: WorkRow }[] {
  const found = new Map<string, { readonly ref: CellText; readonly row: WorkRow }>();
  for (const row of rows) if (row.replaced && row.ref) found.set(row.ref.text, { ref: row.ref, row });
  return [...found.values()];
}

/** Every designator with at least one reading, in capitals. */
const measuredRefs = memo(
  (table: LogTable): ReadonlySet<string> =>
    new Set(
      table.readings.flatMap(({ subject: { ref }, value }) =>
        ref && value.kind !== "empty" ? [designator(ref)] : [],
      ),
    ),
);

const designator = (ref: CellText): string =>
  refText(ref as Parameters<typeof refText>[0]).text.toUpperCase();
