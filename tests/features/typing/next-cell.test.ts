import { describe, expect, it } from "vitest";
import { broken, enter, shiftTab, tab } from "../../support/typing";

/** Runs of blanks as one: how a table is laid out is held elsewhere. */
const squeezed = (text: string | undefined) => text?.replace(/ +/g, " ");

const long = (rows: string) =>
  `## Diode check\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n${rows}`;
const wide = (rows: string) => `## Diode check\n\n| Pin | U14  | U20  |\n|-----|------|------|\n${rows}`;

describe("Enter in the last row starts the next one", () => {
  it("with the next pin of the chip, in line with the row above once as much is typed", async () => {
    expect(await enter(long("| U14 | 1   | 0.58$0    |      |\n"))).toBe(
      long("| U14 | 1   | 0.58    |      |\n| U14 | 2   | $0    |      |\n"),
    );
  });

  it("at the end of the file, without a line end there", async () => {
    expect(await enter(long("| U14 | 1   | 0.58    |      |$0"))).toBe(
      long("| U14 | 1   | 0.58    |      |\n| U14 | 2   | $0    |      |"),
    );
  });

  it("past pins that have a row, from the first again, and without a pin when all have", async () => {
    const rows = (pins: readonly number[]) => pins.map((pin) => `| U14 | ${pin} | 0.5 | |`).join("\n");
    expect(squeezed(await enter(long(`${rows([3, 1])}$0`)))).toContain("| U14 | 2 | $0");
    expect(squeezed(await enter(long(`${rows([3, 4, 14])}$0`)))).toContain("\n| U14 | 1 | $0");
    const all = Array.from({ length: 14 }, (_, i) => i + 1);
    expect(squeezed(await enter(long(`${rows(all)}$0`)))).toContain("\n| $0 | |");
  });

  it("of the chip that the row names, not of another with the same pins", async () => {
    expect(
      squeezed(await enter(long("| U14 | 1 | 0.5 | |\n| U14 | 2 | 0.5 | |\n| U15 | 1 | 0.5 | |$0"))),
    ).toContain("\n| U15 | 2 | $0");
  });

  it("keeps a chip blank that was named once, and counts pins known by name", async () => {
    expect(squeezed(await enter(long("| U14 | 6 | 0.5 | |\n|  | GND | 0.5 | |$0")))).toContain(
      "\n| | 8 | $0",
    );
  });

  it.each([
    ["U99", "21", "22"],
    ["J3", "9", "10"],
    ["J3", "10", "1"],
    ["J4", "A3", "A4"],
  ])(
    "counts on where the chip is unknown, as far as its package goes: %s pin %s to %s",
    async (ref, pin, next) => {
      expect(squeezed(await enter(long(`| ${ref} | ${pin} | 0.5 | |$0`)))).toContain(
        `\n| ${ref} | ${next} | $0`,
      );
    },
  );

  it("under a header alone: the heading's chip, else the designator first", async () => {
    expect(await enter(long("$0").replace("\n$0", "$0"))).toBe(long("| $0 |     |         |      |"));
    const named = long("$0").replace("\n$0", "$0").replace("## Diode check", "## Diode check U14");
    expect(squeezed(await enter(named))).toContain("\n| U14 | 1 | $0");
    expect(squeezed(await enter(wide("$0").replace("\n$0", "$0")))).toContain("\n| 1 | $0");
  });

  it("is stopped by nothing in the row: CRLF, pipes in cells, a row without its last pipe", async () => {
    const crlf = long("| U14 | 1 | 0.5 | a \\| b |$0\n\nmore\n").replace(/\n/g, "\r\n");
    expect(squeezed(await enter(crlf))).toContain("a \\| b |\r\n| U14 | 2 | $0 | |\r\n\r\nmore\r\n");
    expect(squeezed(await enter(long("| U14 | 1 | 0.58$0")))).toContain(
      "| U14 | 1 | 0.58 | |\n| U14 | 2 | $0",
    );
    const bare = "## Diode check\n\nRef | Pin | Reading\n--- | --- | ---\nU14 | 1 | 0.58$0\n";
    expect(squeezed(await enter(bare))).toContain("U14 | 1 | 0.58\nU14 | 2 | $0\n");
  });
});

describe("the row that is left", () => {
  it("is padded to its table's widths, and closed, and no other row is moved", async () => {
    expect(await enter(long("| U14 | 1 | 0.5 | |\n| U14 | 2 | 0.58$0 | |\n| U14 | 3 | | |\n"))).toBe(
      long("| U14 | 1 | 0.5 | |\n| U14 | 2   | 0.58    |      |\n| U14 | 3 | $0| |\n"),
    );
    expect(await enter(long("| U14 | 2 | 0.58$0\n| U14 | 3 | | |\n"))).toBe(
      long("| U14 | 2   | 0.58    |      |\n| U14 | 3 | $0| |\n"),
    );
  });

  it("stays as it was typed where the columns of the table are not in line, and where it is too wide for them", async () => {
    const crooked =
      "## Diode check\n\n| Pin | U14 | U15 |\n|---|---|---|\n| 1 | 0.58 | 0.57$0 |\n| 2 | | |\n";
    expect(await enter(crooked)).toContain("| 1 | 0.58 | 0.57 |\n| 2 | $0| |");
    expect(await enter(wide("| 1   | 0.58 | 0.5712345$0 |\n| 2 | | |\n"))).toContain(
      "| 1   | 0.58 | 0.5712345 |\n",
    );
  });

  it.each([
    ["558", "0.558 V"],
    ["1487", "1.487 V"],
    ["0001", "0.001 V"],
    ["142", "142"],
    ["58", "58"],
    ["0", "0"],
    ["0.558", "0.558"],
    ["OL", "OL"],
    ["558 mV", "558 mV"],
    ["5580", "5580"],
  ])(
    "gets the point where its digits can only be one reading, and else keeps them: %s is %s",
    async (typed, reading) => {
      const text = (await enter(long(`| U14 | 1   | ${typed}$0     |      |\n`))) ?? "";
      expect(/\| 1 +\| (.*?) *\|/.exec(text)?.[1]).toBe(reading);
    },
  );

  it("of a rail keeps its digits", async () => {
    const rails =
      "## Supply rails\n\n| Rail | Reading | Note |\n|------|---------|------|\n| +12V | 558$0     |      |\n";
    expect(await enter(rails)).toContain("| +12V | 558     |      |\n");
  });

  it("leaves digits alone in a column of millivolts", async () => {
    const rows = ["558", "574", "583"]
      .map((drop, i) => `| U14 | ${i + 1}   | ${drop}     |      |\n`)
      .join("");
    expect(await enter(long(rows.replace("583 ", "583$0 ")))).toContain("| 583     |");
  });
});

describe("Enter elsewhere in a table", () => {
  it("goes down to a row that is there", async () => {
    expect(squeezed(await enter(long("| U14 | 1 | 0.58$0 | |\n| U14 | 2 | | |\n")))).toBe(
      squeezed(long("| U14 | 1 | 0.58 | |\n| U14 | 2 | $0| |\n")),
    );
  });

  it("keeps to its column while the row has other readings to come", async () => {
    const rows = "| 1 | 0.58$0 | |\n| 2 | | |\n";
    expect(squeezed(await enter(wide(rows)))).toBe(squeezed(wide("| 1 | 0.58 | |\n| 2 | $0| |\n")));
    expect(squeezed(await enter(wide("| 1 | 0.58 | 0.57$0 |\n| 2 | | |\n")))).toBe(
      squeezed(wide("| 1 | 0.58 | 0.57 |\n| 2 | $0| |\n")),
    );
    expect(squeezed(await enter(wide("| 1 | | 0.57$0 |\n| 2 | | |\n")))).toBe(
      squeezed(wide("| 1 | | 0.57 |\n| 2 | | $0|\n")),
    );
  });

  it("behind the last pipe starts a row in between", async () => {
    expect(squeezed(await enter(long("| U14 | 1 | 0.5 | |$0\n| U14 | 2 | 0.5 | |\n")))).toBe(
      squeezed(long("| U14 | 1 | 0.5 | |\n| U14 | 3 | $0 |  |\n| U14 | 2 | 0.5 | |\n")),
    );
  });

  it("in a row just started takes it away again and leaves an empty line", async () => {
    const text = long("| U14 | 1 | 0.58 | |\n| U14 | 2   | $0    |      |\n");
    expect(await enter(text, true)).toBe(long("| U14 | 1 | 0.58 | |\n\n$0\n"));
    expect(squeezed(await enter(text, false))).toContain("| U14 | 3 | $0");
    expect(squeezed(await enter(text.replace("$0  ", "0.5$0"), true))).toContain("| U14 | 3 | $0");
  });

  it.each([
    ["in the header", long("| U14 | 1 | 0.58 | |\n").replace("Reading |", "Reading $0|")],
    ["below a table, before words", long("| U14 | 1 | 0.58 | |\n\n$0more\n")],
    ["behind words right below a table", long("| U14 | 1 | 0.58 | |\nSome words$0\n")],
    ["in a prose table", "## Shopping\n\n| What | How many |\n|---|---|\n| solder$0 | 1 |\n"],
    [
      "in a listing",
      "## Diode check\n\n```\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 1 | 0.58$0 |\n```\n",
    ],
    ["in a header without a table", "## Diode check\n\n| Ref | Pin | Reading$0 |\n"],
    [
      "in a table whose delimiter row is short",
      "## Diode check\n\n| Ref | Pin | Reading |\n|---|---|\n| U14 | 1 | 0.5$0 |\n",
    ],
  ])("is a line break %s", async (_where, text) => {
    expect(await enter(text)).toBeUndefined();
    expect(await tab(text)).toBeUndefined();
  });
});

describe("what the next row is about", () => {
  it("wide: the next pin, of the larger chip; all columns that have it", async () => {
    expect(squeezed(await enter(wide("| 1   | 0.58 | 0.57$0 |\n")))).toContain("\n| 2 | $0 | |");
  });

  it("rails of the board in their order", async () => {
    const rails = (rows: string) =>
      `## Supply rails, loaded\n\n| Rail | Reading | Note |\n|---|---|---|\n${rows}`;
    expect(squeezed(await enter(rails("| +5V | 5.02 V$0 | |")))).toContain("\n| +9V raw | $0");
    expect(squeezed(await enter(rails("| +9V raw | 9.2$0 | |\n")))).toContain("\n| +24V | $0");
    expect(
      squeezed(await enter(rails("| +5V | 5.0 | |\n| +9V raw | 9.2 | |\n| +24V | 24.1$0 | |\n"))),
    ).toContain("\n| $0");
  });

  it("a grid's next row, and no crossing that must be left alone", async () => {
    const grid = (rows: string) =>
      `## Switch matrix\n\n| Row \\ Col | 1 | 2 | 3 |\n|---|---|---|---|\n${rows}`;
    expect(squeezed(await enter(grid("| 1 | ok | ok | ok$0 |\n")))).toContain("\n| 2 | $0");
    expect(await enter(grid("| 3 | ok | ok | $0 |\n| 1 | | | |"))).toBe(
      grid("| 3 | ok | ok |  |\n| 1 | $0| | |"),
    );
    expect(squeezed(await tab(grid("| 3 | ok | ok$0 | |\n")))).toContain("\n| 1 | $0");
    expect(
      squeezed(await enter(grid("| 1 | ok | ok | ok |\n| 2 | ok | ok | ok |\n| 3 | ok | ok$0 | - |\n"))),
    ).toContain("\n| $0");
  });

  it("the next crossing of a matrix tested one a row, by lines or by name", async () => {
    const lines = (rows: string) => `## Switch matrix\n\n| Row | Column | Result |\n|---|---|---|\n${rows}`;
    expect(squeezed(await enter(lines("| 1 | 3 | ok$0 |")))).toContain("\n| 2 | 1 | $0");
    expect(squeezed(await enter(lines("| 3 | 2 | ok$0 |")))).toContain("\n| 1 | 1 | $0");
    const names = (rows: string) => `## Switch matrix\n\n| Switch | Result |\n|---|---|\n${rows}`;
    expect(squeezed(await enter(names("| Coin | ok$0 |")))).toContain("\n| Start | $0");
  });

  it("work goes on on the same day, at a place to be typed", async () => {
    const work = "## Work done\n\n| Date | Ref | Action | Part | Note |\n|---|---|---|---|---|\n";
    expect(squeezed(await enter(`${work}| 2026-01-27 | U14 | replaced | 74LS04 | socketed$0 |`))).toContain(
      "\n| 2026-01-27 | $0",
    );
  });

  it("counts things of one name", async () => {
    const display =
      "## Display\n\n| Item | Result | Note |\n|---|---|---|\n| Digit 1 | ok | |\n| Digit 2 | ok$0 | |";
    expect(squeezed(await enter(display))).toContain("\n| Digit 3 | $0");
  });
});

describe("Tab", () => {
  it("goes along the cells that want a value, past notes and pins a chip does not have", async () => {
    expect(squeezed(await tab(long("| U14 | 1 | $0 | |\n| U14 | 2 | | |\n")))).toBe(
      squeezed(long("| U14 | 1 |  | |\n| U14 | 2 | $0| |\n")),
    );
    const rails =
      "## Supply rails\n\n| Rail | Reading | Ripple | Note |\n|---|---|---|---|\n| +5V | 5.0$0 | | |\n";
    expect(squeezed(await tab(rails))).toContain("| +5V | 5.0 | $0| |");
  });

  it("starts a row behind the last, and draws out a row that is short of cells", async () => {
    expect(squeezed(await tab(long("| U14 | 1 | 0.58$0 | |\n")))).toContain("\n| U14 | 2 | $0");
    expect(await tab(long("| U14 | 1$0\n"))).toBe(long("| U14 | 1 | $0 |\n"));
    expect(await tab(long("| U14$0 |\n"))).toBe(long("| U14 | $0 |\n"));
  });

  it("writes the pin of a chip just named and goes to its reading", async () => {
    expect(await tab(long("| U14 | 14 | 0.3 | |\n| U15$0 |     |      |      |\n"))).toBe(
      long("| U14 | 14 | 0.3 | |\n| U15 | 1   | $0     |      |\n"),
    );
  });

  it("back goes to what was typed before, and stays at the first cell", async () => {
    expect(squeezed(await shiftTab(long("| U14 | 1 | 0.58 | |\n| U14 | 2 | $0 | |\n")))).toContain(
      "| U14 | 2$0 |",
    );
    expect(squeezed(await shiftTab(long("| U14 | 1 | 0.58 | |\n| U14$0 | 2 | | |\n")))).toContain(
      "| 0.58$0 |",
    );
    expect(await shiftTab(long("| U14$0 | 1 | 0.58 | |\n"))).toBe(long("| U14$0 | 1 | 0.58 | |\n"));
  });
});

describe("a line break typed below a row", () => {
  it("becomes the next row, with what was typed meanwhile as its reading", async () => {
    expect(await broken(long("| U14 | 1   | 0.58    |      |\n$0\n"))).toBe(
      long("| U14 | 1   | 0.58    |      |\n| U14 | 2   | $0    |      |\n"),
    );
    expect(await broken(long("| U14 | 1   | 0.58    |      |\n0.5$0\n"))).toBe(
      long("| U14 | 1   | 0.58    |      |\n| U14 | 2   | 0.5$0    |      |\n"),
    );
  });

  it("in the middle of a table knows the pins below", async () => {
    expect(squeezed(await broken(long("| U14 | 1 | 0.5 | |\n$0\n| U14 | 2 | 0.5 | |\n")))).toBe(
      squeezed(long("| U14 | 1 | 0.5 | |\n| U14 | 3 | $0 |  |\n| U14 | 2 | 0.5 | |\n")),
    );
  });

  it("below a row just started ends the table", async () => {
    expect(await broken(long("| U14 | 1 | 0.5 | |\n| U14 | 2   | |      |\n$0"), true)).toBe(
      long("| U14 | 1 | 0.5 | |\n\n$0"),
    );
  });

  it.each(["| $0", "|$0 2 |", "## $0", "- $0", "some words$0", "\n$0"])(
    "is left alone when a row, a heading, words or a second line are typed there: %j",
    async (typed) => {
      expect(await broken(long(`| U14 | 1 | 0.5 | |\n${typed}\n`))).toBeUndefined();
    },
  );

  it("is left alone below a heading", async () => {
    expect(await broken("## Diode check\n$0")).toBeUndefined();
  });
});
