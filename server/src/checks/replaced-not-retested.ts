import { type LogDocument, tablesOf } from "../log/document";
import type { CellText, LogTable } from "../log/model";
import { saysReplaced } from "../log/planned";
import { refText } from "../log/read-table";
import { type Span, shift } from "../text/span";
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
    const replaced = replacements(doc);
    if (replaced.length === 0) return;
    const readings = measuredRefs(doc);
    const due = front.stage === "proving" || front.stage === "returned";
    for (const { ref, span } of replaced) {
      const after = readings.some(
        (read) => read.ref === ref.toUpperCase() && (read.after || read.offset > span.start),
      );
      if (after) continue;
      yield {
        span,
        ...(due ? {} : { severity: "information" as const }),
        message: `${ref} was replaced, but the log has no reading of ${ref} after that. Measure it in place under a heading such as "Diode check after repair".`,
      };
    }
  },
  noFix: "The reading has to be taken.",
});

function replacements(doc: LogDocument): { ref: string; span: Span }[] {
  const found = new Map<string, Span>();
  for (const { start, table } of tablesOf(doc)) {
    if (table.kind.holds !== "work") continue;
    for (const { cells } of table.rows) {
      if (!cells.ref || !saysReplaced(cells.action?.text ?? "")) continue;
      // The last replacement is the one that has to be measured.
      found.set(cells.ref.text, shift(cells.ref.span, start));
    }
  }
  return [...found].map(([ref, span]) => ({ ref, span }));
}

interface Measured {
  readonly ref: string;
  readonly offset: number;
  readonly after: boolean;
}

const measuredIn = new WeakMap<LogTable, readonly Measured[]>();

/** Every designator with at least one reading, at its first place in each table. */
function measuredRefs(doc: LogDocument): Measured[] {
  const all: Measured[] = [];
  for (const { start, table } of tablesOf(doc)) {
    let list = measuredIn.get(table);
    if (!list) {
      const seen = new Map<string, Measured>();
      const after = table.section.qualifiers.repair === "after";
      for (const reading of table.readings) {
        const ref = readRef(reading.subject.ref);
        if (!ref || reading.value.kind === "empty" || seen.has(ref)) continue;
        seen.set(ref, { ref, offset: reading.cell.span.start, after });
      }
      list = [...seen.values()];
      measuredIn.set(table, list);
    }
    for (const item of list) all.push({ ...item, offset: item.offset + start });
  }
  return all;
}

const readRef = (ref: CellText | undefined): string | undefined =>
  ref && refText({ text: ref.text, span: ref.span } as Parameters<typeof refText>[0]).text.toUpperCase();
