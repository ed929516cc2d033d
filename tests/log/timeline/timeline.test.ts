// When each table of a log was taken, and what became of each row of work: told by caret lines under the log.
import { describe, expect, test } from "vitest";
import { tablesOf } from "../../../server/src/log/document";
import {
  isRowSinceRepair,
  isSinceRepair,
  momentIn,
  plannedRows,
  timelineOf,
  workRows,
} from "../../../server/src/log/timeline";
import { shift } from "../../../server/src/text/span";
import { expectCarets, readCarets } from "../../support/carets";
import { readBody, readLog, tableList } from "../../support/log";

/** Under a table's first header its moment, under a row of work its state. */
function expectTimeline(fixture: string): void {
  const marked = readCarets(`---\nmendlog: 1\n---\n\n${fixture}`);
  const doc = readLog(marked.text);
  const timeline = timelineOf(doc);
  const times = [...tablesOf(doc)]
    .filter(({ table }) => !timeline.rows.some((row) => row.table === table))
    .map(({ start, table }) => ({
      span: shift(table.source.header.cells[0]!.span, start),
      code: "after",
      message: `${momentIn(timeline, table).order}${isSinceRepair(timeline, table) ? "" : ", before the last"}.`,
    }));
  const rows = timeline.rows.map(({ ref, actionText, part, state, replaced, start }) => ({
    span: shift((ref ?? actionText ?? part)!.span, start),
    code: state,
    message: replaced ? "another part" : "",
  }));
  expectCarets(marked, [...times, ...rows]);
}

describe("when a table was taken", () => {
  test("is told by the work that stands above it", () => {
    expectTimeline(`## Diode check

| Ref | Pin | Reading |
  ^^^ after: 0, before the last.
|-----|-----|---------|
| U14 | 2   | 0.118   |

## Work done

| Ref | Action   | Part   |
|-----|----------|--------|
| U14 | replaced | 74LS04 |
  ^^^ done: another part
| J3  | reflowed |        |
  ^^ done

## Diode check

| Ref | Pin | Reading |
  ^^^ after: 1, before the last.
|-----|-----|---------|
| U14 | 2   | 0.56    |

## Work

| Ref | Action  |
|-----|---------|
| J4  | cleaned |
  ^^ done

## Supply rails

| Rail | Reading |
  ^^^^ after: 2.
|------|---------|
| +5V  | 5.02    |
`);
  });

  test("is told by its heading where that says before or after", () => {
    expectTimeline(`## Diode check after repair

| Ref | Pin | Reading |
  ^^^ after: 1.
|-----|-----|---------|
| U14 | 2   | 0.56    |

## Work done

| Ref | Action   |
|-----|----------|
| U14 | replaced |
  ^^^ done: another part

## Diode check before repair

| Ref | Pin | Reading |
  ^^^ after: 0, before the last.
|-----|-----|---------|
| U14 | 2   | 0.118   |
`);
  });

  test("is later by half a step for what was read again without a repair", () => {
    expectTimeline(`## Diode check

| Ref | Pin | Reading |
  ^^^ after: 0.
|-----|-----|---------|
| U14 | 2   | 0.118   |

## Diode check again

| Ref | Pin | Reading |
  ^^^ after: 0.5.
|-----|-----|---------|
| U14 | 2   | 0.56    |
`);
  });

  test("is not moved by a table of work with nothing in it", () => {
    expectTimeline(`## Work done

| Ref | Action |
  ^^^ after: 0.
|-----|--------|
|     |        |

## Diode check

| Ref | Pin | Reading |
  ^^^ after: 0.
|-----|-----|---------|
| U14 | 2   | 0.118   |
`);
  });
});

describe("work that is planned", () => {
  test("is no repair, so that what stands above it and below it was read at one time", () => {
    expectTimeline(`## Diode check

| Ref | Pin | Reading |
  ^^^ after: 0.
|-----|-----|---------|
| U14 | 2   | 0.118   |

## Work

| Ref | Action         | Part   |
|-----|----------------|--------|
| U14 | to be replaced | 74LS04 |
  ^^^ planned

## Diode check

| Ref | Pin | Reading |
  ^^^ after: 0.
|-----|-----|---------|
| U14 | 4   | 0.56    |
`);
  });

  test("beside work that was done leaves the table a repair, of the other parts", () => {
    expectTimeline(`## Work

| Ref | Action         |
|-----|----------------|
| U14 | to be replaced |
  ^^^ planned
| U15 | replaced       |
  ^^^ done: another part

## Diode check

| Ref | Pin | Reading |
  ^^^ after: 1.
|-----|-----|---------|
| U14 | 4   | 0.56    |
`);
  });
});

describe("a part tried and put back", () => {
  test("in one row leaves no other part in the place, and hands were on the board", () => {
    expectTimeline(`## Work

| Ref | Action                | Part   | Note                |
|-----|-----------------------|--------|---------------------|
| U14 | swapped in known-good | 74LS04 | the same, put back  |
  ^^^ put-back

## Diode check

| Ref | Pin | Reading |
  ^^^ after: 1.
|-----|-----|---------|
| U14 | 4   | 0.56    |
`);
  });

  test("by a later row, in another table too, answers the exchange before it and no other", () => {
    expectTimeline(`## Work

| Ref | Action                   | Part   |
|-----|--------------------------|--------|
| U14 | replaced                 | 74LS04 |
  ^^^ done: another part
| U15 | swapped for a known-good | 74LS04 |
  ^^^ put-back
| U14 | pulled                   |        |
  ^^^ put-back
| U14 | socketed                 |        |
  ^^^ done

## Diode check

| Ref | Pin | Reading |
  ^^^ after: 1, before the last.
|-----|-----|---------|
| U20 | 4   | 0.56    |

## Work

| Ref | Action           |
|-----|------------------|
| U15 | old one put back |
  ^^^ put-back
| U14 | put back         |
  ^^^ put-back
`);
  });

  test("taken out, another tried, and the first put back is one exchange", () => {
    expectTimeline(`## Work

| Ref | Action              |
|-----|---------------------|
| U14 | removed             |
  ^^^ put-back
| U14 | fitted a known-good |
  ^^^ put-back
| U14 | original put back   |
  ^^^ put-back
| U14 | replaced            |
  ^^^ done: another part
`);
  });

  test("in one row says nothing of the exchange before it", () => {
    expectTimeline(`## Work

| Ref | Action                           |
|-----|----------------------------------|
| U14 | replaced                         |
  ^^^ done: another part
| U14 | tried a known-good one, put back |
  ^^^ put-back
| U15 | replaced                         |
  ^^^ done: another part
| U15 | pulled, put back                 |
  ^^^ put-back
| U20 | removed                          |
  ^^^ put-back
| U20 | swapped, no change, put back     |
  ^^^ put-back
| U21 | swapped                          |
  ^^^ put-back
| U21 | swapped back                     |
  ^^^ put-back
`);
  });

  test("of several places is put back when all of them are", () => {
    expectTimeline(`## Work

| Ref      | Action   |
|----------|----------|
| U14, U15 | swapped  |
  ^^^ put-back
| U20, U21 | swapped  |
  ^^^ done: another part
| U14      | put back |
  ^^^ put-back
| U15      | put back |
  ^^^ put-back
| U20      | put back |
  ^^^ put-back
`);
  });

  test("does not undo what was done to the place itself", () => {
    expectTimeline(`## Work

| Ref | Action                    |
|-----|---------------------------|
| U14 | fitted socket, put back   |
  ^^^ done
| J3  | legs cleaned, U3 put back |
  ^^ done
| U34 | reprogrammed and put back |
  ^^^ done
`);
  });
});

const doc = readBody(`## Work done

| Ref      | Action         | Part          | Date       |
|----------|----------------|---------------|------------|
| U14, U15 | replaced       | 74LS04        | 2026-03-02 |
| u20      | to be replaced |               | 2026-03-09 |
| R1       | swapped, put back |            | 2026-03-03 |

## Work

| Ref | Action   | Part |
|-----|----------|------|
| U14 | replaced |      |
| C1  | cleaned  |      |

## Parts fitted

| Part   | Ref |
|--------|-----|
| 74LS04 | U16 |
`);

test("the last repair of each place counts those that left another part, and those that did anything", () => {
  const { replaced, worked, repairs, lastDay } = timelineOf(doc);
  expect([...replaced]).toEqual([["U14", 2]]);
  expect([...worked]).toEqual([
    ["U14", 2],
    ["C1", 2],
  ]);
  expect(repairs).toBe(2);
  expect(lastDay).toBe("2026-03-03");
});

test("rows of work and of parts fitted are told with all places, plans apart", () => {
  expect(workRows(doc).map(({ kind, refs }) => [kind, ...refs].join(" "))).toEqual([
    "work U14 U15",
    "work U14",
    "work C1",
    "fitted U16",
  ]);
  expect(plannedRows(doc).map(({ refs }) => refs.join())).toEqual(["U20"]);
});

test("a proving row's own day counts before its table", () => {
  const log = readBody(`## Proving

| Item  | Result | Date       |
|-------|--------|------------|
| Lamps | ok     | 2026-03-04 |
| Coils | ok     | 2026-03-01 |
| Soak  | ok     |            |

## Work

| Ref | Action   | Date       |
|-----|----------|------------|
| U14 | replaced | 2026-03-02 |
`);
  const [proving] = tableList(log);
  const timeline = timelineOf(log);
  expect([0, 1, 2].map((row) => isRowSinceRepair(timeline, proving!, row))).toEqual([true, false, false]);
});

test("a plan is nothing that other boards could go by, nor is what was put back", () => {
  const behind = (...rows: readonly string[]) => {
    const log = readBody(
      `## Work\n\n| Ref | Action |\n|---|---|\n${rows.map((row) => `| ${row} |\n`).join("")}\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U1 | 1 | 0.5 |\n`,
    );
    return momentIn(timelineOf(log), tableList(log)[1]!).behindWork;
  };
  expect(behind("U1 | to be replaced")).toBe(false);
  expect(behind("U1 | swapped, put back")).toBe(false);
  expect(behind("U1 | to be replaced", "U2 | cleaned")).toBe(true);
});

test("a timeline is made once for a document", () => {
  expect(timelineOf(doc)).toBe(timelineOf(doc));
});
