import { describe, expect, test } from "vitest";
import { checkOf } from "../../../server/src/checks/registry";
import { board } from "./board";
import { hover } from "./support";

const at = (before: string, after: string, more = "") =>
  board(more).replace(before + after, `${before}$0${after}`);

describe("keys of the format", () => {
  test("title, description, what may stand there, whether it must", async () => {
    const kind = await hover(board("matrices:\n  sw: { ki$0nd: switch }\n"));
    expect(kind?.on).toBe("kind");
    expect(kind?.markdown).toContain("**Kind**");
    expect(kind?.markdown).toContain("What stands at the crossings.");
    expect(kind?.markdown).toContain("One of: `switch`, `lamp`");
    expect(kind?.markdown).toContain("Required.");
    const tolerance = await hover(at("tol", "erance"));
    expect(tolerance?.markdown).toContain("A quantity: ratio or voltage.");
    const ripple = await hover(at("rip", "ple"));
    expect(ripple?.markdown).not.toContain("Required");
  });

  test("a plain value tells of its key, a quantity what it comes to", async () => {
    expect((await hover(at("title: Test", " board")))?.markdown).toContain("The board's name in words.");
    expect((await hover(at("50 ", "mV")))?.markdown).toContain("`50 mV` is 0.05 V.");
    expect((await hover(at("5 ", "V,")))?.markdown).not.toContain("is 5 V");
  });

  test("nothing on blanks, comments and keys the format does not have", async () => {
    expect(await hover(board("\n$0\n"))).toBeUndefined();
    expect(await hover(board("# U1$04\n"))).toBeUndefined();
    expect(await hover(board("nonsense: { U1$04: 3 }\n"))).toBeUndefined();
  });
});

describe("things of the board", () => {
  test("a part with its device, circuit, pins and nets", async () => {
    const found = await hover(at("  U1", "4: {"));
    expect(found?.on).toBe("U14");
    expect(found?.markdown).toContain("**U14** 74LS04 hex inverter");
    expect(found?.markdown).toContain("Circuit: Reset circuit");
    expect(found?.markdown).toContain("| 2 | 1Y | output | ROW\\_1 |");
    const expected = await hover(board("expected:\n  - { procedure: diode-check, ref: U$014 }\n"));
    expect(expected?.markdown).toBe(found?.markdown);
  });

  test("a net's entry: the pin, what it is, everything on the net", async () => {
    const found = await hover(at("[U14.", "2"));
    expect(found?.on).toBe("U14.2");
    expect(found?.markdown).toContain("**U14 pin 2** 1Y, output");
    expect(found?.markdown).toContain("Net **ROW\\_1** with U15.3 (1CLK input)");
    const resistor = await hover(at("R12", ".1"));
    expect(resistor?.markdown).toContain("**R12** 4k7");
    expect(resistor?.markdown).toContain("- U14.14 (VCC supply)");
    const wrong = await hover(board().replace("[U14.2,", "[U14.2$03,"));
    expect(wrong?.markdown).toContain("it has no pin 23");
  });

  test("an expected reading's pin is the part's beside it", async () => {
    const found = await hover(board("expected:\n  - { procedure: diode-check, ref: U14, pin: 2$0 }\n"));
    expect(found?.markdown).toContain("**U14 pin 2** 1Y, output");
  });

  test("a net, and that it is ground or a rail", async () => {
    expect((await hover(at("  GN", "D: [")))?.markdown).toMatch(
      /Net \*\*GND\*\*[\s\S]*- U15\.7 \(GND ground\)[\s\S]*Ground\./,
    );
    expect((await hover(at("net: V", "CC")))?.markdown).toContain("Carries +5V.");
  });

  test("a circuit with its parts and the symptoms that lead to it", async () => {
    const text = board("symptoms:\n  blank: { title: Display blank, circuits: [res$0et] }\n");
    const found = await hover(text);
    expect(found?.markdown).toContain("**Reset circuit**");
    expect(found?.markdown).toContain("look here first");
    expect(found?.markdown).toContain("Symptoms: Display blank");
    expect(found?.markdown).toContain("- **R12** 4k7\n- **U14** 74LS04 hex inverter");
  });

  test("rail, symptom, revision, device, procedure", async () => {
    expect((await hover(at('"+5', 'V"')))?.markdown).toContain("**+5V**: 5 V ± 5 %");
    const symptom = await hover(board("symptoms:\n  bl$0ank: { title: Display blank, circuits: [reset] }\n"));
    expect(symptom?.markdown).toContain("Circuits to look at:\n- **Reset circuit**");
    expect((await hover(board("rom-sets:\n  one: { revision: B$0 }\n")))?.markdown).toContain(
      "battery moved",
    );
    expect((await hover(at("device: 74LS", "04")))?.markdown).toMatch(
      /\*\*74LS04\*\* Hex inverter[\s\S]*Source:/,
    );
    const procedure = await hover(board("expected:\n  - { procedure: diode$0-check }\n"));
    expect(procedure?.markdown).toContain("**What it cannot tell**");
  });

  test("a modification, cautions before its steps", async () => {
    const found = await hover(
      board(
        "modifications:\n  m$0: { title: Move it, steps: [Cut the track], parts: [wire], defeats: [Slam] }\n",
      ),
    );
    expect(found?.markdown).toContain("Puts out of action: Slam");
    const caution = found?.markdown.indexOf("Clear the cabinet of mains") ?? -1;
    expect(caution).toBeGreaterThan(0);
    expect(found?.markdown.indexOf("1. Cut the track")).toBeGreaterThan(caution);
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

  test("a matrix as a table, and a cell with its nets", async () => {
    const whole = await hover(board(matrix("Tilt").replace("sw:", "s$0w:")));
    expect(whole?.markdown).toContain("| **ROW\\_2** | Tilt (reserved) |  |");
    const cell = await hover(board(matrix("Ti$0lt")));
    expect(cell?.markdown).toContain("Row 2, net ROW\\_2  \nColumn 1, net COL\\_1");
    expect(cell?.markdown).toContain("Reserved: must not be exercised.");
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
    const found = await hover(shop.replace("  bench:", "  ben$0ch:"));
    expect(found?.markdown).toContain("| diode | 2 V | ± (1 % + 2 counts) |");
  });

  test("stock: the device, how many and where, and which boards take it", async () => {
    const found = await hover(shop.replace("part: 74", "part: 7$04"));
    expect(found?.markdown).toContain("**74LS04** Hex inverter");
    expect(found?.markdown).toMatch(/6 in stock · 0\\?\.65 EUR · drawer 3/);
    expect(found?.markdown).toContain("- Test board: U14");
  });

  test("a currency by name", async () => {
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
    const found = await hover(board(CODES.replace('"E 3"', '"E$0 3"')));
    expect(found?.on).toBe('"E 3"');
    expect(found?.markdown).toMatch(/^\*\*E 3\*\* work memory\n\nPoints to these/);
    expect(found?.markdown).toMatch(/- \*\*U15\*\* 74LS74.*\n- \*\*U99\*\* is not among the parts/);
    expect(found?.markdown).toContain("Circuits: Reset circuit");
    expect(found?.markdown).toContain("Run it warm too.");
  });

  test("one that says there was no fault clears nothing, one without parts says so", async () => {
    const pass = await hover(board(CODES.replace('"00"', '"0$00"')));
    expect(pass?.markdown).toContain("It disproves nothing that it does not reach.");
    expect((await hover(board(CODES.replace('"E 4"', '"E $04"'))))?.markdown).toContain("Points to no part.");
  });

  test("a part in its list is that part, a key tells what it is for", async () => {
    const part = await hover(board(CODES.replace("[U15,", "[U1$05,")));
    expect(part?.markdown).toContain("**U15** 74LS74");
    const key = await hover(board(CODES.replace("pass:", "pa$0ss:")));
    expect(key?.markdown).toContain("One of: `true`, `false`");
  });
});
