import { describe, expect, test } from "vitest";
import { checkOf } from "../../../server/src/checks/registry";
import { board } from "./board";
import { hover, hoverTextAt } from "./support";

const at = (before: string, after: string, more = "") =>
  board(more).replace(before + after, `${before}$0${after}`);

describe("keys of the format", () => {
  test("title, description, what may stand there, whether it must", async () => {
    expect(await hoverTextAt(board("matrices:\n  sw: { ki$0nd: switch }\n"))).toMatchInlineSnapshot(`
      "[kind]
      **Kind**

      What stands at the crossings.

      One of: \`switch\`, \`lamp\`

      Required."
    `);
  });

  test("a quantity by what it may be of", async () => {
    expect(await hoverTextAt(at("tol", "erance"))).toMatchInlineSnapshot(`
      "[tolerance]
      **Tolerance**

      How far it may be off either way: \`5 %\` of nominal, or \`0.25 V\`; where the two ways differ, \`-30 % to +50 %\`.

      A quantity: ratio or voltage.

      Required."
    `);
  });

  test("one that may be left out is not called required", async () => {
    expect(await hoverTextAt(at("rip", "ple"))).toMatchInlineSnapshot(`
      "[ripple]
      **Ripple**

      Most ripple allowed, like \`50 mV\`.

      A quantity: voltage."
    `);
  });

  test("a plain value tells of its key", async () => {
    expect(await hoverTextAt(at("title: Test", " board"))).toMatchInlineSnapshot(`
      "[Test board]
      **Title**

      The board's name in words."
    `);
  });

  test("a quantity tells what it comes to where that is written otherwise", async () => {
    expect((await hover(at("50 ", "mV")))?.markdown).toContain("`50 mV` is 0.05 V.");
    expect((await hover(at("5 ", "V,")))?.markdown).not.toContain("is 5 V");
  });

  test.each([
    ["an empty line", "\n$0\n"],
    ["a comment", "# U1$04\n"],
    ["a key the format does not have", "nonsense: { U1$04: 3 }\n"],
  ])("nothing on %s", async (_what, more) => {
    expect(await hover(board(more))).toBeUndefined();
  });
});

describe("things of the board", () => {
  test("a part with its device, circuit, pins and nets, wherever it is named", async () => {
    const part = await hoverTextAt(at("  U1", "4: {"));
    expect(part).toMatchInlineSnapshot(`
      "[U14]
      **U14** 74LS04 hex inverter

      Circuit: Reset circuit · Place on the board: C4 ↵
      soldered in

      | Pin | Name | Direction | Net |
      |---|---|---|---|
      | 1 | 1A | input |  |
      | 2 | 1Y | output | ROW\\_1 |
      | 3 | 2A | input |  |
      | 4 | 2Y | output |  |
      | 5 | 3A | input |  |
      | 6 | 3Y | output |  |
      | 7 | GND | ground | GND |
      | 8 | 4Y | output |  |
      | 9 | 4A | input |  |
      | 10 | 5Y | output |  |
      | 11 | 5A | input |  |
      | 12 | 6Y | output |  |
      | 13 | 6A | input |  |
      | 14 | VCC | supply | VCC |"
    `);
    expect(await hoverTextAt(board("expected:\n  - { procedure: diode-check, ref: U$014 }\n"))).toBe(part);
  });

  test("a net's entry: the pin, what it is, everything on the net", async () => {
    expect(await hoverTextAt(at("[U14.", "2"))).toMatchInlineSnapshot(`
      "[U14.2]
      **U14 pin 2** 1Y, output · 74LS04

      Net **ROW\\_1** with U15.3 (1CLK input)

      Diode check: 0.4 V to 0.7 V, a low-power Schottky TTL pin's drop to ground (common practice, no source)."
    `);
  });

  test("a net's entry of a part without pin names: the part, and everything on the net", async () => {
    expect(await hoverTextAt(at("R12", ".1"))).toMatchInlineSnapshot(`
      "[R12.1]
      **R12** 4k7

      Circuit: Reset circuit

      Net **VCC**

      - U14.14 (VCC supply)
      - R12.1
      - TP1.1"
    `);
  });

  test("a net's entry with a pin that the package does not have says so", async () => {
    expect(await hoverTextAt(board().replace("[U14.2,", "[U14.2$03,"))).toMatchInlineSnapshot(`
      "[U14.23]
      **U14** is a 74LS04 in a DIP-14: it has no pin 23."
    `);
  });

  test("an expected reading's pin is the part's beside it", async () => {
    const found = await hover(board("expected:\n  - { procedure: diode-check, ref: U14, pin: 2$0 }\n"));
    expect(found?.markdown).toContain("**U14 pin 2** 1Y, output");
  });

  test("a net that is ground", async () => {
    expect(await hoverTextAt(at("  GN", "D: ["))).toMatchInlineSnapshot(`
      "[GND]
      Net **GND**

      - U14.7 (GND ground)
      - U15.7 (GND ground)

      Ground."
    `);
  });

  test("a net that carries a rail", async () => {
    expect(await hoverTextAt(at("net: V", "CC"))).toMatchInlineSnapshot(`
      "[VCC]
      Net **VCC**

      - U14.14 (VCC supply)
      - R12.1
      - TP1.1

      Carries +5V."
    `);
  });

  test("a circuit with its parts and the symptoms that lead to it", async () => {
    const text = board("symptoms:\n  blank: { title: Display blank, circuits: [res$0et] }\n");
    expect(await hoverTextAt(text)).toMatchInlineSnapshot(`
      "[reset]
      **Reset circuit**

      look here first

      Symptoms: Display blank

      - **R12** 4k7
      - **U14** 74LS04 hex inverter"
    `);
  });

  test("a rail", async () => {
    expect(await hoverTextAt(at('"+5', 'V"'))).toMatchInlineSnapshot(`
      "["+5V"]
      **+5V**: 5 V ± 5 %

      Ripple at most 50 mV.

      Measured at TP1.

      *Source: invented*"
    `);
  });

  test("a symptom", async () => {
    const text = board("symptoms:\n  bl$0ank: { title: Display blank, circuits: [reset] }\n");
    expect(await hoverTextAt(text)).toMatchInlineSnapshot(`
      "[blank]
      **Display blank**

      Circuits to look at:
      - **Reset circuit** (look here first): R12, U14"
    `);
  });

  test("a revision", async () => {
    expect(await hoverTextAt(board("rom-sets:\n  one: { revision: B$0 }\n"))).toMatchInlineSnapshot(`
      "[B]
      **Revision B**: battery moved"
    `);
  });

  test("a device, with its source", async () => {
    expect((await hover(at("device: 74LS", "04")))?.markdown).toMatch(
      /\*\*74LS04\*\* Hex inverter[\s\S]*Source:/,
    );
  });

  test("a procedure, with what it cannot tell", async () => {
    const procedure = await hover(board("expected:\n  - { procedure: diode$0-check }\n"));
    expect(procedure?.markdown).toContain("**What it cannot tell**");
  });

  test("a modification, cautions before its steps", async () => {
    const found = await hoverTextAt(
      board(
        "modifications:\n  m$0: { title: Move it, steps: [Cut the track], parts: [wire], defeats: [Slam] }\n",
      ),
    );
    const caution = found.indexOf("Clear the cabinet of mains");
    expect(caution).toBeGreaterThan(0);
    expect(found.indexOf("1. Cut the track")).toBeGreaterThan(caution);
    expect(found).toMatchInlineSnapshot(`
      "[m]
      **Move it**

      Parts: wire ↵
      Puts out of action: Slam

      ⚠ **Caution:** Clear the cabinet of mains before unplugging the board.

      1. Cut the track"
    `);
  });

  const matrix = (cell: string) => `matrices:
  sw:
    kind: switch
    title: Switches
    rows: [ROW_1, ROW_2]
    columns: [COL_1, COL_2]
    cells:
      - [Coin, Start]
      - [${cell}, ~]
    reserved: [[2, 1]]
`;

  test("a matrix as a table", async () => {
    expect(await hoverTextAt(board(matrix("Tilt").replace("sw:", "s$0w:")))).toMatchInlineSnapshot(`
      "[sw]
      **Switches** · switch matrix, 2 rows by 2 columns

      | | COL\\_1 | COL\\_2 |
      |---|---|---|
      | **ROW\\_1** | Coin | Start |
      | **ROW\\_2** | Tilt (reserved) |  |"
    `);
  });

  test("a matrix's cell with its nets, and that it is reserved", async () => {
    expect(await hoverTextAt(board(matrix("Ti$0lt")))).toMatchInlineSnapshot(`
      "[Tilt]
      **Tilt (reserved)** · Switches

      Row 2, net ROW\\_2 ↵
      Column 1, net COL\\_1

      Reserved: must not be exercised."
    `);
  });

  test("nothing known of a name leaves what the format says of the place", async () => {
    expect(
      (await hover(at("circuit: res", "et,").replace("circuit: reset,", "circuit: resett,")))?.markdown,
    ).toBeDefined();
    const found = await hover(board().replace("circuit: display", "circuit: no$0thing"));
    expect(found?.markdown).toContain("Circuit it belongs to");
  });
});

describe("shop and device files", () => {
  const shop = `//- one.board.yaml
${board()}//- mendlog.shop.yaml
mendlog-shop: 1
name: Bench
currency: EUR
meters:
  bench:
    title: Bench meter
    ranges:
      - { function: diode, range: 2 V, accuracy: { reading: 1 %, counts: 2 } }
stock:
  - { part: 74LS04, quantity: 6, price: "0.65", location: drawer 3 }
`;

  test("a meter with the accuracy of its ranges", async () => {
    expect(await hoverTextAt(shop.replace("  bench:", "  ben$0ch:"))).toMatchInlineSnapshot(`
      "[bench]
      **Bench meter**

      | Function | Range | Accuracy |
      |---|---|---|
      | diode | 2 V | ± (1 % + 2 counts) |"
    `);
  });

  test("stock: the device, how many and where, and which boards take it", async () => {
    expect(await hoverTextAt(shop.replace("part: 74", "part: 7$04"))).toMatchInlineSnapshot(`
      "[74LS04]
      **74LS04** Hex inverter

      DIP-14 · Low-power Schottky TTL

      **Substitutes**
      - 74HCT04: CMOS: every input must be driven, and the outputs sink only 4 to 6 mA (from memory), too little for several standard TTL loads.

      *Source: from memory; pin numbers, supply and direction compared with the KiCad symbol library*

      6 in stock · 0.65 EUR · drawer 3

      Fits on
      - Test board: U14"
    `);
  });

  test("a currency by its name in words", async () => {
    expect((await hover(shop.replace("EUR", "E$0UR")))?.markdown).toBe("**EUR** Euro");
  });

  test("a check: what it is and why it matters, and what a number of it is", async () => {
    const checks = `${shop}checks:\n  net-disagreement: { margin: 2 }\n`;
    const found = await hover(checks.replace("net-dis", "net-$0dis"));
    const check = checkOf("net-disagreement");
    expect(found?.markdown).toContain(check?.title);
    expect(found?.markdown).toContain(check?.why);
    expect((await hover(checks.replace("margin", "mar$0gin")))?.markdown).toContain(
      check?.options?.[0]?.description,
    );
  });

  test("a device's pin with its gates, from the list and from the gate", async () => {
    const device = (pin: string, input: string) => `//- own.device.yaml
mendlog-device: 1
id: X1
title: Buffer
pins:
  ${pin}: { name: A, direction: input }
  2: { name: Y, direction: output }
gates:
  - { name: a, function: BUFFER, inputs: [${input}], outputs: [2] }
`;
    const markdown = "**Pin 1** A, input\n\nInput of BUFFER gate a";
    expect((await hover(device("$01", "1")))?.markdown).toBe(markdown);
    expect((await hover(device("1", "1$0")))?.markdown).toBe(markdown);
  });
});

describe("a file that is broken elsewhere", () => {
  test.each([
    ["no id", (text: string) => text.replace("id: test\n", "")],
    ["a bracket never closed above", (text: string) => text.replace("grounds: [GND]", "grounds: [GND")],
    ["a key without a colon above", (text: string) => text.replace("revisions:", "revis\nrevisions:")],
    ["the part's own braces never closed", (text: string) => text.replace("circuit: display }", "circuit: ")],
    ["CRLF", (text: string) => text.replaceAll("\n", "\r\n")],
    ["a byte order mark", (text: string) => `\uFEFF${text}`],
  ])("%s", async (_, breakIt) => {
    const found = await hover(breakIt(at("[U14.", "2")));
    expect(found?.on).toBe("U14.2");
    expect(found?.markdown).toContain("**U14 pin 2** 1Y, output");
  });
});

describe("codes of a test program", () => {
  const CODES = `codes:
  "E 3": { title: work memory, parts: [U15, U99], circuits: [reset], note: Run it warm too. }
  "00": { title: no fault, pass: true }
  "E 4": { title: sound }
`;

  test("a code with the parts that it points to in its own order, and its circuits", async () => {
    expect(await hoverTextAt(board(CODES.replace('"E 3"', '"E$0 3"')))).toMatchInlineSnapshot(`
      "["E 3"]
      **E 3** work memory

      Points to these, or to what feeds or selects them:

      - **U15** 74LS74 dual D flip-flop with preset and clear
      - **U99** is not among the parts

      Circuits: Reset circuit

      Run it warm too."
    `);
  });

  test("one that says there was no fault clears nothing", async () => {
    expect(await hoverTextAt(board(CODES.replace('"00"', '"0$00"')))).toMatchInlineSnapshot(`
      "["00"]
      **00** no fault

      The program came to its end. It disproves nothing that it does not reach."
    `);
  });

  test("one without parts says so", async () => {
    expect(await hoverTextAt(board(CODES.replace('"E 4"', '"E $04"')))).toMatchInlineSnapshot(`
      "["E 4"]
      **E 4** sound

      Points to no part."
    `);
  });

  test("a part in its list is that part", async () => {
    const part = await hover(board(CODES.replace("[U15,", "[U1$05,")));
    expect(part?.markdown).toContain("**U15** 74LS74");
  });

  test("a key tells what it is for", async () => {
    expect(await hoverTextAt(board(CODES.replace("pass:", "pa$0ss:")))).toMatchInlineSnapshot(`
      "[pass]
      **Pass**

      True for the code of a program that came to its end without a fault.

      One of: \`true\`, \`false\`"
    `);
  });
});
