// A workspace without any board file: what the log says itself, and what the library has, is all there is to offer.
import { describe, expect, it, test } from "vitest";
import { completeDigits } from "../../../server/src/features/completion";
import { boardFile, boardHead } from "../../support/boards";
import { checkCompletion, offeredAt } from "../../support/features";
import { readLog, subjectText, tableList } from "../../support/log";
import { openAt } from "../../support/workspace";

/** A board file of another board, so that the examples' own is not put beside the log. */
const OTHER = boardFile(boardHead("other", "Other"));
const alone = (body: string, front = "board: regatta\n") =>
  `${OTHER}//- log.md\n---\nmendlog: 1\n${front}---\n\n${body}`;

const WITH_DEVICES = `## Diode check

| Ref | Device | Pin | Reading |
|-----|--------|-----|---------|
| U5  | 7404   | 1   | 0.55    |
| U9  |        | 1   | 0.55    |

## Supply rails

| Rail | Reading |
|------|---------|
| +5V  | 5.02    |
| -5V  | -5.01   |
| VMEM | 4.2     |

## Continuity

| From | To    | Reading |
|------|-------|---------|
| U5-2 | U9-4  | beep    |
| U5-4 | RESET | beep    |

`;

describe("a chip's readings table", () => {
  test("is offered by designator and number while the line that is to become it says both", async () => {
    const { take, item, labels } = await offeredAt(
      alone("## Diode check\n\n> Caution: discharge it.\n\nU5 7404$0\n"),
    );
    expect(item("U5 (7404) readings table").filterText).toBe("U5 7404");
    expect(labels).not.toContain("U5 readings table");
    expect(take("U5 (7404) readings table")).toMatch(/\| U5 +\| 7404 +\| 1 /);
  });

  test("writes the number of a chip that nobody has said, in its first row", async () => {
    const { take, item, service, uri } = await offeredAt(alone("## Diode check\n\n7404$0\n"));
    const text = take("7404 readings table").replaceAll("U?", "U5");
    expect(text).toContain("| Ref | Device | Pin | Reading | Note");
    const [table] = tableList(readLog(text));
    expect(table?.rows.map(({ cells }) => cells.part?.text)).toEqual(["7404", ...Array(13).fill(undefined)]);
    expect(table?.readings).toHaveLength(14);
    service.open(uri, text.replace(/(\| U5 {2}\| 7404 {3}\| 1 {3}\| )/, "$10.00"));
    expect(service.findings(uri).map(({ code }) => code)).toContain("diode-out-of-window");
    // The designator is typed once, and every row has it.
    expect(item("7404 readings table").snippet?.match(/\$\{1:U\?\}|\$1(?!\d)/g)).toHaveLength(14);
  });

  test("is offered for a designator of which nothing is known, as each chip of the library", async () => {
    const { take, labels } = await checkCompletion(
      alone("## Diode check\n\nU3 74LS0$0\n"),
      "U3 (74LS04) readings table | 14 pins",
    );
    expect(labels).not.toContain("U3 (7400) readings table");
    const [table] = tableList(readLog(take("U3 (74LS04) readings table")));
    expect(table?.readings.map((r) => subjectText(r).ref)).toEqual(Array(14).fill("U3"));
    expect(table?.rows[0]?.cells.part?.text).toBe("74LS04");
  });

  test("comes up by itself once a designator is typed below a heading of readings, more with each digit", async () => {
    const offered = async (body: string) => {
      const { view, offset } = await openAt(alone(body));
      return completeDigits(view, offset);
    };
    const chips = await offered("## Diode check\n\nU3$0\n");
    expect(chips.map(({ label }) => label)).toContain("U3 (7404) readings table");
    expect(chips.every(({ oneOfMany }) => oneOfMany)).toBe(true);
    expect((await offered("## Diode check\n\nU3 68$0\n")).map(({ label }) => label)).toContain(
      "U3 (6802) readings table",
    );
    expect(await offered("## Diode check\n\nRead 3$0\n")).toEqual([]);
    expect(await offered("## Letters\n\nU3$0\n")).toEqual([]);
    expect(await offered("## Diode check\n\n```\nU3$0\n```\n")).toEqual([]);
  });

  test("is of transistors for a transistor, and there is none for a resistor", async () => {
    const { labels } = await offeredAt(alone("## Diode check\n\nQ3 2N39$0\n"));
    expect(labels).toContain("Q3 (2N3904) readings table");
    expect((await offeredAt(alone("## Diode check\n\nQ3 74$0\n"))).labels).toEqual([]);
    expect((await offeredAt(alone("## Diode check\n\nR3$0\n"))).labels).toEqual([]);
  });

  test("does not say again what the log says already", async () => {
    const { take, labels } = await offeredAt(alone(`${WITH_DEVICES}## Logic states\n\nU5$0\n`));
    expect(labels[0]).toBe("U5 readings table");
    expect(labels.some((label) => label.startsWith("U5 ("))).toBe(false);
    expect(take("U5 readings table")).toMatch(/## Logic states\n\n\| Ref \| Pin \|/);
  });

  test("says what only the log of another job has said", async () => {
    const { take } = await offeredAt(
      `${OTHER}//- first.md\n---\nmendlog: 1\njob: 2026-001\nboard: regatta\n---\n\n${WITH_DEVICES}//- log.md\n---\nmendlog: 1\nboard: regatta\n---\n\n## Diode check\n\nU5$0\n`,
    );
    expect(tableList(readLog(take("U5 readings table")))[0]?.rows[0]?.cells.part?.text).toBe("7404");
  });
});

describe("a cell for designators", () => {
  it("offers those the log has named, with what is known of each", async () => {
    await checkCompletion(
      alone(`${WITH_DEVICES}## Logic states\n\n| Ref | Pin | State |\n|-|-|-|\n| $0 | | |\n`),
      "U5 | 7404 hex inverter",
      "U9 | named in this log",
    );
  });

  it("offers a new one with each number, where the table has no column for that", async () => {
    const { take } = await checkCompletion(
      alone("## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U3$0 | | |\n"),
      "U3 (7404) | Hex inverter",
    );
    expect(take("U3 (7404)")).toContain("| U3 (7404) | | |");
    const wide = await offeredAt(alone("## Diode check\n\n| Pin | U3 68$0 |\n|-|-|\n| 1 | |\n"));
    expect(wide.labels).toContain("U3 (6802)");
    const beside = await offeredAt(
      alone("## Diode check\n\n| Ref | Device | Pin | Reading |\n|-|-|-|-|\n| U3$0 | | | |\n"),
    );
    expect(beside.labels).toEqual([]);
  });

  it("offers what is yet to be told of first in the list of the board's parts", async () => {
    const { labels } = await offeredAt(
      alone(`${WITH_DEVICES}## Parts on the board\n\n| Ref | Device |\n|-|-|\n| $0 | |\n`),
    );
    expect(labels.slice(0, 2)).toEqual(["U9", "U5"]);
  });
});

describe("a cell for numbers", () => {
  const cell = (row: string) =>
    alone(`${WITH_DEVICES}## Logic states\n\n| Ref | Device | Pin | State |\n|-|-|-|-|\n${row}\n`);

  it("offers the classic ones first, and those that begin as typed", async () => {
    expect((await offeredAt(cell("| U9 | $0 | 1 | H |"))).labels[0]).toBe("7400");
    expect((await offeredAt(cell("| U9 | 68$0 | 1 | H |"))).labels.slice(0, 2)).toEqual(["6800", "6801"]);
    expect((await offeredAt(cell("| Q9 | $0 | 1 | H |"))).labels).toContain("BC547");
  });

  it("offers what the log says of the chip before all, with the line that says it", async () => {
    const { items } = await offeredAt(cell("| U5 | $0 | 1 | H |"));
    expect(items[0]).toMatchObject({ label: "7404", description: "as this log says in line 10" });
  });
});

describe("pins, rails and nets that only the log has named", () => {
  it("pins come with their names, in a column of their own or behind the chip", async () => {
    await checkCompletion(
      alone(`${WITH_DEVICES}## Logic states\n\n| Ref | Pin | State |\n|-|-|-|\n| U5 | $0 | |\n`),
      "2 | 1Y output · joined to U9-4",
      "14 | VCC supply",
    );
    const behind = await offeredAt(
      alone(`${WITH_DEVICES}## Logic states\n\n| Pin | State |\n|-|-|\n| U5-$0 | |\n`),
    );
    expect(behind.take("U5-14")).toContain("| U5-14 | |");
  });

  it("rails are those read so far, then the usual ones", async () => {
    const { labels } = await offeredAt(
      alone(`${WITH_DEVICES}## Supply rails, loaded\n\n| Rail | Reading |\n|-|-|\n| +5 | 5.0 |\n| $0 | |\n`),
    );
    expect(labels).toEqual(["-5V", "VMEM", "+12V", "-12V"]);
  });

  it("the ends of a connection are pins, rails and nets", async () => {
    const row = (cell: string) => alone(`${WITH_DEVICES.trimEnd()}\n| ${cell}$0 | | |\n`);
    const { item } = await checkCompletion(
      row(""),
      "U5- | 7404",
      "U9- | named",
      "GND | ground",
      "RESET",
      "+5V | 5 V",
    );
    expect(item("U5-").thenSuggest).toBe(true);
    const { labels, take } = await checkCompletion(row("U5-"), "U5-2 | 1Y output");
    expect(labels).toHaveLength(14);
    expect(take("U5-14")).toContain("| U5-14 | | |");
  });

  it("a sentence completes the designators named in tables", async () => {
    await checkCompletion(alone(`${WITH_DEVICES}Then pulled U$0`), "U5 | 7404 hex inverter", "U9 | named");
  });
});

test("the boards that other logs name can be named again, and slips for a known one cannot", async () => {
  const other = (name: string, board: string) => `//- ${name}.md\n---\nmendlog: 1\nboard: ${board}\n---\n`;
  await checkCompletion(
    `${OTHER}${other("a", "regatta")}${other("b", "regatta")}//- log.md\n---\nmendlog: 1\nboard: $0\n---\n`,
    "other | Other",
    "regatta | named in 2 logs",
  );
  const slip = await offeredAt(
    `${OTHER}${other("a", "othr")}${other("b", "otherr")}//- log.md\n---\nmendlog: 1\nboard: $0\n---\n`,
  );
  expect(slip.labels).toEqual(["other"]);
});

describe("the list of what is on the board", () => {
  const cells = (row: string) =>
    alone(
      `## Parts on the board\n\n| Ref | Device | Value | Package | Circuit |\n|-|-|-|-|-|\n| U5 | 7404 | | DIP-14 | clock |\n| R1 | | 4k7 | | clock |\n${row}\n`,
    );

  it("completes the package of the device, circuits named before and values of the same kind of part", async () => {
    const packages = await checkCompletion(cells("| U6 | 6821 | | $0 | |"), "DIP-40 | what a 6821 comes in");
    expect(packages.labels[0]).toBe("DIP-40");
    await checkCompletion(cells("| U6 | 6821 | | | $0 |"), "clock");
    expect((await offeredAt(cells("| R2 | | $0 | | |"))).labels).toEqual(["4k7"]);
  });
});
