import { describe, expect, it } from "vitest";
import { checkHover, checkNoHover, hoverAt } from "../../support/features";
import { BOARD, SHOP } from "../../support/judged";

const DETAILED = BOARD.replace(
  "U1: { device: 74LS04 }",
  'U1: { device: 74LS04, circuit: gates, fits: [7404], location: C4, socketed: true, note: "runs <b>hot</b> | *always*" }',
).replace(
  "expected:",
  `circuits:
  gates: { title: Gates, note: see_also }
symptoms:
  blank: { title: Display stays blank, shows: "<nothing>", circuits: [gates], note: look at reset }
revisions: { A: "first <i>issue</i>" }
rom-sets:
  r1: { title: First release, images: [{ ref: U2, crc32: cbf43926 }] }
cautions: [Clear the cabinet of mains first.]
expected:`,
);
const world = (body: string, front = "board: trial\nmeter: bench") =>
  `//- trial.board.yaml\n${DETAILED}//- mendlog.shop.yaml\n${SHOP}//- log.md\n---\nmendlog: 1\n${front}\n---\n\n${body}`;
const diode = (row: string) => world(`## Diode check\n\n| Ref | Pin | Reading | Note |\n|-|-|-|-|\n${row}\n`);

describe("a designator", () => {
  it("tells the part, its place, what else fits, and its pins with their nets", async () => {
    await checkHover(
      diode("| U$01 | 1 | 0.5 | |"),
      "U1",
      "**U1** 74LS04 hex inverter",
      "Circuit: Gates",
      "Place on the board: C4",
      "also fits: 7404",
      "in a socket",
      "| 3 | 2A | input | PULLED |",
      "| 7 | GND | ground | GND |",
    );
  });

  it("shows what the board file says as text, whatever Markdown or HTML it looks like", async () => {
    const text = await checkHover(
      diode("| U$01 | 1 | 0.5 | |"),
      "U1",
      "runs \\<b\\>hot\\</b\\> \\| \\*always\\*",
    );
    expect(text).not.toMatch(/(?<!\\)<\w/);
  });

  it("belongs to the designator alone, and to the cell where that says more", async () => {
    await checkHover(diode("| U$01 (74LS04) | 1 | 0.5 | |"), "U1", "hex inverter");
    await checkHover(diode("| U1 (74$0LS04) | 1 | 0.5 | |"), "U1 (74LS04)", "hex inverter");
  });

  it("is known in a heading, over a wide table and in a sentence", async () => {
    await checkHover(world("## Diode check U$01\n"), "U1", "hex inverter");
    await checkHover(
      world("## Diode check\n\n| Pin | U$01 (left) |\n|-|-|\n| 1 | 0.5 |\n"),
      "U1 (left)",
      "hex inverter",
    );
    await checkHover(world("Pulled U1$0, still dead."), "U1", "hex inverter");
    await checkHover(world("Lifted r$02 at one end"), "r2", "**R2** 150");
  });

  it("is known inside a note", async () => {
    await checkHover(diode("| U2 | 1 | 0.5 | like U$01, twice |"), "U1", "hex inverter");
    await checkHover(diode("| U2 | 1 | 0.5 | like u1.3$0 |"), "u1.3", "**U1 pin 3**");
    await checkNoHover(diode("| U2 | 1 | 0.5 | like$0 U1 |"));
  });

  it("blank below another is that one", async () => {
    await checkHover(diode("| U1 | 1 | 0.5 | |\n|  $0  | 2 | 0.5 | |"), "    ", "hex inverter");
  });

  it("that the board does not have says nothing", async () => {
    await checkNoHover(diode("| U9$09 | 1 | 0.5 | |"));
    await checkNoHover(world("Pulled U9$09.", "job: 4"));
  });
});

describe("a pin", () => {
  it("tells name, direction, everything on its net and what it should read, with the source", async () => {
    await checkHover(
      diode("| U1 | 3$0 | 0.5 | |"),
      "3",
      "**U1 pin 3** 2A, input",
      "Net **PULLED** with R1.2",
      "Diode check: 0.4 V to 0.7 V",
      "common practice, no source",
    );
    await checkHover(diode("| U2 | $03 | 0.5 | |"), "3", "0.5 V to 0.56 V", "three boards");
    await checkHover(diode("| U1 | GN$0D | 0 | |"), "GND", "pin 7", "at most 50 mV");
    await checkHover(diode("| U7 | 9$0 | | |"), "9", "Not connected inside the chip");
  });

  it("in a sentence is written with a dot, a stroke or a hyphen", async () => {
    for (const typed of ["U1.3", "U1/3", "U1-3", "u1.2A"]) {
      await checkHover(world(`Short at ${typed}$0 again.`), typed, "pin 3** 2A, input");
    }
  });

  it("of a wide table is told of every chip", async () => {
    await checkHover(
      world("## Diode check\n\n| Pin | U1 | U5 (right) |\n|-|-|-|\n| 5$0 | 0.5 | 0.3 |\n"),
      "5",
      "**U1 pin 5** 3A",
      "**U5 pin 5** VCC, supply",
    );
  });

  it("that the package does not have is told so", async () => {
    await checkHover(diode("| U1 | 1$05 | 0.5 | |"), "15", "it has no pin 15");
  });
});

describe("a reading", () => {
  it("tells verdict, arithmetic, source, uncertainty and net", async () => {
    await checkHover(
      diode("| U1 | 3 | 1.4$02 | |"),
      "1.42",
      "**▲ Out of limits**",
      // 1 % of 1.42 V and 2 counts of 1 mV, and half the 10 mV typed.
      "`1.42 V ± 20 mV > 0.7 V`",
      "Limits: 0.4 V to 0.7 V",
      "Source: common practice, no source",
      "Uncertainty: ± 20 mV, k = 2 (Trial meter)",
      "Net **PULLED**: U1.3 (2A input), R1.2",
    );
  });

  it("within limits claims no more than that", async () => {
    const text = await checkHover(
      diode("| U1 | 1 | $00.581 | |"),
      "0.581",
      "○ Within limits",
      "Not disproved",
    );
    expect(text).toContain("cannot prove");
  });

  it("not taken yet tells what it should be, anywhere in the empty cell", async () => {
    await checkHover(
      diode("| U1 | 1 |   $0   | |"),
      "      ",
      "– Not measured",
      "Diode check: 0.4 V to 0.7 V",
    );
    await checkHover(diode("| U1 | 1 | -$0 | |"), "-", "0.4 V to 0.7 V");
    await checkHover(
      world("## Supply rails\n\n| Rail | DC | Ripple |\n|-|-|-|\n| +5 | $0 | |\n"),
      "  ",
      "It should read 4.75 V to 5.25 V",
    );
    await checkHover(
      world("## Supply rails\n\n| Rail | DC | Ripple |\n|-|-|-|\n| +5 |  |$0|\n"),
      "",
      "at most 50 mV",
    );
    await checkHover(
      world("## Resistance to ground\n\n| Rail | Reading |\n|-|-|\n| 5V | $0 |\n"),
      "  ",
      "60 Ω to 400 Ω",
    );
  });

  it("without a meter says that the digits are all there is", async () => {
    await checkHover(
      world("## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U2 | 3 | 0.6$00 |\n", "board: trial"),
      "0.60",
      "± 5.8 mV, k = 2 (last digit typed; no meter named)",
    );
  });

  it("has nothing to say in the padding beside it", async () => {
    await checkNoHover(diode("| U1 | 1 | 0.581   $0 | |"));
  });
});

describe("a crossing of a matrix", () => {
  const matrix = (row: string) =>
    world(`## Switch matrix\n\n| Row \\ Col | 1 | 2 |\n|-|-|-|\n${row}\n`).replace(
      "\nsymptoms:",
      `
matrices:
  switches:
    kind: switch
    title: Switches
    rows: [ROW_A, ROW_B]
    columns: [COL_A, COL_B]
    cells: [[Coin, Start], [Tilt, ~]]
    reserved: [[2, 2]]
symptoms:`,
    );

  it("is told by its name and its lines", async () => {
    await checkHover(
      matrix("| 1 | ok | de$0ad |"),
      "dead",
      "**Start** · row 1 (ROW\\_A), column 2 (COL\\_B)",
    );
    await checkHover(matrix("| row 2 | $0ok | |"), "ok", "**Tilt**");
    await checkHover(matrix("| 2 | de$0da | |"), "deda", "**Tilt**", "is not a result");
    await checkHover(matrix("| ROW_B | ok | $0 |"), "  ", "(unnamed)", "⚠ **Caution:**", "do not bridge it");
  });

  it("that the board does not have is only a reading", async () => {
    await checkHover(matrix("| 9 | $0ok | |"), "ok", "Not judged");
  });
});

describe("a long net", () => {
  it("is counted where its members are too many to name", async () => {
    const pins = Array.from({ length: 40 }, (_, i) => `C${i + 10}.1`).join(", ");
    const fixture = diode("| U1 | 1$01 | 0.5 | |").replace("HEADER: [", `HEADER: [${pins}, `);
    const text = await checkHover(fixture, "11", "C10.1", "and 25 more");
    expect(text).not.toContain("C40.1");
  });
});

describe("a heading", () => {
  it("tells the procedure, its cautions first, and where the corner is the wrong place", async () => {
    const text = await checkHover(
      world("## Diode ch$0eck after repair\n"),
      "Diode check after repair",
      "**Diode check** · unpowered",
      "Ground is not at the corner here",
      "- U5 (74LS75): ground is pin 12, not pin 8",
      "What it cannot tell",
      "*Source: common practice, no source*",
    );
    expect(text).not.toContain("- U1 (");
    expect(text.indexOf("⚠ **Caution:**")).toBeLessThan(text.indexOf("**Steps**"));
  });

  it("with its marks is one place", async () => {
    await checkHover(world("#$0# Soak\n"), "## Soak", "**Soak**");
  });

  it("of nothing known says nothing", async () => {
    await checkNoHover(world("## Own$0er\n"));
  });
});

describe("the front matter", () => {
  const front = (lines: string) => world("", lines);

  it("explains its keys and their values", async () => {
    await checkHover(front("board: trial\nst$0age: repairing"), "stage", "One of: `received`");
    await checkHover(front("board: trial\nstage: rep$0airing"), "repairing", "One of: `received`");
    await checkHover(front("board: tr$0ial"), "trial", "**Trial board**", "⚠ **Caution:** Clear the cabinet");
    await checkHover(front("board: trial\nrevision: $0A"), "A", "first \\<i\\>issue\\</i\\>");
    await checkHover(
      front("board: trial\nrom-set: r$01"),
      "r1",
      "**First release**",
      "U2: CRC-32 `cbf43926`",
    );
  });

  it("tells a meter's accuracy range by range", async () => {
    await checkHover(
      front("board: trial\nmeter: be$0nch"),
      "bench",
      "**Trial meter**",
      "| diode | 2 V | ± (1 % + 2 counts) |",
      "| ohms | 20 Mohm | accuracy not given |",
    );
  });

  it("tells a symptom's circuits with their parts", async () => {
    await checkHover(
      front("board: trial\nsymptoms: [bl$0ank, own words]"),
      "blank",
      "**Display stays blank**",
      "Display shows: \\<nothing\\>",
      "- **Gates** (see\\_also): U1",
      "look at reset",
    );
    const own = await hoverAt(front("board: trial\nsymptoms: [blank, own wo$0rds]"));
    expect(own?.markdown).not.toContain("Display stays blank");
  });
});

describe("other words", () => {
  it("are header cells with what else they are called", async () => {
    await checkHover(
      world("## Diode check\n\n| Ref | Pin | Dr$0op (mV) |\n|-|-|-|\n"),
      "Drop (mV)",
      "drop, in mV where a cell names no unit",
      "Also written: Reading",
    );
    await checkHover(
      world("## Diode check\n\n| Ref | Pin | Reading | My$0nd |\n|-|-|-|-|\n"),
      "Mynd",
      "are not read",
    );
  });

  it("are nets by their name, rails, signals and parts", async () => {
    await checkHover(
      world("The line HEADER$0 is dead."),
      "HEADER",
      "Net **HEADER**",
      "- J1.A3",
      "- U1.11 (5A input)",
    );
    await checkHover(
      world("## Supply rails\n\n| Rail | DC |\n|-|-|\n| 5$0v | 5 |\n"),
      "5v",
      "**+5V**: 5 V ± 5 %",
      "TP1",
    );
    await checkHover(
      world("## Parts fitted\n\n| Ref | Part |\n|-|-|\n| U1 | 74H$0CT04 |\n"),
      "74HCT04",
      "Hex inverter",
    );
  });
});
