// Gate functions against the digital models of ngspice's XSPICE: three-valued inputs, and inputs that move.
import { expect, test } from "vitest";
import {
  type Behaviour,
  type GateFunction,
  possibleOutputs,
  type Signal,
} from "../../../server/src/compute/logic/gates";
import { describeSpice, simulate } from "../ngspice/spice";

const MODELS: Readonly<Record<GateFunction, string>> = {
  NOT: "d_inverter",
  BUFFER: "d_buffer",
  AND: "d_and",
  NAND: "d_nand",
  OR: "d_or",
  NOR: "d_nor",
  XOR: "d_xor",
  XNOR: "d_xnor",
};
const FUNCTIONS = Object.keys(MODELS) as GateFunction[];

type Digit = "0" | "1" | "U";

/** The gate's output, step by step, for rows of inputs; one row a microsecond. */
function run(fn: GateFunction, rows: readonly (readonly Digit[])[]): Digit[] {
  const width = rows[0]!.length;
  const nodes = Array.from({ length: width }, (_, index) => `d${index}`);
  const inputs = width === 1 && (fn === "NOT" || fn === "BUFFER") ? "d0" : `[${nodes.join(" ")}]`;
  const source = rows.map((row, at) => `${at}u ${row.map((digit) => `${digit}s`).join(" ")}`).join("\n");
  const found = simulate(
    [
      `asrc [${nodes.join(" ")}] feed`,
      '.model feed d_source(input_file="rows.txt")',
      `agate ${inputs} out gate`,
      `.model gate ${MODELS[fn]}(rise_delay=1n fall_delay=1n)`,
      "adac [out] [v] dac",
      ".model dac dac_bridge(out_low=0 out_high=4 out_undef=2 t_rise=1n t_fall=1n)",
      "rload v 0 1k",
      `.tran 0.1u ${rows.length}u`,
      ...rows.map((_, at) => `.measure tran s${at} find v(v) at=${at + 0.5}u`),
    ],
    { "rows.txt": `${source}\n` },
  );
  return rows.map((_, at): Digit => {
    const volts = found.get(`s${at}`)!;
    return volts > 3.9 ? "1" : volts < 0.1 ? "0" : "U";
  });
}

/** All rows of `width` digits. */
function rowsOf<T>(digits: readonly T[], width: number): T[][] {
  let rows: T[][] = [[]];
  for (let at = 0; at < width; at += 1) rows = rows.flatMap((row) => digits.map((digit) => [...row, digit]));
  return rows;
}

const SIGNAL: Readonly<Record<Digit, Signal>> = { "0": "low", "1": "high", U: "unknown" };

describeSpice("gates against XSPICE", () => {
  const cases = FUNCTIONS.flatMap((fn) =>
    (fn === "NOT" || fn === "BUFFER" ? [1] : [2, 3, 4]).map((width) => [fn, width] as const),
  );
  test.each(cases)(
    "%s of %d: the same output where it is decided, undecided where it is not",
    (fn, width) => {
      const rows = rowsOf<Digit>(["0", "1", "U"], width);
      const theirs = run(fn, rows);
      rows.forEach((row, at) => {
        const ours = possibleOutputs(
          fn,
          row.map((digit) => SIGNAL[digit]),
          "ttl",
        );
        const decided =
          theirs[at] === "1" ? ["high"] : theirs[at] === "0" ? ["low"] : ["high", "low", "pulsing"];
        expect(ours, `${fn}(${row.join(", ")})`).toEqual(decided);
      });
      expect(new Set(theirs)).toEqual(new Set(["0", "1", "U"]));
    },
  );

  const seen = (bits: readonly Digit[]): Behaviour =>
    bits.every((bit) => bit === "1") ? "high" : bits.every((bit) => bit === "0") ? "low" : "pulsing";

  test.each(FUNCTIONS)(
    "%s with moving inputs: each output it shows is possible, and each possible one is shown",
    (fn) => {
      const width = fn === "NOT" || fn === "BUFFER" ? 1 : 2;
      // Three moments are enough for two moving inputs to be equal, opposite, or now and then alike.
      const courses = rowsOf<Digit>(["0", "1"], 3);
      const combinations = rowsOf(courses, width);
      const outputs = run(
        fn,
        combinations.flatMap((inputs) => [0, 1, 2].map((moment) => inputs.map((course) => course[moment]!))),
      );
      const shown = new Map<string, Set<Behaviour>>();
      combinations.forEach((inputs, at) => {
        const key = inputs.map(seen).join(" ");
        const set = shown.get(key) ?? new Set();
        shown.set(key, set.add(seen(outputs.slice(3 * at, 3 * at + 3))));
      });
      expect(shown.size).toBe(3 ** width);
      for (const [key, behaviours] of shown) {
        const ours = possibleOutputs(fn, key.split(" ") as Behaviour[], "ttl");
        expect(new Set(ours), `${fn}(${key})`).toEqual(behaviours);
      }
    },
  );
});
