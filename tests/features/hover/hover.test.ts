import { describe, expect, it } from "vitest";
import { checkHover, checkNoHover, hoverTextAt, sectionsOf } from "../../support/features";
import { BOARD, SHOP } from "../../support/judged";
import { header, rows } from "../../support/tables";

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
  it("tells the part, its place, what else fits, and its pins with their nets; the file's own words stay text", async () => {
    expect(await hoverTextAt(diode("| U$01 | 1 | 0.5 | |"))).toMatchInlineSnapshot(`
      "[U1]
      **U1** 74LS04 hex inverter

      Circuit: Gates · Place on the board: C4 ↵
      in a socket · also fits: 7404

      runs \\<b\\>hot\\</b\\> \\| \\*always\\*

      | Pin | Name | Direction | Net |
      |---|---|---|---|
      | 1 | 1A | input |  |
      | 2 | 1Y | output |  |
      | 3 | 2A | input | PULLED |
      | 4 | 2Y | output |  |
      | 5 | 3A | input | BUS |
      | 6 | 3Y | output |  |
      | 7 | GND | ground | GND |
      | 8 | 4Y | output |  |
      | 9 | 4A | input | VCC |
      | 10 | 5Y | output |  |
      | 11 | 5A | input | HEADER |
      | 12 | 6Y | output |  |
      | 13 | 6A | input | GND |
      | 14 | VCC | supply | VCC |"
    `);
  });

  it("shows no HTML of the board file", async () => {
    const text = await hoverTextAt(diode("| U$01 | 1 | 0.5 | |"));
    expect(text).toContain("runs \\<b\\>hot");
    expect(text).not.toMatch(/(?<!\\)<\w/);
  });

  it.each([
    ["before its device, the designator alone", diode("| U$01 (74LS04) | 1 | 0.5 | |"), "U1"],
    ["at its device, the whole cell", diode("| U1 (74$0LS04) | 1 | 0.5 | |"), "U1 (74LS04)"],
    ["in a heading", world("## Diode check U$01\n"), "U1"],
    [
      "over a wide table",
      world("## Diode check\n\n| Pin | U$01 (left) |\n|-|-|\n| 1 | 0.5 |\n"),
      "U1 (left)",
    ],
    ["in a sentence", world("Pulled U1$0, still dead."), "U1"],
    ["inside a note", diode("| U2 | 1 | 0.5 | like U$01, twice |"), "U1"],
    ["in the blank below it", diode("| U1 | 1 | 0.5 | |\n|  $0  | 2 | 0.5 | |"), "    "],
  ])("is known %s", async (_where, fixture, on) => {
    expect(await checkHover(fixture, on)).toMatch(/^\*\*U1\*\* 74LS04 hex inverter/);
  });

  it("is known in lower case and with a nought before its number", async () => {
    expect(await checkHover(world("Lifted r$02 at one end"), "r2")).toMatch(/^\*\*R2\*\* 150/);
  });

  it("with a pin inside a note is that pin", async () => {
    await checkHover(diode("| U2 | 1 | 0.5 | like u1.3$0 |"), "u1.3", "**U1 pin 3**");
  });

  it.each([
    ["a word beside one in a note", diode("| U2 | 1 | 0.5 | like$0 U1 |")],
    ["one that the board does not have, in a table", diode("| U9$09 | 1 | 0.5 | |")],
    ["one of a log without a board", world("Pulled U9$09.", "job: 4")],
  ])("says nothing over %s", async (_what, fixture) => {
    await checkNoHover(fixture);
  });
});

describe("a pin", () => {
  it("tells name, direction, everything on its net and what it should read, with the source", async () => {
    expect(await hoverTextAt(diode("| U1 | 3$0 | 0.5 | |"))).toMatchInlineSnapshot(`
      "[3]
      **U1 pin 3** 2A, input · 74LS04

      Net **PULLED** with R1.2

      Diode check: 0.4 V to 0.7 V, a low-power Schottky TTL pin's drop to ground (common practice, no source)."
    `);
  });

  it("that the board file expects a reading of is held against that, and its source is told", async () => {
    expect(await hoverTextAt(diode("| U2 | $03 | 0.5 | |"))).toMatchInlineSnapshot(`
      "[3]
      **U2 pin 3** D1, input · 74LS151

      Diode check: 0.5 V to 0.56 V, the board file's expected reading at U2 pin 3 (three boards)."
    `);
  });

  it("named by its signal is found", async () => {
    expect(await hoverTextAt(diode("| U1 | GN$0D | 0 | |"))).toMatchInlineSnapshot(`
      "[GND]
      **U1 pin 7** GND, ground · 74LS04

      Net **GND** with U1.13 (6A input), U2.8 (GND ground), C1.2, U3.1, U5.12 (GND ground), U6.7 (GND ground), U7.7 (GND ground)

      Diode check: at most 50 mV, a ground pin (common practice, no source)."
    `);
  });

  it("that goes nowhere inside the chip says so", async () => {
    expect(await hoverTextAt(diode("| U7 | 9$0 | | |"))).toMatchInlineSnapshot(`
      "[9]
      **U7 pin 9** NC, not connected · 7430

      Not connected inside the chip: not judged."
    `);
  });

  it.each(["U1.3", "U1/3", "U1-3", "u1.2A"])("in a sentence may be written %s", async (typed) => {
    await checkHover(world(`Short at ${typed}$0 again.`), typed, "pin 3** 2A, input");
  });

  it("of a wide table is told of every chip", async () => {
    expect(
      await hoverTextAt(world("## Diode check\n\n| Pin | U1 | U5 (right) |\n|-|-|-|\n| 5$0 | 0.5 | 0.3 |\n")),
    ).toMatchInlineSnapshot(`
      "[5]
      **U1 pin 5** 3A, input · 74LS04

      Net **BUS** with U2.1 (D3 input)

      Diode check: 0.4 V to 0.7 V, a low-power Schottky TTL pin's drop to ground (common practice, no source).

      ---

      **U5 pin 5** VCC, supply · 74LS75

      Net **VCC** with U1.14 (VCC supply), U1.9 (4A input), U2.16 (VCC supply), R1.1, U6.14 (VCC supply), U7.14 (VCC supply)

      Diode check: 0.15 V to 0.5 V, the supply pin's drop on a populated board (low-power Schottky TTL) (common practice, no source)."
    `);
  });

  it("that the package does not have is told so", async () => {
    expect(await hoverTextAt(diode("| U1 | 1$05 | 0.5 | |"))).toMatchInlineSnapshot(`
      "[15]
      **U1** is a 74LS04 in a DIP-14: it has no pin 15."
    `);
  });
});

describe("a reading", () => {
  it("tells verdict, arithmetic, source, uncertainty and net", async () => {
    // 1 % of 1.42 V and 2 counts of 1 mV, and half the 10 mV typed.
    expect(await hoverTextAt(diode("| U1 | 3 | 1.4$02 | |"))).toMatchInlineSnapshot(`
      "[1.42]
      **▲ Out of limits**

      - \`1.42 V ± 20 mV > 0.7 V\`
      - Limits: 0.4 V to 0.7 V, a low-power Schottky TTL pin's drop to ground
      - Source: common practice, no source
      - Uncertainty: ± 20 mV, k = 2 (Trial meter)

      Net **PULLED**: U1.3 (2A input), R1.2

      U1 pin 3 (2A) reads 1.42 V; usual is 0.4 V to 0.7 V. Its clamp is likely open or damaged. Compare a sister chip, then replace."
    `);
  });

  it("within limits claims no more than that", async () => {
    const text = await hoverTextAt(diode("| U1 | 1 | $00.581 | |"));
    expect(text).toContain("Not disproved");
    expect(text).toContain("cannot prove");
    expect(text).toMatchInlineSnapshot(`
      "[0.581]
      **○ Within limits**

      U1 pin 1 (1A) reads 0.581 V; usual is 0.4 V to 0.7 V. Not disproved. This reading cannot prove the chip.

      - \`0.4 V ≤ 0.581 V ± 9 mV ≤ 0.7 V\`
      - Limits: 0.4 V to 0.7 V, a low-power Schottky TTL pin's drop to ground
      - Source: common practice, no source
      - Uncertainty: ± 9 mV, k = 2 (Trial meter)"
    `);
  });

  it("not taken yet tells what it should be, anywhere in the empty cell", async () => {
    expect(await hoverTextAt(diode("| U1 | 1 |   $0   | |"))).toMatchInlineSnapshot(`
      "[      ]
      **– Not measured**

      Not measured yet. U1 pin 1 (1A). Diode check: 0.4 V to 0.7 V, a low-power Schottky TTL pin's drop to ground (common practice, no source)."
    `);
  });

  const asked = (heading: string, columns: string, row: string) =>
    world(`## ${heading}\n\n${header(columns)}${rows(row)}`);
  it.each([
    ["crossed out with a stroke", diode("| U1 | 1 | -$0 | |"), "-", "0.4 V to 0.7 V"],
    [
      "of a rail's voltage",
      asked("Supply rails", "Rail | DC | Ripple", "+5 | $0 | "),
      "  ",
      "It should read 4.75 V to 5.25 V",
    ],
    [
      "of a rail's ripple",
      world("## Supply rails\n\n| Rail | DC | Ripple |\n|-|-|-|\n| +5 |  |$0|\n"),
      "",
      "at most 50 mV",
    ],
    [
      "of a rail's resistance",
      asked("Resistance to ground", "Rail | Reading", "5V | $0"),
      "  ",
      "60 Ω to 400 Ω",
    ],
  ])("not taken yet, %s, tells what it should be", async (_which, fixture, on, says) => {
    await checkHover(fixture, on, says);
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
    expect(await hoverTextAt(matrix("| 1 | ok | de$0ad |"))).toMatchInlineSnapshot(`
      "[dead]
      **Start** · row 1 (ROW\\_A), column 2 (COL\\_B)

      The crossing at row 1, column 2 (Start) is dead, and its column answered nowhere else. Test another crossing there before you blame this one."
    `);
  });

  it("of a row by its number with the word before it is told", async () => {
    await checkHover(matrix("| row 2 | $0ok | |"), "ok", "**Tilt**");
  });

  it("with a word that is no result says so", async () => {
    expect(await hoverTextAt(matrix("| 2 | de$0da | |"))).toMatchInlineSnapshot(`
      "[deda]
      **Tilt** · row 2 (ROW\\_B), column 1 (COL\\_A)

      **– Not judged**

      "deda" is not a result. Did you mean dead?"
    `);
  });

  it("that is reserved says first that it must not be bridged", async () => {
    expect(await hoverTextAt(matrix("| ROW_B | ok | $0 |"))).toMatchInlineSnapshot(`
      "[  ]
      **(unnamed)** · row 2 (ROW\\_B), column 2 (COL\\_B)

      ⚠ **Caution:** This crossing is reserved by the board file: do not bridge it."
    `);
  });

  it("that the board does not have is only a reading", async () => {
    expect(await hoverTextAt(matrix("| 9 | $0ok | |"))).toMatchInlineSnapshot(`
      "[ok]
      **– Not judged**

      This is a word, not a figure, so there are no limits for it."
    `);
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
    const text = await hoverTextAt(world("## Diode ch$0eck after repair\n"));
    expect(text).not.toContain("- U1 (");
    expect(text.indexOf("⚠ **Caution:**")).toBeLessThan(text.indexOf("**Steps**"));
    expect(text).toMatchInlineSnapshot(`
      "[Diode check after repair]
      **Diode check** · unpowered

      Compares the drop from ground into each pin of a chip, with the board off and nothing unsoldered. It finds shorted, open and blown inputs and outputs early, before power can do more harm.

      ⚠ **Caution:** A charged capacitor spoils the reading and can destroy the meter. Discharge the supply capacitors through a resistor, not a screwdriver.

      ⚠ **Caution:** Never use the diode range on a powered board.

      ⚠ **Caution:** Boards with a high-voltage display supply hold a charge after switch-off. Wait and measure before touching.

      ⚠ **Caution:** MOS memories and processors dislike static. Wear a wrist strap with a series resistor, on an unpowered board only.

      **Ground is not at the corner here:**
      - U5 (74LS75): ground is pin 12, not pin 8

      **Set-up**
      - Unplug the board from everything, connectors and ribbon cables too.
      - Discharge the supply capacitors and read the rails until they stay below 0.1 V (common practice, no source).
      - Set the meter to its diode range.
      - Put the red lead on ground and keep it there. The black lead goes to the pins.
      - Look up the chip's ground pin. On most 74xx it is the last pin of the first row, but not on 7473, 7475, 7476, 7483, 7490, 7492 and 7493 (data sheets, quoted from memory).

      **Steps**
      1. Touch the black lead to the ground pin first. It should read close to zero, which proves the lead and the joint.
      1. Walk the pins in order and write each drop with all the digits the meter shows.
      1. Hold the probe on the leg of the chip and not on the solder, so that a cracked joint shows.
      1. Read a sister chip of the same type on the same bus where there is one.
      1. Where two pins share a net, read both. They should agree within a few hundredths of a volt (common practice, no source).

      **How to read it**
      - A bipolar TTL signal pin usually drops 0.4 V to 0.7 V (common practice, no source).
      - Near zero on a signal pin is a short to ground, or a pin that the board ties to ground. Look at the drawing before blaming the chip.
      - Overload on a signal pin is an open bond, an open track or a lifted joint. A pin that the maker left unconnected reads overload too.
      - Two pins of one net that differ point at the copper between them, not at a chip.
      - One pin that stands apart from seven alike is the one to look at, even inside the usual window.
      - The supply pins read the whole board's rail. They should all agree with one another.

      **What it cannot tell**
      - A reading can disprove a part. It never proves one, since nothing here runs at speed or at temperature.
      - It cannot tell which of several chips on one bus holds the line down. Lift a leg or cut the search in half.
      - It says nothing about timing, memory contents or marginal levels.
      - Meters differ in test current, so compare only readings taken with the same meter.

      *Source: common practice, no source*"
    `);
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

  it("explains a key by what may stand there", async () => {
    expect(await hoverTextAt(front("board: trial\nst$0age: repairing"))).toMatchInlineSnapshot(`
      "[stage]
      **Stage**

      Where the job stands.

      One of: \`received\`, \`diagnosing\`, \`waiting-for-approval\`, \`waiting-for-parts\`, \`repairing\`, \`proving\`, \`returned\`, \`scrapped\`"
    `);
  });

  it("explains a key's value as the key", async () => {
    await checkHover(front("board: trial\nstage: rep$0airing"), "repairing", "One of: `received`");
  });

  it("tells a board, its cautions first", async () => {
    expect(await hoverTextAt(front("board: tr$0ial"))).toMatchInlineSnapshot(`
      "[trial]
      **Trial board**

      13 parts, 6 nets, 4 rails ↵
      Revisions: A

      ⚠ **Caution:** Clear the cabinet of mains first."
    `);
  });

  it("tells a revision in the board file's words, as text", async () => {
    expect(await hoverTextAt(front("board: trial\nrevision: $0A"))).toMatchInlineSnapshot(`
      "[A]
      **Revision A**: first \\<i\\>issue\\</i\\>"
    `);
  });

  it("tells a set of ROM images by its figures", async () => {
    expect(await hoverTextAt(front("board: trial\nrom-set: r$01"))).toMatchInlineSnapshot(`
      "[r1]
      **First release**

      - U2: CRC-32 \`cbf43926\`"
    `);
  });

  it("tells a meter's accuracy range by range", async () => {
    expect(await hoverTextAt(front("board: trial\nmeter: be$0nch"))).toMatchInlineSnapshot(`
      "[bench]
      **Trial meter**

      | Function | Range | Accuracy |
      |---|---|---|
      | diode | 2 V | ± (1 % + 2 counts) |
      | dc-volts | 2 V | ± (0.5 % + 2 counts) |
      | dc-volts | 20 V | ± (0.5 % + 2 counts) |
      | ac-volts | 2 V | ± (1 % + 10 counts) |
      | ohms | 2 kohm | ± (1 % + 2 counts) |
      | ohms | 20 Mohm | accuracy not given |"
    `);
  });

  it("tells a symptom's circuits with their parts, and below them who is suspected", async () => {
    const text = await hoverTextAt(front("board: trial\nsymptoms: [bl$0ank, own words]"));
    const [symptom, suspects] = sectionsOf(text);
    expect(symptom).toMatchInlineSnapshot(`
      "[blank]
      **Display stays blank**

      Display shows: \\<nothing\\>

      Circuits to look at:
      - **Gates** (see\\_also): U1

      look at reset"
    `);
    expect(suspects).toMatch(/^\*\*Suspects\*\*, likeliest first\. Parts not listed are not cleared\./);
  });

  it("tells of a symptom in own words nothing of the others", async () => {
    const own = await hoverTextAt(front("board: trial\nsymptoms: [blank, own wo$0rds]"));
    expect(own).not.toContain("Display stays blank");
  });
});

describe("other words", () => {
  it("of a header are told with what else the column is called", async () => {
    expect(
      await hoverTextAt(world("## Diode check\n\n| Ref | Pin | Dr$0op (mV) |\n|-|-|-|\n")),
    ).toMatchInlineSnapshot(`
      "[Drop (mV)]
      **Diode check**: drop, in mV where a cell names no unit

      Also written: Reading, Value, Diode, Forward drop, Measured, Vf, To ground"
    `);
  });

  it("of a header that nothing is read from say so", async () => {
    expect(
      await hoverTextAt(world("## Diode check\n\n| Ref | Pin | Reading | My$0nd |\n|-|-|-|-|\n")),
    ).toMatchInlineSnapshot(`
      "[Mynd]
      This column is not one the diode check knows; its cells are not read."
    `);
  });

  it("are nets by their name", async () => {
    expect(await hoverTextAt(world("The line HEADER$0 is dead."))).toMatchInlineSnapshot(`
      "[HEADER]
      Net **HEADER**

      - J1.A3
      - U1.11 (5A input)"
    `);
  });

  it("are rails by their voltage", async () => {
    expect(
      await hoverTextAt(world("## Supply rails\n\n| Rail | DC |\n|-|-|\n| 5$0v | 5 |\n")),
    ).toMatchInlineSnapshot(`
      "[5v]
      **+5V**: 5 V ± 5 %

      Ripple at most 50 mV.

      Load: 1.5 A.

      Measured at TP1.

      *Source: invented*"
    `);
  });

  it("are parts that were fitted", async () => {
    expect(
      await hoverTextAt(world("## Parts fitted\n\n| Ref | Part |\n|-|-|\n| U1 | 74H$0CT04 |\n")),
    ).toMatchInlineSnapshot(`
      "[74HCT04]
      **74HCT04** Hex inverter

      DIP-14 · High-speed CMOS with TTL input levels

      **Substitutes**
      - 74LS04: LS outputs sink 8 mA where standard TTL sinks 16 mA (from memory): count the loads on each output first.

      *Source: from memory; pin numbers, supply and direction compared with the KiCad symbol library*"
    `);
  });
});
