import { memo } from "../base/memo";
import type { KeyRun } from "../base/runs";
import type { LogContext } from "../judge/context";
import { findRail } from "../judge/rail-name";
import { testPointOf } from "../judge/test-point";
import { blockRuns } from "../log/in-blocks";
import type { LogBlock, LogDocument, LogTable, Reading } from "../log/model";
import { leadingTo } from "../log/said-above";
import { type Span, shift } from "../text/span";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

export default documentCheck({
  code: "duplicate-reading",
  title: "The same reading twice",
  severity: "warning",
  scope: "document",
  why: "Two values for one pin under the same heading: one of them belongs to another pin, or was taken in another state. Nothing can tell which one counts.",
  remedy:
    "Correct the pin, put the later values under a heading of their own that says what changed, such as `Diode check after repair`, say so in a line above their table or in the notes (`cold`, `U3 out`), or write `again` into the note where both are to count.",
  examples: {
    bad: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
| U14 | 1   | 0.57    |
              ^^^^ duplicate-reading: U14 pin 1
`),
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
| U14 | 2   | 0.57    |

## Diode check after repair

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.57    |
`),
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |

The clip moved to J3-7:

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.57    |
`),
      exampleLog(`## Diode check

| Ref | Pin | Reading | Note                    |
|-----|-----|---------|-------------------------|
| U14 | 1   | 0.64    |                         |
| U14 | 1   | 0.57    | again, pressing it down |
`),
    ],
  },
  *run({ doc, ctx }) {
    const first = new Map<string, { span: Span; typed: string; note: string }>();
    let under = "";
    let said = "";
    for (const { start, block, table } of tablesReadTwice(doc, ctx)) {
      // Words that lead over to a table say what changed since the one before it.
      said = leadingTo(block, table) || (under === headingKey(table) ? said : "");
      under = headingKey(table);
      for (const [reading, key] of keysOf(table, ctx)) {
        const span = shift(reading.cell.span, start);
        const place = `${key}\u0000${said}`;
        const earlier = first.get(place);
        const note = noteOf(reading);
        // Who writes that it was read once more means both to count.
        if (earlier && saysAgain(reading)) continue;
        if (earlier && note !== earlier.note && (WHILE.test(note) || WHILE.test(earlier.note))) continue;
        if (!earlier) {
          first.set(place, { span, typed: reading.value.typed, note });
          continue;
        }
        yield {
          span,
          fact: `${describe(reading)} was read before under this heading, as ${earlier.typed}.`,
          step: "Correct the place, or give the later readings a heading that says what changed.",
          related: [{ uri: doc.uri, span: earlier.span, message: `first read here: ${earlier.typed}` }],
        };
      }
    }
  },
  noFix: "Which of the two counts is for the person who took them.",
});

/** The tables, or pieces of one, that may hold a reading twice; those of a heading all or none of them. */
function* tablesReadTwice(doc: LogDocument, ctx: LogContext) {
  const once = new Set<string>();
  const twice = new Set<string>();
  for (const { run } of blockRuns(doc)) {
    for (const heading of headingsIn(run)) {
      if (once.has(heading)) twice.add(heading);
      else once.add(heading);
    }
  }
  for (const { first, run } of blockRuns(doc)) {
    if (twice.size === 0 && areEachOnce(run, ctx)) continue;
    for (let at = first; at < first + run.keys.length; at++) {
      const placed = doc.blocks[at]!;
      for (const { start, block } of placed.block.pieces) {
        for (const table of block.tables) {
          // Where nothing else stands under such a heading, what it holds tells, and is known.
          if (twice.has(headingKey(table)) || !isEachOnce(table, ctx))
            yield { start: placed.start + start, block, table };
        }
      }
    }
  }
}

const tablesIn = ({ keys }: KeyRun<LogBlock>): readonly LogTable[] =>
  keys.flatMap(({ pieces }) => pieces.flatMap(({ block }) => block.tables));

const headingsIn = memo((run: KeyRun<LogBlock>): readonly string[] => tablesIn(run).map(headingKey));

const areEachOnce = memo((run: KeyRun<LogBlock>, ctx: LogContext): boolean =>
  tablesIn(run).every((table) => isEachOnce(table, ctx)),
);

const noteOf = ({ table, row }: Reading): string => table.rows[row]?.cells.note?.text ?? "";

const saysAgain = (reading: Reading): boolean => /\b(?:again|once more|second time)\b/i.test(noteOf(reading));

/** A remark that says in which state it was read, which another state is beside. */
const WHILE =
  /\b(?:after|before|while|when|during|until|with(?:out)?|cold|warm(?:ed)?|hot|pressed|held|closed|open(?:ed)?|running|at rest|idle|lit|on|off|out|in|loaded|unloaded|plugged|unplugged|grounded|strapped|lifted|pulled|minutes?|seconds?|min|sec)\b/i;

/** The readings of a table that have a value and a place, with a key of heading and place; kept with the table. */
const keysOf = (table: LogTable, ctx: LogContext): readonly (readonly [Reading, string])[] =>
  keysBy(table, isOfAnyBoard(table) ? undefined : ctx);

/** Pins are given by plain numbers, and no rails, so that no board tells two of them to be one place. */
const isOfAnyBoard = memo(({ readings }: LogTable): boolean =>
  readings.every(({ subject: { pin, rail } }) => !rail && (!pin || /^[1-9]\d{0,2}$/.test(pin.text))),
);

const keysBy = memo((table: LogTable, ctx: LogContext | undefined) => {
  const heading = headingKey(table);
  return table.readings.flatMap((reading): (readonly [Reading, string])[] => {
    const key = reading.value.kind === "empty" ? undefined : keyOf(reading, ctx);
    return key === undefined ? [] : [[reading, `${heading}\u0000${key}`] as const];
  });
});

const isEachOnce = (table: LogTable, ctx: LogContext): boolean => areOnce(keysOf(table, ctx));

const areOnce = memo(
  (keys: ReturnType<typeof keysOf>): boolean => new Set(keys.map(([, key]) => key)).size === keys.length,
);

/** Only tables that say where each reading was taken can hold the same one twice. */
function keyOf(reading: Reading, ctx: LogContext | undefined): string | undefined {
  const { ref, pin, rail, row, column } = reading.subject;
  if (isClock(reading)) return undefined;
  if (ref && pin) {
    const place = ctx && testPointOf(reading.subject, ctx);
    // A pin read again with a chip out is another reading.
    const apart = JSON.stringify(reading.apart ?? "");
    return [reading.measure, place?.ref ?? ref.text, place?.pin?.number ?? pin.text, besides(reading), apart]
      .join("\u0000")
      .toUpperCase();
  }
  if (rail) {
    const name = (ctx?.board && findRail(ctx.board.value, rail.text)?.name) ?? rail.text.replace(/\s+/g, "");
    const apart = JSON.stringify(reading.apart ?? "");
    return [reading.measure, name, timeOf(reading), besides(reading), apart].join("\u0000").toUpperCase();
  }
  if (row && column && reading.table.shape === "long") {
    return [reading.measure, row.text, column.text].join("\u0000").toUpperCase();
  }
  return undefined;
}

/**
 * What a header says besides: "U14 before" and "U14 after" are two columns of a wide table, "No load" and "Loaded" two
 * readings of a row.
 */
function besides({ table, subject, spec, row, cell }: Reading): string {
  const isLong = table.shape === "long";
  if (isLong && table.columns.filter((column) => column.spec === spec).length < 2) return "";
  const header = table.columns[table.source.rows[row]?.cells.indexOf(cell) ?? -1]?.header.text;
  return isLong ? (header ?? "") : (header ?? "").slice(subject.ref?.text.length ?? 0).trim();
}

/** The time column of a table that follows something else over time. */
const isClock = ({ table, spec }: Reading): boolean =>
  spec.quantity === "time" &&
  table.columns.some((c) => c.spec?.role === "reading" && c.spec.quantity !== "time");

/** In a table that follows something over time, the time is part of the place. */
function timeOf({ table, row, measure }: Reading): string {
  const time = table.readings.find(
    (r) => r.row === row && r.spec.quantity === "time" && r.measure !== measure,
  );
  return time?.value.typed ?? "";
}

/** Readings repeat where procedure, qualifiers and the heading's own words are all the same. */
const headingKey = memo((table: LogTable): string => {
  const { heading, qualifiers } = table.section;
  const { repair, power, load } = qualifiers;
  return [table.procedure.id, repair, power, load, heading?.text.trim().toLowerCase()].join("\u0000");
});

function describe({ subject }: Reading): string {
  if (subject.ref && subject.pin) return `${subject.ref.text} pin ${subject.pin.text}`;
  if (subject.rail) return subject.rail.text;
  return `row ${subject.row?.text}, column ${subject.column?.text}`;
}
