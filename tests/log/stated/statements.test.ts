// What is read out of a log of its board: one line of text, the statements it makes.
import { describe, expect, it } from "vitest";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import { statementsOf } from "../../../server/src/log/stated/of-block";
import { railNamed } from "../../../server/src/log/stated/rail-name";
import type { Statement } from "../../../server/src/log/stated/statement";
import { shift, slice } from "../../../server/src/text/span";
import { readBody } from "../../support/log";

const library = builtinLibrary();

/** Every statement with the words it stands at. */
function said(body: string): string[] {
  const doc = readBody(body);
  return doc.blocks.flatMap(({ start, block }) =>
    statementsOf(block, library).all.map((one) => {
      const at = slice(doc.text, shift(one.span, start)).split("\n")[0];
      return `${text(one)} @ ${at}`;
    }),
  );
}

function text(one: Statement): string {
  switch (one.kind) {
    case "part":
      return [one.ref, one.device ?? one.value ?? "?", one.by].join(" ");
    case "rail":
      return [one.name, one.nominal, one.unregulated ? "unregulated" : "", one.byHabit ? "habit" : ""]
        .join(" ")
        .trim();
    case "link":
      return one.ends.map((end) => ("net" in end ? `=${end.net}` : `${end.ref}.${end.pin}`)).join(" - ");
    case "matrix":
      return `${one.of} ${one.rows.length}x${one.columns.length} ${one.words}`.trim();
  }
}

const diode = (header: string, ...rows: string[]) =>
  `## Diode check\n\n| ${header} |\n|${"-|".repeat(header.split("|").length)}\n${rows.map((row) => `| ${row} |\n`).join("")}`;

describe("a part's number", () => {
  it.each([
    [
      "a column of its own",
      diode("Ref | Device | Pin | Reading", "U5 | 7404 | 1 | 0.58"),
      "U5 7404 beside @ 7404",
    ],
    [
      "the other way round",
      diode("IC | Chip | Pin | Reading", "7404 | U5 | 1 | 0.58"),
      "U5 7404 beside @ 7404",
    ],
    [
      "Type before Ref",
      diode("Type | Ref | Pin | Reading", "7404 | IC5 | 1 | 0.58"),
      "IC5 7404 beside @ 7404",
    ],
    [
      "Part no.",
      diode("Chip | Part no. | Pin | Reading", "Z5 | SN7404N | 1 | 0.58"),
      "Z5 SN7404N beside @ SN7404N",
    ],
    [
      "a grid place",
      diode("Location | Device | Pin | Reading", "2C | 7404 | 1 | 0.58"),
      "2C 7404 beside @ 7404",
    ],
    ["behind the designator", diode("Ref | Pin | Reading", "U5 7404 | 1 | 0.58"), "U5 7404 beside @ 7404"],
    ["in brackets", diode("Ref | Pin | Reading", "U5 (74LS04) | 1 | 0.58"), "U5 74LS04 beside @ 74LS04"],
    ["in front", diode("Ref | Pin | Reading", "7404 U5 | 1 | 0.58"), "U5 7404 beside @ 7404"],
    ["in short", diode("Ref | Device | Pin | Reading", "U5 | LS139 | 1 | 0.58"), "U5 LS139 beside @ LS139"],
    ["a wide header", diode("Pin | U5 (7404) | U6", "1 | 0.58 | 0.57"), "U5 7404 beside @ 7404"],
    ["the heading", "## Diode check U5 (7404)\n", "U5 7404 heading @ 7404"],
    ["the heading in other words", "## Diode check of U5, 74LS138\n", "U5 74LS138 heading @ 74LS138"],
    ["the number first", "## U5 7404 diode check\n", "U5 7404 heading @ 7404"],
    [
      "a list",
      "## Parts\n\n| Ref | Device | Package |\n|-|-|-|\n| U5 | 7404 | DIP-14 |\n",
      "U5 7404 list @ 7404",
    ],
    ["a value", "## Parts on the board\n\n| Ref | Value |\n|-|-|\n| R5 | 10k |\n", "R5 10k list @ R5"],
    [
      "work",
      "## Work done\n\n| Ref | Action | Part |\n|-|-|-|\n| U5 | replaced | 7404 |\n",
      "U5 7404 fitted @ 7404",
    ],
    [
      "one not known",
      diode("Ref | Device | Pin | Reading", "U5 | K155LN1 | 1 | 0.58"),
      "U5 K155LN1 beside @ K155LN1",
    ],
  ])("is read from %s", (_, body, wanted) => {
    expect(said(body)).toEqual([wanted]);
  });

  it("is that of each place of a list of places", () => {
    const body = "## Parts on the board\n\n| Ref | Device |\n|-|-|\n| U7, U8 | 2114 |\n| C4-C6 | 100n |\n";
    expect(said(body).map((one) => one.split(" list")[0])).toEqual([
      "U7 2114",
      "U8 2114",
      "C4 100n",
      "C5 100n",
      "C6 100n",
    ]);
  });

  it.each([
    ["planned work", "## Work\n\n| Ref | Action | Part |\n|-|-|-|\n| U5 | to be replaced | 7404 |\n"],
    ["a trial", "## Work\n\n| Ref | Action | Part | Note |\n|-|-|-|-|\n| U5 | swapped | 7404 | put back |\n"],
    ["a socket", "## Work\n\n| Ref | Action | Part |\n|-|-|-|\n| U5 | fitted | DIP-14 socket |\n"],
    ["two designators", diode("Ref | Chip | Pin | Reading", "U1 | U2 | 1 | 0.5")],
    ["a place on the board", "## Diode check U5 (top left)\n"],
    ["a heading with two chips", "## Diode check U5 and U6\n"],
    ["a fuse's place", diode("Ref | Pin | Reading", "F12 | 1 | 0.58")],
  ])("is none in %s", (_, body) => {
    expect(said(body)).toEqual([]);
  });

  it("is not taken from what the program itself wrote", () => {
    const list = "| Ref | Device |\n|-|-|\n| U5 | 7404 |\n";
    expect(said(`## Parts\n\n<!-- mendlog-parts -->\n\n${list}\n<!-- mendlog-parts-end -->\n`)).toEqual([]);
  });

  it("that was fitted and counted is no list of what is on the board", () => {
    const body = "## Parts\n\n| Ref | Part | Qty |\n|-|-|-|\n| U5 | 7404 | 1 |\n";
    expect(said(body)).toEqual(["U5 7404 fitted @ 7404"]);
  });
});

describe("a rail's name", () => {
  it.each([
    ["+5V", "+5V", 5],
    ["5 V", "+5V", 5],
    ["+5 (logic)", "+5V", 5],
    ["+5V at U5 pin 14", "+5V", 5],
    ["5.0V", "+5V", 5],
    ["-12V", "-12V", -12],
    ["\u221212 V", "-12V", -12],
    ["+12 V unreg", "+12V unreg", 12],
    ["+34V coils", "+34V coils", 34],
    ["VCC", "VCC", 5],
    ["+12V audio", "+12V audio", 12],
  ])("%s says its voltage", (typed, name, nominal) => {
    expect(railNamed(typed)).toMatchObject({ name, nominal });
  });

  it.each(["VMEM", "6.3 VAC", "9 V AC", "TP1", "5101 supply", "74LS04", "display", "", "+-12V", "VDD"])(
    "%s does not",
    (typed) => {
      expect(railNamed(typed)).toBeUndefined();
    },
  );

  it("tells what no regulator holds, and what is only habit", () => {
    expect(railNamed("+12 V unreg")?.unregulated).toBe(true);
    expect(railNamed("+12V")?.unregulated).toBe(false);
    expect(railNamed("VCC")?.byHabit).toBe(true);
  });
});

describe("what is joined", () => {
  const rows = (...all: string[]) =>
    `## Continuity\n\n| From | To | Reading |\n|-|-|-|\n${all.map((row) => `| ${row} |\n`).join("")}`;

  it.each([
    ["U5-4 | U9-2 | beep", "U5.4 - U9.2"],
    ["U5 pin 4 | J3.1 | 0.3 ohm", "U5.4 - J3.1"],
    ["U5.7 | GND | beeps", "U5.7 - =GND"],
    ["U5-14 | +5 V | yes", "U5.14 - =+5V"],
    ["A5-4 | 2C-1 | < 1 ohm", "A5.4 - 2C.1"],
    ["U5-4 | SW_ROW_1 | beep", "U5.4 - =SW_ROW_1"],
  ])("%s says %s", (row, wanted) => {
    expect(said(rows(row)).map((one) => one.split(" @")[0])).toEqual([wanted]);
  });

  it.each([
    "U5-4 | U9-2 | no beep",
    "U5-4 | U9-2 | OL",
    "U5-4 | U9-2 | 4k7",
    "U5-4 | U9-2 | -",
    "U5 | U9-2 | beep",
  ])("not %s", (row) => {
    expect(said(rows(row))).toEqual([]);
  });

  it("is what a note or a heading says is tied", () => {
    const body = diode(
      "Ref | Pin | Reading | Note",
      "U5 | 5 | 0.001 | tied to ground",
      "U5 | 1 | 0.001 | should be tied to ground",
    );
    expect(said(body).map((one) => one.split(" @")[0])).toEqual(["U5.5 - =GND"]);
    const named = diode(
      "Ref | Pin | Signal | Reading",
      "U5 | 5 | GND | 0.001",
      "U5 | 1 | A0 | 0.58",
      "U5 | 9 | +5V | 0.4",
    );
    expect(said(named).map((one) => one.split(" @")[0])).toEqual(["U5.5 - =GND", "U5.9 - =+5V"]);
    expect(said("U2 pins 1 and 19 are wired to ground.\n").map((one) => one.split(" @")[0])).toEqual([
      "U2.1 - =GND",
      "U2.19 - =GND",
    ]);
    expect(said("## Diode check U11 (pin 5 tied to +5V)\n").map((one) => one.split(" @")[0])).toEqual([
      "U11.5 - =+5V",
    ]);
  });
});

describe("a matrix", () => {
  it("is its grid", () => {
    expect(
      said("## Switch matrix\n\n| | 1 | 2 | 3 |\n|-|-|-|-|\n| 1 | ok | ok | ok |\n| 2 | ok | ok | ok |\n"),
    ).toEqual(["switch 2x3 @ | | 1 | 2 | 3 |"]);
    expect(said("## Lamp matrix\n\n| Column / row | A | B |\n|-|-|-|\n| 1 | lit | lit |\n")[0]).toMatch(
      /^lamp 2x1/,
    );
    expect(
      said("## Lamp matrix\n\n| Row | Column | Result |\n|-|-|-|\n| A | 1 | lit |\n| B | 2 | dark |\n")[0],
    ).toMatch(/^lamp 2x2/);
  });
});
