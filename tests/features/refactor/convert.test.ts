import { describe, expect, it, test } from "vitest";
import { checkNoRefactor, checkRefactor, refactorsOf } from "../../support/refactor";

const WIDE = "Convert to a wide table";
const LONG = "Convert to a long table";
const check = (rows: string, heading = "## Diode check"): string => `${heading}\n\n${rows.trim()}\n\nText.\n`;

describe("a long table", () => {
  it("becomes a wide one: a column for each part, pins counted", () =>
    checkRefactor(
      check(`
| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
| U14 | 10$0  | OL      |
| U15 | 2   | 0.6     |
| U15 | 1   |         |
`),
      WIDE,
      check(`
| Pin | U14  | U15 |
|-----|------|-----|
| 1   | 0.58 |     |
| 2   | -    | 0.6 |
| 10  | OL   | -   |
`),
    ));

  it("keeps its notes, each with the part it is of", () =>
    checkRefactor(
      check(`
| Ref | Pin | Reading | Note  |
|-----|-----|---------|-------|
| U14 | 1   | 0.58    | twice |
| U15 | 1$0   | 0.57    |       |
| U14 | 2   | 0.6     | same  |
| U15 | 2   | 0.6     | same  |
`),
      WIDE,
      check(`
| Pin | U14  | U15  | Note       |
|-----|------|------|------------|
| 1   | 0.58 | 0.57 | U14: twice |
| 2   | 0.6  | 0.6  | same       |
`),
    ));

  it("keeps what stands behind a designator, a unit in its header, and takes the part from the heading", async () => {
    await checkRefactor(
      check("| Ref | Pin | Reading (mV) |\n|-|-|-|\n| U14 (74LS04) | 1 | 580$0 |\n| | 2 | 590 |"),
      WIDE,
      check(
        "| Pin | U14 (74LS04) (mV) |\n|-----|-------------------|\n| 1   | 580               |\n| 2   | 590               |",
      ),
    );
    await checkRefactor(
      check("| Pin | Reading |\n|-|-|\n| 1 | 0.58$0 |", "## Diode check U14"),
      WIDE,
      check("| Pin | U14  |\n|-----|------|\n| 1   | 0.58 |", "## Diode check U14"),
    );
  });

  it("keeps the numbers on its parts over their columns, and refuses two numbers of one part", async () => {
    const rows =
      "| Ref | Device | Pin | Reading |\n|-|-|-|-|\n| U5 | 7404 | 1 | 0.58$0 |\n| U5 | | 2 | 0.59 |\n| U6 | 7400 | 1 | 0.57 |";
    await checkRefactor(
      check(rows),
      WIDE,
      check(
        "| Pin | U5 (7404) | U6 (7400) |\n|-----|-----------|-----------|\n| 1   | 0.58      | 0.57      |\n| 2   | 0.59      | -         |",
      ),
    );
    const offered = await refactorsOf(check(rows.replace("| U5 | | 2", "| U5 | 7414 | 2")));
    expect(offered.whyNot(WIDE)).toContain('U5 is written in two ways, as "U5 (7404)" and "U5 (7414)"');
  });

  test.each([
    ["a pin that is read twice", "| U14 | 1$0 | 0.5 | | |\n| U14 | 1 | 0.6 | | |", "is there twice"],
    ["a column that has no place", "| U14 | 1$0 | 0.5 | IN_1 | |", 'row 1 has under "Signal"'],
    ["a row of no pin", "| U14 | 1$0 | 0.5 | | |\n| U14 | | 0.6 | | |", "Row 2 does not say which pin"],
    ["a row of no part", "| | 1$0 | 0.5 | | |", "Row 1 does not say which part"],
    ["a cell too many", "| U14 | 1$0 | 0.5 | | | lost |", "more cells than the header"],
  ])("is left alone with %s, and it is said why", async (_, rows, reason) => {
    const offered = await refactorsOf(
      check(`| Ref | Pin | Level | Signal | Note |\n|-|-|-|-|-|\n${rows}`, "## Logic levels"),
    );
    expect(offered.whyNot(WIDE)).toContain(reason);
  });

  it("of rails, or outside a table, or of prose, has no other shape", async () => {
    await checkNoRefactor(check("| Rail | Reading |\n|-|-|\n| +5V | 5.0$02 |", "## Supply rails"), "Convert");
    await checkNoRefactor(
      check("| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 0.5 |").replace("Text", "Te$0xt"),
      "Convert",
    );
    await checkNoRefactor(
      check("| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 0.$05 |", "## Letters"),
      "Convert",
    );
  });
});

describe("a wide table", () => {
  it("becomes a long one, without the dashes, cells to be filled kept", () =>
    checkRefactor(
      check(`
| Pin | U14  | U15 | Note |
|-----|------|-----|------|
| 1   | 0.58 |     | U14: twice |
| 2 $0  | -    | 0.6 | odd |
`),
      LONG,
      check(`
| Ref | Pin | Reading | Note  |
|-----|-----|---------|-------|
| U14 | 1   | 0.58    | twice |
| U15 | 1   |         |       |
| U15 | 2   | 0.6     | odd   |
`),
    ));

  it("keeps a row that holds a note and no reading", () =>
    checkRefactor(
      check("| Pin | U14 | Note |\n|-|-|-|\n| 1 | 0.5$0 | |\n| 2 | - | cut |"),
      LONG,
      check(`
| Ref | Pin | Reading | Note |
|-----|-----|---------|------|
| U14 | 1   | 0.5     |      |
| U14 | 2   | -       | cut  |
`),
    ));

  it("of a matrix goes row by row, and a crossing marked as not tried makes no row", () =>
    checkRefactor(
      check("| Row / column | 1 | 2 |\n|-|-|-|\n| 1 | ok$0 | dead |\n| 2 | - | |", "## Switch matrix"),
      LONG,
      check(
        "| Row | Column | Result |\n|-----|--------|--------|\n| 1   | 1      | ok     |\n| 1   | 2      | dead   |\n| 2   | 2      |        |",
        "## Switch matrix",
      ),
    ));

  it("keeps units, CR LF and indentation", async () => {
    const typed = check("  | Pin | U14 (mV) | U15 (mV) |\n  |-|-|-|\n  | 1 | 580$0 | 590 |").replace(
      "\n\n|",
      "\n\n  |",
    );
    const { take } = await refactorsOf(typed.replaceAll("\n", "\r\n"));
    expect(take(LONG)).toContain(
      "| Ref | Pin | Reading (mV) |\r\n  |-----|-----|--------------|\r\n  | U14 | 1   | 580          |\r\n  | U15 | 1   | 590          |\r\n\r\nText",
    );
  });

  test.each([
    ["units that differ", "| Pin | U14 (mV) | U15 (V) |\n|-|-|-|\n| 1 | 580$0 | 0.5 |", "different units"],
    ["a row without a pin", "| Pin | U14 |\n|-|-|\n| 1 | 0.5$0 |\n| | 0.6 |", "Row 2 does not say which pin"],
    ["a cell too many", "| Pin | U14 |\n|-|-|\n| 1 | 0.5$0 | lost |", "more cells than the header"],
    ["a column without a header", "| Pin | U14 | |\n|-|-|-|\n| 1 | 0.5$0 | lost |", "without a header"],
    [
      "rows of blanks alone",
      "| Pin | U14 | Note |\n|-|-|-|\n| $0 | | |\n| | | |",
      "no cell to be converted yet",
    ],
    [
      "a note on no pin",
      "| Pin | U14 | Note |\n|-|-|-|\n| 1 | 0.5$0 | |\n| | | cut |",
      "Row 2 does not say which pin",
    ],
  ])("is left alone with %s, and it is said why", async (_, rows, reason) => {
    expect((await refactorsOf(check(rows))).whyNot(LONG)).toContain(reason);
  });
});
