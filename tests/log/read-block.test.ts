import { describe, expect, it } from "vitest";
import type { Qualifiers } from "../../server/src/log/model";
import { slice } from "../../server/src/text/span";
import { readBody, readingsOf, subjectText, tableList } from "../support/log";

const TABLE = "\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.5 |\n";
const tableUnder = (heading: string) => tableList(readBody(heading + TABLE))[0];

describe("the heading above a table", () => {
  it("is the nearest one, at any depth", () => {
    const doc = readBody(`# Diode check

## Resistance to ground

| Ref | Pin | Reading |
|-|-|-|
| U1 | 1 | 500 |

Logic levels
------------

| Ref | Pin | Reading |
|-|-|-|
| U1 | 1 | 4.5 |

### The cabinet

| Ref | Pin | Reading |
|-|-|-|
| U1 | 1 | 4.5 |
`);
    expect(tableList(doc).map((t) => t.procedure.id)).toEqual(["resistance-to-ground", "logic-levels"]);
    expect(doc.blocks.flatMap(({ block }) => block.proseTables.map((t) => t.section.heading?.text))).toEqual([
      "The cabinet",
    ]);
  });

  it("leaves a table above the first heading as prose", () => {
    const doc = readBody("| Ref | Pin | Reading |\n|-|-|-|\n| U1 | 1 | 0.5 |\n\n## Diode check\n");
    expect(tableList(doc)).toEqual([]);
    expect(doc.blocks.flatMap(({ block }) => block.proseTables)).toHaveLength(1);
  });

  it("is not one inside a quote, a list or a fence", () => {
    const doc = readBody(`## Diode check

\`\`\`
## Resistance
\`\`\`

> ## Frequency

| Ref | Pin | Reading |
|-|-|-|
| U1 | 1 | 0.5 |
`);
    expect(readingsOf(doc)).toEqual(["U1 1 drop 0.5 = 0.5 V"]);
  });

  it.each<[string, Qualifiers]>([
    ["## Diode check", {}],
    ["## Diode check after repair", { repair: "after" }],
    ["## After the repair: diode check", { repair: "after" }],
    ["## DIODE CHECK (before repair), unpowered", { repair: "before", power: "unpowered" }],
    ["## Diode check, powered?, loaded", { power: "powered", load: "loaded" }],
    ["## Diode check unloaded", { load: "unloaded" }],
  ])("%s tells the circumstances", (heading, qualifiers) => {
    const table = tableUnder(heading);
    expect(table?.procedure.id).toBe("diode-check");
    expect(table?.section.qualifiers).toEqual(qualifiers);
  });
});

describe("a designator in the heading", () => {
  it.each([
    ["## Diode check U14", "U14"],
    ["## U14: diode check", "U14"],
    ["## Diode check **U14** (74LS04)", "U14"],
    ["## Diode check _U14_", "U14"],
    ["## Diode check u14", "u14"],
    ["## Diode check of Q7 (TIP102)", "Q7"],
    ["## Diode check of U14, a SN7404", "U14"],
    ["## Diode check U14, U14 again", "U14"],
    ["U14 diode check\n===", "U14"],
  ])("%s stands for the rows", (heading, ref) => {
    const table = tableUnder(heading);
    expect(subjectText(table?.readings[0])).toMatchObject({ ref, pin: "1" });
    const doc = readBody(heading + TABLE);
    const placed = doc.blocks.find(({ block }) => block.tables.length > 0);
    const span = placed?.block.sections.find((s) => s.ref)?.ref?.span;
    expect(span && placed && slice(doc.text.slice(placed.start), span)).toBe(ref);
  });

  it.each([
    "## Diode check U14 and U15",
    "## Diode check lane 3",
    "## 2026-03-04 Diode check",
    "## Diode check, 74LS04",
    "## Diode check rev b2",
  ])("%s names none", (heading) => {
    expect(subjectText(tableUnder(heading)?.readings[0])).not.toHaveProperty("ref");
  });

  it("gives way to a row's own", () => {
    const doc = readBody(
      "## Diode check U14\n\n| Ref | Pin | Reading |\n|-|-|-|\n| | 1 | 0.5 |\n| U15 | 2 | 0.6 |\n| | 3 | 0.7 |\n",
    );
    expect(tableList(doc)[0]?.readings.map((r) => r.subject.ref?.text)).toEqual(["U14", "U15", "U15"]);
  });
});

describe("a suppression", () => {
  const codes = (comment: string) => {
    const doc = readBody(`## Diode check\n\n${comment}\n\ntext\n`);
    return doc.blocks.flatMap(({ start, block }) =>
      block.suppressions.map(({ code, span }) => {
        expect(slice(doc.text.slice(start), span)).toBe(code);
        return code;
      }),
    );
  };

  it("names one code or several, with a reason behind a colon", () => {
    expect(codes("<!-- mendlog-allow wrong-unit -->")).toEqual(["wrong-unit"]);
    expect(codes("<!--mendlog-allow wrong-unit: seen before, wrong-unit again-->")).toEqual(["wrong-unit"]);
    expect(codes("<!-- mendlog-allow wrong-unit, duplicate-reading\n unused-suppression -->")).toEqual([
      "wrong-unit",
      "duplicate-reading",
      "unused-suppression",
    ]);
  });

  it("is no other comment", () => {
    expect(codes("<!-- mendlog-allow -->")).toEqual([]);
    expect(codes("<!-- mendlog-allowed wrong-unit -->")).toEqual([]);
    expect(codes("<!-- please mendlog-allow wrong-unit -->")).toEqual([]);
  });
});
