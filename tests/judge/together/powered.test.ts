// What the pins of a chip show together under power: told once where a probe, a lead, a count or a column explains it, and
// pin by pin where nothing does.
import { describe, expect, test } from "vitest";
import { openAt } from "../../support/workspace";

const told = async (table: string) => {
  const { service, uri } = await openAt(`//- log.md\n---\nmendlog: 1\n---\n\n${table}\n$0`);
  return service.findings(uri).filter(({ severity }) => severity !== "hint");
};
const codes = async (table: string) => (await told(table)).map(({ code }) => code);
const column = (header: string, cells: readonly (string | undefined)[]) =>
  `| Pin | ${header} |\n|-----|-----|\n${cells.map((cell, i) => `| ${i + 1} | ${cell ?? ""} |`).join("\n")}\n`;

const HEADING = "## Logic states U5 (74LS138)\n\n";
/** A decoder that runs: what its 16 pins show, ground at 8 and supply at 16. */
const RUNS = ["P", "P", "P", "L", "L", "H", "H", "L", "P", "H", "P", "P", "P", "P", "P", "H"];
const states = (cells: readonly (string | undefined)[]) => HEADING + column("State", cells);

describe("logic states of one chip", () => {
  test("as they should be: nothing", async () => {
    expect(await codes(states(RUNS))).toEqual([]);
  });

  test("the other way round: counted from the other end, with the readings to be moved", async () => {
    const found = await told(states([...RUNS].reverse()));
    expect(found.map(({ code }) => code)).toEqual(["pins-miscounted"]);
    expect(found[0]?.message).toMatch(
      /^U5: \d+ of 16 readings fit as numbered, 16 of 16 counted from the other end\./,
    );
  });

  test("a row left out: the column slid", async () => {
    const slid = [...RUNS.slice(0, 4), ...RUNS.slice(5), undefined];
    expect(await codes(states(slid))).toEqual(["column-shifted"]);
  });

  test("a ground pin that pulses, and all else right: that pin", async () => {
    const open = RUNS.map((cell, i) => (i === 7 ? "P" : cell));
    expect(await codes(states(open))).toEqual(["level-undefined"]);
  });

  test("no supply at its pin, and all outputs low: no mistake of the bench", async () => {
    const unfed = RUNS.map((cell, i) => (i === 7 || i > 5 ? "L" : cell));
    expect(await codes(states(unfed))).not.toContain("pins-miscounted");
  });

  test("every pin floats, ground and supply too: the probe", async () => {
    const found = await told(states(RUNS.map(() => "Z")));
    expect(found.map(({ code }) => code)).toEqual(["lead-off-ground"]);
    expect(found[0]?.message).toMatch(/^U5: 16 of 16 pins show nothing, ground \(pin 8\) too\./);
  });

  test("every pin floats but those of its supply: not the probe", async () => {
    const dead = RUNS.map((cell, i) => (i === 7 || i === 15 ? cell : "Z"));
    expect(await codes(states(dead))).not.toContain("lead-off-ground");
  });
});

describe("standing voltages", () => {
  const levels = (...volts: readonly string[]) =>
    `## Logic levels U5 (74LS138)\n\n${column("Voltage", volts)}`;
  const VOLTS = [
    "3.4",
    "0.2",
    "0.1",
    "0.1",
    "0.2",
    "0.2",
    "3.4",
    "0.0",
    "3.5",
    "3.4",
    "3.5",
    "3.4",
    "3.5",
    "3.4",
    "3.5",
    "5.02",
  ];

  test("each with the other sign: the leads", async () => {
    const found = await told(levels(...VOLTS.map((one) => (Number(one) > 0 ? `-${one}` : one))));
    expect(found.map(({ code }) => code)).toEqual(["leads-swapped"]);
    expect(found[0]?.message).toMatch(/^U5: 15 of 16 voltages are below 0 V, U5 pin 1 -3\.4\./);
  });

  test("each a thousand times too high: the unit, which can be written beside them", async () => {
    const found = await told(levels(...VOLTS.map((one) => String(Math.round(Number(one) * 1000)))));
    expect(found.map(({ code }) => code)).toEqual(["wrong-scale"]);
    expect(found[0]?.data).toMatchObject({ title: "Write the 15 readings in millivolts" });
  });

  test("one below ground: that one", async () => {
    const one = VOLTS.map((volts, i) => (i === 0 ? "-3.4" : volts));
    expect(await codes(levels(...one))).toEqual(["impossible-value"]);
  });
});

describe("volts that slid by a row", () => {
  const DECODER = [
    "3.52",
    "3.01",
    "3.03",
    "2.99",
    "3.02",
    "3.00",
    "3.04",
    "0.00",
    "3.51",
    "3.53",
    "3.50",
    "0.14",
    "1.71",
    "1.83",
    "1.92",
    "5.02",
  ];
  const slid = (cells: readonly string[]) => `## Logic voltages U5 (74LS138)\n\n${column("Volts", cells)}`;

  test("a row was left blank, and all below it stands one too low", async () => {
    expect(await codes(slid([...DECODER.slice(0, 4), "-", ...DECODER.slice(4, 15)]))).toContain(
      "column-shifted",
    );
  });

  test("a row was left out, and the last one stayed blank", async () => {
    expect(await codes(slid([...DECODER.slice(0, 4), ...DECODER.slice(5), "-"]))).toContain("column-shifted");
  });

  test("one row blank and the rest where it belongs", async () => {
    expect(await codes(slid(DECODER.map((cell, i) => (i === 4 ? "-" : cell))))).not.toContain(
      "column-shifted",
    );
  });
});
