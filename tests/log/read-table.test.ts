import { describe, expect, it } from "vitest";
import { slice } from "../../server/src/text/span";
import { readBody, readingsOf, readLog, tableList } from "../support/log";

describe("a long table", () => {
  it("gives a reading a row, with its designator and pin", () => {
    expect(
      readingsOf(
        readBody(`## Diode check

| Ref | Pin | Reading | Note |
|-----|-----|---------|------|
| U14 | 1   | 0.58 V  |      |
| U14 | 2   | 580mV   | twice |
| U15 | 3   | -       |      |
`),
      ),
    ).toEqual(["U14 1 drop 0.58 V = 0.58 V", "U14 2 drop 580mV = 0.58 V", "U15 3 drop - = empty"]);
  });

  it.each(["Reading (mV)", "Drop, mV", "VALUE [mV]", "Measured in mV", "Vf / mV"])(
    "takes columns in any order, by any of their names, with the unit in the header: %s",
    (header) => {
      const body = `## Diode check\n\n| Note | ${header} | Leg | IC |\n|-|-|-|-|\n| x | 580 | 7 | U3 |\n`;
      expect(readingsOf(readBody(body))).toEqual(["7 U3 drop 580 = 0.58 V"]);
    },
  );

  it("takes a header that is nothing but a unit for the reading measured in it", () => {
    const doc = readBody("## Diode check U14\n\n| Pin | mV | Note |\n|-|-|-|\n| 1 | 580 | |\n");
    expect(readingsOf(doc)).toEqual(["U14 1 drop 580 = 0.58 V"]);
    expect(
      readingsOf(readBody("## Capacitance and ESR\n\n| Ref | uF | Ohm |\n|-|-|-|\n| C1 | 98 | 0.2 |\n")),
    ).toEqual(["C1 capacitance 98 = 0.000098 F", "C1 esr 0.2 = 0.2 Ω"]);
    // A designator over a wide table is none, and neither are the lines of a matrix.
    expect(readingsOf(readBody("## Diode check\n\n| Pin | R1 |\n|-|-|\n| 1 | 0.5 |\n"))).toEqual([
      "1 R1 drop 0.5 = 0.5 V",
    ]);
    expect(readingsOf(readBody("## Switch matrix\n\n| | A | V |\n|-|-|-|\n| 1 | ok | ok |\n"))).toEqual([
      "1 A result ok = works",
      "1 V result ok = works",
    ]);
  });

  it("lets a unit in the cell win over the header's", () => {
    expect(
      readingsOf(readBody("## Diode check\n\n| Ref | Pin | Reading (mV) |\n|-|-|-|\n| U1 | 1 | 0.58 V |\n")),
    ).toEqual(["U1 1 drop 0.58 V = 0.58 V"]);
  });

  it("inherits a designator left blank, but not a pin", () => {
    const doc = readBody(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 (74LS04) | 1   | 0.58    |
|     | 2   | 0.57    |
|     |     | 0.56    |
| U15 | 1   | 0.55    |
|     | 2   | 0.54    |
`);
    expect(readingsOf(doc)).toEqual([
      "U14 1 74LS04 drop 0.58 = 0.58 V",
      "U14 74LS04 2 drop 0.57 = 0.57 V",
      "U14 74LS04 drop 0.56 = 0.56 V",
      "U15 1 drop 0.55 = 0.55 V",
      "U15 2 drop 0.54 = 0.54 V",
    ]);
  });

  it("reads short and long rows as far as they go", () => {
    expect(
      readingsOf(
        readBody(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U1 | 1
| U1 | 2 | 0.5 | more | and more |
U1 | 3 | 0.6
| U1 | 4 |
`),
      ),
    ).toEqual(["U1 2 drop 0.5 = 0.5 V", "U1 3 drop 0.6 = 0.6 V"]);
  });

  it("takes a second column of the same name for a second reading, and a second Ref for nothing", () => {
    const doc = readBody(`## Diode check

| Ref | Pin | Reading | Reading (mV) | Ref |
|-----|-----|---------|--------------|-----|
| U1  | 1   | 0.5     | 510          | U2  |
`);
    expect(readingsOf(doc)).toEqual(["U1 1 drop 0.5 = 0.5 V", "U1 1 drop 510 = 0.51 V"]);
    expect(tableList(doc)[0]?.columns.map((c) => c.spec?.role)).toEqual([
      "ref",
      "pin",
      "reading",
      "reading",
      undefined,
    ]);
  });

  it("has no readings where no column is one", () => {
    const [table] = tableList(readBody("## Diode check\n\n| Ref | Pin |\n|-|-|\n| U1 | 1 |\n"));
    expect(table?.shape).toBe("long");
    expect(table?.readings).toEqual([]);
    expect(table?.rows).toHaveLength(1);
  });

  it("keeps an escaped pipe in its cell", () => {
    const doc = readBody("## Inspection\n\n| Item | Result |\n|-|-|\n| J2 \\| J3 | cracked |\n| C2 | ok |\n");
    const [first] = tableList(doc)[0]?.rows ?? [];
    expect(first?.cells.item?.text).toBe("J2 | J3");
    expect(readingsOf(doc)).toEqual(["J2 \\| J3 result cracked = fails", "C2 result ok = works"]);
  });

  it("reads each measure of a rail by itself", () => {
    expect(
      readingsOf(
        readBody(
          "## Supply rails, loaded\n\n| Rail | DC | Ripple | Current |\n|-|-|-|-|\n| -12V | -12.1 | 8 mV | 0.2 |\n",
        ),
      ),
    ).toEqual(["-12V dc -12.1 = -12.1 V", "-12V ripple 8 mV = 0.008 V", "-12V load 0.2 = 0.2 A"]);
  });
});

describe("a wide table", () => {
  it("takes its refs from the header, without what stands behind them", () => {
    const doc = readBody(`## Diode check

| Pin | U14 | u15 (74LS04) | Note |
|-----|-----|--------------|------|
| 1   | .58 | 0,57         | ok   |
| 14  | OL  |              |      |
`);
    expect(tableList(doc)[0]?.shape).toBe("wide");
    expect(readingsOf(doc)).toEqual([
      "1 U14 drop .58 = 0.58 V",
      "1 u15 74LS04 drop 0,57 = 0.57 V",
      "14 U14 drop OL = open",
      "14 u15 74LS04 drop _ = empty",
    ]);
  });

  it("leaves a column without a header and the cells beyond the header alone", () => {
    expect(
      readingsOf(readBody("## Diode check\n\n| Pin | U14 |   |\n|-|-|-|\n| 1 | 0.5 | 0.6 | 0.7 |\n")),
    ).toEqual(["1 U14 drop 0.5 = 0.5 V"]);
  });

  it.each(["Row \\ Col", "Row / column", "Row", "", "row\\column"])(
    "is a matrix under the corner %j",
    (corner) => {
      const doc = readBody(`## Switch matrix

| ${corner} | 1 | 2 |
|---|---|---|
| 1 | ok | dead |
| 2 | -  | ok   |
`);
      expect(tableList(doc)[0]?.shape).toBe("wide");
      expect(readingsOf(doc)).toEqual([
        "1 1 result ok = works",
        "1 2 result dead = fails",
        "2 1 result - = empty",
        "2 2 result ok = works",
      ]);
    },
  );

  it("is a long table as soon as a measured column is named", () => {
    const doc = readBody("## Diode check\n\n| Pin | U14 | Reading |\n|-|-|-|\n| 1 | x | 0.5 |\n");
    expect(tableList(doc)[0]?.shape).toBe("long");
    expect(readingsOf(doc)).toEqual(["1 drop 0.5 = 0.5 V"]);
  });

  it("is not made of a table with one column", () => {
    expect(tableList(readBody("## Diode check\n\n| Pin |\n|-|\n| 1 |\n"))[0]?.shape).toBe("long");
  });
});

describe("the places", () => {
  const lf = `---
mendlog: 1
---

# Räder 🙂

## Diode check

|Ref|Pin|  Reading  |
|--|--|--|
|U14|1| 0.58 |
| U14 | 2|
| U15\t|3 |\t0.57 V\t|

## Diode check after repair

| Pin | U14 |
|-----|-----|
| 1   | 0.5 |
`;
  const wanted = ["U14 1 drop 0.58 = 0.58 V", "U15 3 drop 0.57 V = 0.57 V", "1 U14 drop 0.5 = 0.5 V"];

  it.each([
    ["line feeds", lf],
    ["carriage returns and line feeds", lf.replaceAll("\n", "\r\n")],
    ["a byte order mark", `\uFEFF${lf}`],
    ["both", `\uFEFF${lf.replaceAll("\n", "\r\n")}`],
  ])("are exact with %s", (_, text) => {
    const doc = readLog(text);
    expect(readingsOf(doc)).toEqual(wanted);
    for (const { start, block } of doc.blocks) {
      for (const { heading } of block.sections) {
        if (!heading) continue;
        expect(slice(text.slice(start), heading.span)).toMatch(/^#+ \S.*\S$/);
      }
      for (const table of block.tables)
        for (const row of table.rows) expect(slice(text.slice(start), row.span)).toMatch(/^\|.*\|$/);
    }
  });

  it("let two equal blocks stand at two places", () => {
    const block = "## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U1 | 1 | 0.5 |\n\n";
    const doc = readBody(block + block);
    const [first, second] = doc.blocks.slice(-2);
    expect(readingsOf(doc)).toEqual(["U1 1 drop 0.5 = 0.5 V", "U1 1 drop 0.5 = 0.5 V"]);
    expect((second?.start ?? 0) - (first?.start ?? 0)).toBe(block.length);
  });
});
