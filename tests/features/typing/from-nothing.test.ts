// Rows of a log of which no board file tells: the chip's number stands in the table, and its pins follow from it.
import { describe, expect, test } from "vitest";
import { broken, enter, tab } from "../../support/typing";

const HEAD = "---\nmendlog: 1\nboard: nowhere\n---\n\n";
const squeezed = (text: string | undefined) => text?.replace(/ +/g, " ");
const enterIn = async (body: string) => squeezed(await enter(body, false, HEAD));
const tabIn = async (body: string) => squeezed(await tab(body, HEAD));
const devices = (rows: string) =>
  `## Diode check\n\n| Ref | Device | Pin | Reading | Note |\n|-----|--------|-----|---------|------|\n${rows}`;

describe("a table with a column of numbers", () => {
  test("goes on with the next pin of the chip whose number it says, and does not say that again", async () => {
    expect(await enterIn(devices("| U5 | 7404 | 1 | 0.55$0 | |\n"))).toContain("\n| U5 | | 2 | $0 | |\n");
    expect(await enterIn(devices("| U5 | 7404 | 13 | 0.5 | |\n| | | 14 | 0.5$0 | |\n"))).toContain(
      "\n| | | 1 | $0 | |\n",
    );
    const rows = Array.from(
      { length: 14 },
      (_, i) => `| U5 | ${i === 0 ? "7404" : ""} | ${i + 1} | 0.5 | |`,
    ).join("\n");
    expect(await enterIn(devices(`${rows}$0`))).toContain("\n| $0 | | | | |");
  });

  test("asks for the number of a chip that nobody has told of, and for no other's", async () => {
    expect(await tabIn(devices("| U5 | 7404 | 1 | 0.5 | |\n| U6$0 | | | | |\n"))).toContain(
      "| U6 | $0| | | |\n",
    );
    expect(await tabIn(devices("| U5 | 7404 | 1 | 0.5 | |\n| U5$0 | | | | |\n"))).toContain(
      "| U5 | | 2 | $0| |\n",
    );
    expect(await tabIn(devices("| U6 | 7408$0 | | | |\n"))).toContain("| U6 | 7408 | 1 | $0| |\n");
    // Whoever left it out once is not asked on every row.
    expect(await enterIn(devices("| U9 | | 1 | 0.5$0 | |\n"))).toContain("\n| U9 | | 2 | $0 | |\n");
    expect(await tabIn(devices("| U9 | | 1 | 0.5$0 | |\n| U9 | | 2 | | |\n"))).toContain(
      "| U9 | | 2 | $0| |\n",
    );
  });

  test("makes rows of what is typed below it as any other does", async () => {
    expect(squeezed(await broken(devices("| U5 | 7404 | 1 | 0.55 | |\n0.56$0\n"), false, HEAD))).toContain(
      "\n| U5 | | 2 | 0.56$0 | |\n",
    );
  });
});

describe("a designator that has more beside it", () => {
  const long = (rows: string) =>
    `## Diode check\n\n| Ref | Pin | Reading |\n|-----|-----|---------|\n${rows}`;
  test("its number is said once", async () => {
    expect(await enterIn(long("| U5 (7404) | 1 | 0.55$0 |\n"))).toContain("\n| U5 | 2 | $0 |\n");
    expect(await enterIn(long("| 7404 U5 | 1 | 0.55$0 |\n"))).toContain("\n| U5 | 2 | $0 |\n");
    expect(await enterIn(long("| 2C (7404) | 13 | 0.5 |\n| 2C | 14 | 0.55$0 |\n"))).toContain(
      "\n| 2C | 1 | $0 |\n",
    );
  });

  test.each([
    [
      "in the column of designators",
      "| Ref | Device | Reading |\n|-|-|-|\n| U5-4 | 7404 | 3.4$0 |\n",
      "| U5-5 | | $0 |",
    ],
    ["in that of pins", "| Pin | Device | Reading |\n|-|-|-|\n| U5-4 | 7404 | 3.4$0 |\n", "| U5-5 | | $0 |"],
    [
      "past pins that have a row",
      "| Ref | Device | Reading |\n|-|-|-|\n| U5-14 | 7404 | 5 |\n| U5-2 | | 5 |\n| U5-1 | | 5$0 |\n",
      "| U5-3 | | $0 |",
    ],
    ["written another way", "| Ref | Reading |\n|-|-|\n| U5 pin 4 | 3.4$0 |\n", "| U5 pin 5 | $0 |"],
    [
      "beside an empty column of pins",
      "| Ref | Pin | Reading |\n|-|-|-|\n| U5.4 | | 3.4$0 |\n",
      "| U5.5 | | $0 |",
    ],
  ])("its pin is counted on %s", async (_, table, row) => {
    expect(await enterIn(`## Logic levels\n\n${table}`)).toContain(`\n${row}\n`);
  });

  test("a chip without a pin is not counted on", async () => {
    expect(await enterIn("## Logic levels\n\n| Ref | Reading |\n|-|-|\n| U5 | 3.4$0 |\n")).toContain(
      "\n| $0 | |\n",
    );
  });
});

test("a wide table knows the pins of the chips whose numbers stand over its columns", async () => {
  const wide = (rows: string) =>
    `## Diode check\n\n| Pin | U5 (7404) | 7486 U6 |\n|-----|-----|-----|\n${rows}`;
  expect(await enterIn(wide("| 13 | 0.5 | 0.5$0 |\n"))).toContain("\n| 14 | $0 | |\n");
  expect(await enterIn(wide("| 13 | 0.5 | 0.5 |\n| 14 | 0.5 | 0.5$0 |\n"))).toContain("\n| 1 | $0 | |\n");
  const other = wide("| 14 | 0.5 | 0.5 |\n| 15 | $0 | |\n").replace("7486 U6", "74138 U6");
  expect(await tabIn(other.replace("$0 |", " |").replace("| 15 |", "| 15$0 |"))).toContain("| 15 | | $0|\n");
});

test("a connection's next row begins with its first end", async () => {
  expect(
    await enterIn("## Continuity\n\n| From | To | Reading |\n|-|-|-|\n| U5-4 | U9-2 | beep$0 |\n"),
  ).toContain("\n| $0 | | |\n");
});

test("a list of parts goes on with the next designator to be typed, and leaves what is optional", async () => {
  const list = "## Parts on the board\n\n| Ref | Device | Circuit | Note |\n|-|-|-|-|\n";
  expect(await enterIn(`${list}| U5 | 7404$0 | | |\n`)).toContain("\n| $0 | | | |\n");
  expect(await tabIn(`${list}| U5$0 | | | |\n`)).toContain("| U5 | $0| | |\n");
  expect(await tabIn(`${list}| U5 | 7404$0 | | |\n`)).toContain("\n| $0 | | | |\n");
  const values = list.replace("Circuit | Note", "Value | Note");
  expect(await tabIn(`${values}| R5$0 | | | |\n`)).toContain("| R5 | | $0| |\n");
  expect(await tabIn(`${values}| U5$0 | | | |\n`)).toContain("| U5 | $0| | |\n");
});
