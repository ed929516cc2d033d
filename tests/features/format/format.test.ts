import { describe, expect, it, test } from "vitest";
import { formatBody } from "../../support/format";

const rows = (...lines: readonly string[]): string => `${lines.join("\n")}\n`;

/** The table as typed under a diode check, and as it ought to come out; and stay so. */
async function checkFormat(typed: readonly string[], want: readonly string[], heading = "## Diode check") {
  const { body } = await formatBody(`${heading}\n\n${rows(...typed)}`);
  expect(body.split("\n").slice(2, -1)).toEqual(want);
  expect((await formatBody(body)).edits).toEqual([]);
}

describe("columns", () => {
  it("of names are as wide as their widest, pin numbers among them", () =>
    checkFormat(
      ["|Ref|Pin|Reading|Note|", "|-|-|-|-|", "|U14|1|0.58|input|", "|U14|12|0.6||"],
      [
        "| Ref | Pin | Reading | Note  |",
        "|-----|-----|---------|-------|",
        "| U14 | 1   | 0.58    | input |",
        "| U14 | 12  | 0.6     |       |",
      ],
    ));

  it("of readings have their points one above the other, and what is no number at their left", () =>
    checkFormat(
      [
        "| Rail | Reading | Note |",
        "|-|-|-|",
        "| +5V | 148 ohm | |",
        "| +12V | 11.8 k | |",
        "| VMEM | OL | |",
        "| x | .5 M | |",
        "| y | >20M | |",
        "| z | 4k7 | |",
        "| v | - | |",
      ],
      [
        "| Rail | Reading | Note |",
        "|------|---------|------|",
        "| +5V  | 148 ohm |      |",
        "| +12V |  11.8 k |      |",
        "| VMEM | OL      |      |",
        "| x    |    .5 M |      |",
        "| y    | >20M    |      |",
        "| z    |   4k7   |      |",
        "| v    | -       |      |",
      ],
      "## Resistance to ground",
    ));

  it("of readings have their units one below the other where they have as many places", () =>
    checkFormat(
      ["| Rail | Reading |", "|-|-|", "| +5V | 5.02 V |", "| +12V | 12.21 V |", "| -12V | -12.10 V |"],
      [
        "| Rail | Reading  |",
        "|------|----------|",
        "| +5V  |   5.02 V |",
        "| +12V |  12.21 V |",
        "| -12V | -12.10 V |",
      ],
      "## Supply rails, loaded",
    ));

  it("of a wide table are readings", () =>
    checkFormat(
      ["|Pin|U14|U15|", "|-|-|-|", "|1|0.58|OL|", "|14|12.31|.4|"],
      ["| Pin | U14   | U15 |", "|-----|-------|-----|", "| 1   |  0.58 | OL  |", "| 14  | 12.31 | .4  |"],
    ));

  it("keep their colons, and stand where these say", () =>
    checkFormat(
      [
        "| Ref | Pin | Reading | Note |",
        "|:-|-:|-:|:-:|",
        "| U14 | 1 | 0.58 | odd |",
        "| U14 | 12 | OL | twice |",
      ],
      [
        "| Ref | Pin | Reading | Note  |",
        "|:----|----:|--------:|:-----:|",
        "| U14 |   1 |    0.58 |  odd  |",
        "| U14 |  12 |      OL | twice |",
      ],
    ));

  it("keep the way the line below the header is typed", () =>
    checkFormat(
      ["| Ref | Pin | Reading |", "| --- | :-: | --- |", "| U14 | 12 | 0.58 |"],
      ["| Ref | Pin | Reading |", "| --- | :-: | ------- |", "| U14 | 12  | 0.58    |"],
    ));

  it("count wide characters twice and marks upon others not at all", () =>
    checkFormat(
      [
        "| Ref | Pin | Reading | Note |",
        "|-|-|-|-|",
        "| U14 | 1 | 0.5 | 基板 |",
        "| U14 | 2 | 0.5 | e\u0301te\u0301 |",
        "| U14 | 3 | 0.5 | 🙂 5 µF |",
      ],
      [
        "| Ref | Pin | Reading | Note    |",
        "|-----|-----|---------|---------|",
        "| U14 | 1   | 0.5     | 基板    |",
        "| U14 | 2   | 0.5     | e\u0301te\u0301     |",
        "| U14 | 3   | 0.5     | 🙂 5 µF |",
      ],
    ));

  it("of figures under a heading nobody knows are found by their look, dates and whole numbers are not", () =>
    checkFormat(
      [
        "| Date | Fuse | Price |",
        "|-|-|-|",
        "| 2026-01-02 | 4 | 12.5 EUR |",
        "| 2026-01-12 | 10 | 3 EUR |",
        "| | | |",
      ],
      [
        "| Date       | Fuse | Price    |",
        "|------------|------|----------|",
        "| 2026-01-02 | 4    | 12.5 EUR |",
        "| 2026-01-12 | 10   |  3 EUR   |",
        "|            |      |          |",
      ],
      "## Bought",
    ));

  it("let a long remark stick out", async () => {
    const long = "so ".repeat(40).trim();
    await checkFormat(
      [
        "| Ref | Pin | Reading | Note |",
        "|-|-|-|-|",
        `| U14 | 1 | 0.5 | ${long} |`,
        "| U14 | 2 | 0.5 | odd |",
      ],
      [
        "| Ref | Pin | Reading | Note |",
        "|-----|-----|---------|------|",
        `| U14 | 1   | 0.5     | ${long} |`,
        "| U14 | 2   | 0.5     | odd  |",
      ],
    );
  });
});

describe("rows", () => {
  it("get the pipes and the cells they lack, and keep those they have too many", () =>
    checkFormat(
      ["Ref | Pin | Reading", "-|-|-", "U14 | 1 | 0.58", "| U14 | 2", "  | U14 | 3 | 0.5 | and | more |  "],
      [
        "| Ref | Pin | Reading |",
        "|-----|-----|---------|",
        "| U14 | 1   | 0.58    |",
        "| U14 | 2   |         |",
        "| U14 | 3   | 0.5     | and | more |",
      ],
    ));

  it("keep escaped pipes, code and backslashes as they are typed", () =>
    checkFormat(
      ["| Ref | Pin | Reading | Note |", "|-|-|-|-|", "| U14 | 1 | 0.58 | `a \\| b` \\\\ \\| c\\ |"],
      [
        "| Ref | Pin | Reading | Note              |",
        "|-----|-----|---------|-------------------|",
        "| U14 | 1   | 0.58    | `a \\| b` \\\\ \\| c\\ |",
      ],
    ));

  it("that are in line already are not touched", async () => {
    const { edits } = await formatBody(
      rows(
        "## Diode check",
        "",
        "| Ref | Pin | Reading |",
        "|-----|-----|---------|",
        "| U14 | 1   | 0.58    |",
        "| U14 | 2  | 0.58    |",
      ),
    );
    expect(edits).toEqual([["", " "]]);
  });
});

describe("what is not touched", () => {
  test.each([
    ["prose", "Some  | text\nwith | pipes  \n"],
    ["a fence", "```\n| a|b|\n|-|-|\n|1|2|\n```\n"],
    ["a table in a list", "- | a|b|\n  |-|-|\n  |1|2|\n"],
    ["a table in a quote", "> | a|b|\n> |-|-|\n> |1|2|\n"],
    ["HTML", "<div>\n| a|b|\n|-|-|\n</div>\n"],
    ["a comment", "<!--\n| a|b|\n|-|-|\n-->\n"],
    ["a table with a broken delimiter row", "| a|b|\n|-|\n|1|2|\n"],
    [
      "the parts list that Mendlog wrote",
      "<!-- mendlog-parts 00000000+2: x -->\n\n|a|b|\n|-|-|\n|1|2|\n\n<!-- mendlog-parts-end -->\n",
    ],
  ])("%s", async (_, body) => {
    expect((await formatBody(`## Diode check\n\n${body}`)).edits).toEqual([]);
  });

  it("is a table outside the range, while one that the range touches is aligned whole", async () => {
    const table = "|a|b|\n|-|-|\n|1|$02|\n|3|4|\n";
    const other = table.replace("$0", "");
    const { body } = await formatBody(`# A\n\n${table}\nText$0\n\n${other}`);
    expect(body).toBe(
      `# A\n\n| a   | b   |\n|-----|-----|\n| 1   | 2   |\n| 3   | 4   |\n\nText\n\n${other}`,
    );
  });

  it("are the line ends, the missing one at the end among them", async () => {
    const { body } = await formatBody("# A\r\n\r\n|a|b|\r\n|-|-|\r\n|1|2|");
    expect(body).toBe("# A\r\n\r\n| a   | b   |\r\n|-----|-----|\r\n| 1   | 2   |");
  });
});
