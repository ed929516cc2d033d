import { describe, expect, test } from "vitest";
import { CHECKS } from "../../../server/src/checks/registry";
import { rawSchemaAt } from "../../../server/src/knowledge/schema-walk";
import { board } from "./board";
import { completions, labels, taking } from "./support";

describe("names of the same file", () => {
  test.each([
    ["in brackets", "symptoms:\n  blank: { title: B, circuits: [$0] }\n"],
    ["in brackets never closed", "symptoms:\n  blank: { title: B, circuits: [re$0\nproving:\n"],
    ["behind a dash", "symptoms:\n  blank:\n    title: B\n    circuits:\n      - $0\n"],
    ["straight behind a dash", "symptoms:\n  blank:\n    title: B\n    circuits:\n      -$0\n"],
    ["behind a dash, a word begun", "symptoms:\n  blank:\n    title: B\n    circuits:\n      - re$0\n"],
  ])("circuits %s", async (_, more) => {
    expect(await labels(board(more))).toEqual(["reset", "display"]);
  });

  test("a list is begun where there is none yet", async () => {
    const at = (rest: string) => board(`symptoms:\n  blank:\n    title: B\n    circuits:${rest}\n`);
    expect(await taking(at(" $0"), "reset")).toBe("    circuits: [reset]");
    expect(await taking(at(" re$0"), "reset")).toBe("    circuits: [reset]");
    expect(await taking(at("$0"), "reset")).toBe("    circuits: [reset]");
    expect(await taking(at("\n      $0"), "reset")).toBe("      - reset");
    expect(await taking(at("\n      -$0"), "reset")).toBe("      - reset");
    expect(await taking(at("\n      - re$0set"), "display")).toBe("      - display");
  });

  test("a list does not offer what it holds", async () => {
    expect(await labels(board("symptoms:\n  blank: { title: B, circuits: [reset, $0] }\n"))).toEqual([
      "display",
    ]);
    expect(await labels(board("symptoms:\n  blank: { title: B, circuits: [re$0set] }\n"))).toEqual([
      "reset",
      "display",
    ]);
  });

  test("nets in matrices, grounds and rails", async () => {
    expect(await labels(board("matrices:\n  sw: { kind: switch, rows: [ROW_1, $0] }\n"))).toEqual([
      "GND",
      "VCC",
    ]);
    expect(await labels(board().replace("grounds: [GND]", "grounds: [$0]"))).toEqual(["GND", "VCC", "ROW_1"]);
    const items = await completions(board().replace("net: VCC", "net: $0"));
    expect(items.map(({ description }) => description)).toContain("U14.14 R12.1 TP1.1");
  });

  test("rails keep the quotes they were begun with", async () => {
    const at = (typed: string) => board(`expected:\n  - { procedure: rails, rail: ${typed} }\n`);
    expect(await taking(at("$0"), "+5V")).toBe("  - { procedure: rails, rail: +5V }");
    expect(await taking(at('"+$0"'), "+5V")).toBe('  - { procedure: rails, rail: "+5V" }');
    expect((await completions(at('"+$0"')))[0]?.filterText).toBe('"+5V');
    expect(await taking(at("'+$0'"), "+5V")).toBe("  - { procedure: rails, rail: '+5V' }");
  });

  test("revisions, matrices, modifications other than itself, test points", async () => {
    expect(await labels(board("rom-sets:\n  one: { title: One, revision: $0 }\n"))).toEqual(["A", "B"]);
    const matrix = "matrices:\n  sw: { kind: switch, title: S, rows: [], columns: [] }\n";
    expect(await labels(board(`${matrix}proving:\n  - { id: x, matrix: $0 }\n`))).toEqual(["sw"]);
    expect(
      await labels(board("modifications:\n  a: { title: A, requires: [$0] }\n  b: { title: B }\n")),
    ).toEqual(["b"]);
    expect(await labels(board().replace("test-point: TP1", "test-point: $0"))).toEqual(["TP1"]);
  });

  test("parts by designator; memories first where an image is described", async () => {
    expect(await labels(board("expected:\n  - { ref: $0 }\n"))).toEqual([
      "R12",
      "SW1",
      "TP1",
      "U8",
      "U14",
      "U15",
    ]);
    expect((await labels(board("rom-sets:\n  one: { images: [{ ref: $0 }] }\n")))[0]).toBe("U8");
  });
});

describe("pins", () => {
  const net = (typed: string) => board().replace("ROW_1: [U14.2, U15.3]", `ROW_1: [U14.2, ${typed}`);

  test("parts before the dot, and with it", async () => {
    const items = await completions(net("$0]"));
    expect(items.map(({ label }) => label)).toEqual(["R12.", "SW1.", "TP1.", "U8.", "U14.", "U15."]);
    expect(items[4]).toMatchObject({ newText: "U14.", description: "74LS04 hex inverter · Reset circuit" });
  });

  test("behind `U14.` its pins, those on no net yet first, named and with their direction", async () => {
    const items = await completions(net("U14.$0]"));
    expect(items.slice(0, 3).map(({ label, description }) => [label, description])).toEqual([
      ["U14.1", "1A input"],
      ["U14.3", "2A input"],
      ["U14.4", "2Y output"],
    ]);
    expect(items.slice(-2).map(({ label, description }) => [label, description])).toEqual([
      ["U14.7", "GND ground · net GND"],
      ["U14.14", "VCC supply · net VCC"],
    ]);
    expect(items.find(({ label }) => label === "U14.3")?.filterText).toBe("U14.3 2A");
  });

  test.each([
    ["never closed", "U14.$0"],
    ["a digit begun", "U14.1$0]"],
    ["with nothing behind the bracket but another net", "U14.$0\n  ROW_9: [U15.1]"],
  ])("%s", async (_, typed) => {
    expect(await labels(net(typed))).toContain("U14.3");
  });

  test("a rail's net takes the supply pin first, a ground net the ground pin", async () => {
    expect((await labels(board().replace("VCC: [U14.14,", "VCC: [U15.$0,")))[0]).toBe("U15.14");
    const ground = board().replace("GND: [U14.7, U15.7]", "GND: [U14.7, U8.$0]");
    expect((await completions(ground))[0]?.description).toMatch(/ground$/);
  });

  test("the pin typed comes first, though it is on a net and longer numbers are not", async () => {
    expect((await labels(net("U14.1$0]")))[0]).toBe("U14.1");
    expect((await labels(net("U14.7$0]")))[0]).toBe("U14.7");
  });

  test("a part nobody knows more of has the pins of its package", async () => {
    const text = net("U9.$0]").replace("  R12:", "  U9: { device: XR-9, package: DIP-8 }\n  R12:");
    expect(await labels(text)).toEqual(Array.from({ length: 8 }, (_, at) => `U9.${at + 1}`));
    const taken = text.replace("VCC: [", "VCC: [U9.1, ");
    expect((await completions(taken)).at(-1)).toMatchObject({ label: "U9.1", description: "net VCC" });
    expect(await labels(text.replace("DIP-8", "TO-92"))).toEqual([]);
  });

  test("an expected reading's pin is one of the part beside it", async () => {
    const items = await completions(board("expected:\n  - { procedure: diode-check, ref: U14, pin: $0 }\n"));
    expect(items).toHaveLength(14);
    expect(items[1]).toMatchObject({ label: "2", newText: "2", description: "1Y output · net ROW_1" });
    expect(await labels(board("expected:\n  - { procedure: diode-check, ref: R12, pin: $0 }\n"))).toEqual([]);
  });

  test("a part that is itself half typed still has its pins", async () => {
    const text = net("U14.$0]").replace(
      "U14: { device: 74LS04, circuit: reset,",
      "U14: { device: 74LS04, cir,",
    );
    expect(await labels(text)).toContain("U14.3");
  });
});

describe("devices, procedures and words", () => {
  test("devices by what is typed, with title, family and package", async () => {
    const items = await completions(board().replace("device: 74LS74", "device: 74LS7$0"));
    expect(items.map(({ label }) => label)).toContain("74LS74");
    expect(items.every(({ label }) => label.startsWith("74LS7"))).toBe(true);
    const found = items.find(({ label }) => label === "74LS74");
    expect(found?.description).toContain("DIP-14");
    expect(found?.documentation).toContain("Source:");
  });

  test("with nothing typed the board's own come first, and quotes are kept", async () => {
    const found = await labels(board().replace("device: 74LS74", "device: $0"));
    expect(found.slice(0, 2)).toEqual(["2716", "74LS04"]);
    expect(await taking(board().replace('"2716"', '"27$0"'), "2732")).toContain('{ device: "2732", circuit');
  });

  test("the very number first, then the board's own, then classic numbers before graded ones", async () => {
    const typing = (typed: string) => labels(board().replace("device: 74LS74", `device: ${typed}$0`));
    const found = await typing("68");
    expect(found.slice(0, 4)).toEqual(["6800", "6801", "6802", "6803"]);
    expect(found.indexOf("68A00")).toBeGreaterThan(found.indexOf("6889"));
    expect((await typing("74")).slice(0, 3)).toEqual(["74LS04", "7400", "7401"]);
    expect((await typing("7404"))[0]).toBe("7404");
    expect((await typing("74LS0")).slice(0, 3)).toEqual(["74LS04", "74LS00", "74LS01"]);
  });

  test("procedures with what they are for", async () => {
    const items = await completions(board("expected:\n  - { procedure: dio$0 }\n"));
    expect(items.find(({ label }) => label === "diode-check")?.documentation).toContain("**Caution:**");
  });

  test("fixed words, yes and no, sources, the usual package", async () => {
    expect(await labels(board("matrices:\n  sw: { kind: $0 }\n"))).toEqual(["switch", "lamp"]);
    expect(await labels(board().replace("location: C4", "socketed: $0"))).toEqual(["true", "false"]);
    expect(await taking(board("expected:\n  - { source: $0 }\n"), "common practice, no source")).toBe(
      '  - { source: "common practice, no source" }',
    );
    expect(await taking(board("source: $0\n"), "common practice, no source")).toBe(
      "source: common practice, no source",
    );
    expect((await labels(board().replace("location: C4", "package: $0")))[0]).toBe("DIP-14");
  });

  test("a quantity's units once there is a number", async () => {
    expect(await labels(board().replace("nominal: 5 V", "nominal: 5$0"))).toEqual(["5 V", "5 mV"]);
    expect(await labels(board().replace("ripple: 50 mV", "ripple: 50$0"))).toEqual(["50 mV", "50 V"]);
    expect(await labels(board().replace("tolerance: 5 %", "tolerance: 5 $0"))).toEqual([
      "5 %",
      "5 V",
      "5 mV",
    ]);
    expect(await labels(board().replace("nominal: 5 V", "nominal: $0"))).toEqual([]);
    const low = "expected:\n  - { procedure: resistance-to-ground, low: 60$0 }\n";
    expect(await labels(board(low))).toEqual(["60 Ω", "60 kΩ", "60 MΩ"]);
  });
});

describe("shop, device and procedure files", () => {
  const shop = (more: string) => `//- mendlog.shop.yaml\nmendlog-shop: 1\nname: Bench\n${more}`;

  test("currencies by code and name", async () => {
    const items = await completions(shop("currency: E$0\n"));
    expect(items.find(({ label }) => label === "EUR")).toMatchObject({
      description: "Euro",
      filterText: "EUR Euro",
    });
    expect(items.every(({ label }) => /^[A-Z]{3}$/.test(label))).toBe(true);
  });

  test("meter functions, and the units of the one named", async () => {
    const range = (fields: string) =>
      shop(`meters:\n  bench:\n    title: B\n    ranges:\n      - { ${fields} }\n`);
    expect(await labels(range("function: $0"))).toContain("dc-volts");
    expect(await labels(range("function: ohms, range: 20$0"))).toEqual(["20 Ω", "20 kΩ", "20 MΩ"]);
    expect(await labels(range("function: ohms, accuracy: { reading: 1$0 }"))).toEqual(["1 %"]);
  });

  test("stock names parts of the workspace's boards first", async () => {
    const text = `//- one.board.yaml\n${board()}${shop("stock:\n  - { part: $0 }\n")}`;
    expect((await labels(text)).slice(0, 3)).toEqual(["2716", "74LS04", "74LS74"]);
  });

  test("the checks by their codes, with their levels and numbers", async () => {
    expect(await labels(shop("checks:\n  unknown-h$0\n"))).toContain("unknown-heading");
    const of = (code: string) => labels(shop(`checks:\n  ${code}: { $0 }\n`));
    expect(await of("unknown-heading")).toEqual(["severity"]);
    expect(await of("net-disagreement")).toEqual(["severity", "margin"]);
    const levels = await labels(shop("checks:\n  unknown-heading: { severity: $0 }\n"));
    expect(levels).toEqual(["error", "warning", "information", "hint", "off"]);
  });

  test("every check and each of its numbers is offered, and no other", () => {
    const known = rawSchemaAt("shop", ["checks"])?.properties ?? {};
    expect(Object.keys(known)).toEqual(CHECKS.map(({ code }) => code));
    for (const { code, options = [] } of CHECKS)
      expect(Object.keys(known[code]?.properties ?? {})).toEqual([
        "severity",
        ...options.map(({ name }) => name),
      ]);
  });

  const device = (more: string) => `//- own.device.yaml
mendlog-device: 1
id: X1
title: Two buffers
package: { name: DIP-4, pins: 4 }
pins:
  1: { name: A, direction: input }
  2: { name: Y, direction: output }
  3: { name: B, direction: input }
  4: { name: GND, direction: ground }
${more}`;

  test("a gate's pins: inputs first among inputs, those of other gates last, never the supply", async () => {
    const gates = (fields: string) =>
      device(`gates:\n  - { name: "1", function: BUFFER, inputs: [1], outputs: [2] }\n  - { ${fields} }\n`);
    expect(await labels(gates("inputs: [$0]"))).toEqual(["3", "1", "2"]);
    expect((await completions(gates("outputs: [$0]"))).map(({ description }) => description)).toEqual([
      "B input",
      "Y output · in another gate",
      "A input · in another gate",
    ]);
    expect(await labels(gates("function: $0"))).toEqual(expect.arrayContaining(["NAND", "NOT"]));
  });

  test("families, kinds and directions", async () => {
    expect(await labels(device("families: [LS, $0]\n"))).toContain("HC");
    expect(await labels(device("families: [LS, $0]\n"))).not.toContain("LS");
    expect(await labels(device("kind: $0\n"))).toContain("memory");
    expect(await labels(device("").replace("output", "$0"))).toContain("open-collector");
  });

  test("a procedure's units and measures", async () => {
    const procedure = (more: string) => `//- own.procedure.yaml
mendlog-procedure: 1
id: own
columns:
  - { role: reading, measure: drop, quantity: voltage, unit: V }
  - { role: state, headers: [State] }
${more}`;
    expect(await labels(procedure("").replace("unit: V", "unit: $0"))).toEqual(["V", "mV"]);
    expect(await labels(procedure("wide: { rows: pin, cells: $0 }\n"))).toEqual(["drop", "state"]);
  });
});

test("what a file says of a part or a circuit is words and no Markdown: no picture is fetched", async () => {
  const picture = "![x](https://example.org/x.png)";
  const head = `mendlog-board: 1\nid: x\ntitle: X\ncircuits:\n  reset: { title: Reset, note: "${picture}" }\nparts:\n  U7: { device: "7404", note: "${picture}" }\n`;
  const offered = [
    ...(await completions(`${head}  U8: { circuit: $0 }\n`)),
    ...(await completions(`${head}nets:\n  A: [$0]\n`)),
  ];
  const told = offered.flatMap(({ documentation }) =>
    documentation?.includes("example.org") ? [documentation] : [],
  );
  expect(told.length).toBeGreaterThan(1);
  for (const one of told) expect(one).not.toContain("![x](");
});

describe("codes of a test program", () => {
  const codes = (entry: string): string => board(`codes:\n  ${entry}\n`);

  test("parts of the board in its list, but those it has; circuits too", async () => {
    const items = await completions(codes('"E 3": { title: work memory, parts: [U14, $0] }'));
    const names = items.map(({ label }) => label);
    expect(names).toContain("U15");
    expect(names).not.toContain("U14");
    expect(items.find(({ label }) => label === "U15")?.description).toContain("74LS74");
    expect(await labels(codes('"E 3": { title: work memory, circuits: [$0] }'))).toEqual([
      "reset",
      "display",
    ]);
  });

  test("the keys it does not have, and whether there was no fault", async () => {
    expect(await labels(codes('"E 3": { title: work memory, $0 }'))).toEqual(
      expect.arrayContaining(["parts", "circuits", "pass", "note"]),
    );
    expect(await labels(codes('"E 3": { title: work memory, $0 }'))).not.toContain("title");
    expect(await labels(codes('"00": { title: no fault, pass: $0 }'))).toContain("true");
  });

  test("what a symptom shows and no code is of yet", async () => {
    const shown =
      'symptoms:\n  memory: { title: Stops with a code, circuits: [reset], shows: "E 7" }\n  dark: { title: Dark, circuits: [], shows: "E 8" }\n';
    expect(await labels(board(`${shown}codes:\n  "E 8": { title: dark }\n  $0\n`))).toEqual(["E 7"]);
  });
});
