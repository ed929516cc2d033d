import { describe, it } from "vitest";
import { checkDefinition, checkNoDefinition } from "../../support/features";
import { BOARD, SHOP } from "../../support/judged";

const DETAILED = BOARD.replace(
  "expected:",
  `symptoms:
  blank: { title: Display stays blank, circuits: [] }
revisions:
  A: first issue
  "1": second issue
rom-sets:
  r1: { title: First release, images: [] }
expected:`,
);
const world = (body: string, front = "board: trial") =>
  `//- trial.board.yaml\n${DETAILED}//- mendlog.shop.yaml\n${SHOP}//- log.md\n---\nmendlog: 1\n${front}\n---\n\n${body}`;
const diode = (row: string) => world(`## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n${row}\n`);

describe("from a log into the board file", () => {
  it("goes from a designator to the part", async () => {
    const part = "[U1]: { device: 74LS04 }";
    await checkDefinition(diode("| u$01 | 1 | 0.5 |"), "u1", part);
    await checkDefinition(diode("| U1 (inverter)$0 | 1 | 0.5 |"), "U1 (inverter)", part);
    await checkDefinition(world("## Diode check U$01\n"), "U1", part);
    await checkDefinition(
      world("## Diode check\n\n| Pin | U1$0 left |\n|-|-|\n| 1 | 0.5 |\n"),
      "U1 left",
      part,
    );
    await checkDefinition(world("See $0U1."), "U1", part);
    await checkDefinition(
      world("## Inspection\n\n| Item | Result | Note |\n|-|-|-|\n| joints | ok | near U$01 |\n"),
      "U1",
      part,
    );
  });

  it("goes from a pin, or a reading of it, to its place in the net", async () => {
    await checkDefinition(diode("| U1 | 3$0 | 0.5 |"), "3", "PULLED: [[U1.3], R1.2]");
    await checkDefinition(diode("| U1 | 2A$0 | 0.5 |"), "2A", "PULLED: [[U1.3], R1.2]");
    await checkDefinition(diode("| U1 | 13 | 0.0$001 |"), "0.001", "GND: [U1.7, [U1.13], U2.8, C1.2, U3.1]");
    await checkDefinition(world("Short at u1.3$0"), "u1.3", "PULLED: [[U1.3], R1.2]");
    await checkDefinition(diode("| J1 | a3$0 | 0.5 |"), "a3", "HEADER: [[J1.A3], U1.11]");
  });

  it("goes from a pin without a net to its part where it stands in a sentence", async () => {
    await checkDefinition(world("Cut U1.4$0"), "U1.4", "[U1]: { device: 74LS04 }");
    await checkNoDefinition(diode("| U1 | 4$0 | 0.5 |"));
  });

  it("goes from a rail, by any of its names, and from its reading", async () => {
    const rail =
      '["+5V"]: { nominal: 5 V, tolerance: 5 %, ripple: 50 mV, load: 1.5 A, net: VCC, test-point: TP1, source: invented }';
    const rails = (row: string) => world(`## Supply rails\n\n| Rail | DC |\n|-|-|\n${row}\n`);
    await checkDefinition(rails("| 5$0v | 5.0 |"), "5v", rail);
    await checkDefinition(rails("| TP1 | 5$0.0 |"), "5.0", rail);
  });

  it("goes from a net's name", async () => {
    await checkDefinition(world("The line HEA$0DER is dead"), "HEADER", "[HEADER]: [J1.A3, U1.11]");
    await checkDefinition(
      world("## Display\n\n| Item | Signal | Result |\n|-|-|-|\n| x | BUS$0 | ok |\n"),
      "BUS",
      "[BUS]: [U1.5, U2.1]",
    );
  });

  it("goes from the front matter's fields", async () => {
    await checkDefinition(world("", "board: tr$0ial"), "trial", "[id]: trial");
    await checkDefinition(world("", "board: trial\nrevision: $0A"), "A", "[A]: first issue");
    await checkDefinition(world("", 'board: trial\nrevision: "1$0"'), '"1"', '["1"]: second issue');
    await checkDefinition(
      world("", "board: trial\nsymptoms: [bl$0ank]"),
      "blank",
      "[blank]: { title: Display stays blank, circuits: [] }",
    );
    await checkDefinition(world("", "board: trial\nmeter: ben$0ch"), "bench", "[bench]:");
    await checkDefinition(
      world("", "board: trial\nrom-set: r1$0"),
      "r1",
      "[r1]: { title: First release, images: [] }",
    );
  });

  it("leads nowhere from what no file describes", async () => {
    await checkNoDefinition(diode("| U99$0 | 1 | 0.5 |"));
    await checkNoDefinition(diode("| U1 |  $0  | 0.5 |"));
    await checkNoDefinition(world("Plain wo$0rds."));
    await checkNoDefinition(world("", "board: nowh$0ere"));
    await checkNoDefinition(world("", "board: trial\nsymptoms: [own wo$0rds]"));
    await checkNoDefinition(world("## Diode $0check\n"));
  });
});
