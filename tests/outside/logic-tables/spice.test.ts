// Truth tables against circuits of XSPICE's own digital models: gates wired as the function is drawn, its flip-flops,
// latches and three-state buffers. Every combination of the inputs is simulated.
import { expect, test } from "vitest";
import { reviewDevice } from "../../../server/src/compute/logic/review-device";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import type { LogicState } from "../../../server/src/quantity/words";
import { describeSpice, simulate } from "../ngspice/spice";

interface Circuit {
  readonly inputs: string;
  readonly outputs: string;
  /** Instances of digital models; nodes are n_ and the pin's name in small letters, with what is no letter left out. */
  readonly lines: readonly string[];
  /** Rows the model has no meaning for. */
  readonly skip?: (bits: readonly boolean[]) => boolean;
}

const node = (name: string): string =>
  `n_${name.toLowerCase().replaceAll("/", "b").replaceAll("=", "eq").replaceAll("<", "lt").replaceAll(">", "gt")}`;

const range = (from: number, to: number): number[] =>
  Array.from({ length: to - from + 1 }, (_, index) => from + index);

/** A gate instance from pin names or own nodes (which begin with "."). */
let serial = 0;
function gate(model: string, inputs: readonly string[], output: string): string {
  serial += 1;
  const nodes = inputs.map((name) => (name.startsWith(".") ? `m_${name.slice(1)}` : node(name)));
  const out = output.startsWith(".") ? `m_${output.slice(1)}` : node(output);
  const single = model === "inv" || model === "buf";
  return `a${serial} ${single ? nodes[0] : `[${nodes.join(" ")}]`} ${out} ${model}`;
}

const MODELS = ["inverter", "buffer", "and", "nand", "or", "nor", "xor", "xnor"].map(
  (kind) =>
    `.model ${kind === "inverter" ? "inv" : kind === "buffer" ? "buf" : kind} d_${kind}(rise_delay=1n fall_delay=1n)`,
);

/** The outputs by row, as the simulator gives them: "1", "0", or "U" for anything else. */
function run(circuit: Circuit, rows: readonly (readonly boolean[])[]): Record<string, string>[] {
  const inputs = circuit.inputs.split(" ");
  const outputs = circuit.outputs.split(" ");
  const source = rows
    .map((row, at) => `${at}u ${row.map((bit) => (bit ? "1s" : "0s")).join(" ")}`)
    .join("\n");
  const found = simulate(
    [
      `asrc [${inputs.map(node).join(" ")}] feed`,
      '.model feed d_source(input_file="rows.txt")',
      ...MODELS,
      ...circuit.lines,
      `adac [${outputs.map(node).join(" ")}] [${outputs.map((_, at) => `v${at}`).join(" ")}] dac`,
      ".model dac dac_bridge(out_low=0 out_high=4 out_undef=2 t_rise=1n t_fall=1n)",
      ...outputs.map((_, at) => `rload${at} v${at} 0 1k`),
      `.tran 0.2u ${rows.length}u`,
      ...rows.flatMap((_, row) =>
        outputs.map((_o, at) => `.measure tran s${row}_${at} find v(v${at}) at=${row + 0.5}u`),
      ),
    ],
    { "rows.txt": `${source}\n` },
  );
  return rows.map((_, row) =>
    Object.fromEntries(
      outputs.map((name, at) => {
        const volts = found.get(`s${row}_${at}`)!;
        return [name, volts > 3.9 ? "1" : volts < 0.1 ? "0" : "U"];
      }),
    ),
  );
}

const combinations = (width: number): boolean[][] =>
  Array.from({ length: 2 ** width }, (_, code) =>
    Array.from({ length: width }, (_b, at) => Math.floor(code / 2 ** at) % 2 === 1),
  );

/** An address decoded with NANDs: inverted address lines, one gate an output. */
function decoded(
  address: readonly string[],
  enable: readonly string[],
  output: (n: number) => string,
): string[] {
  const inverted = address.map((pin) => gate("inv", [pin], `.not${pin}`));
  return [
    ...inverted,
    ...range(0, 2 ** address.length - 1).map((n) =>
      gate(
        "nand",
        [...enable, ...address.map((pin, at) => (Math.floor(n / 2 ** at) % 2 === 1 ? pin : `.not${pin}`))],
        output(n),
      ),
    ),
  ];
}

const fullAdder = (n: number, carry: string, out: string): string[] => [
  gate("xor", [`A${n}`, `B${n}`], `.half${n}`),
  gate("xor", [`.half${n}`, carry], `S${n}`),
  gate("and", [`A${n}`, `B${n}`], `.both${n}`),
  gate("and", [`.half${n}`, carry], `.pass${n}`),
  gate("or", [`.both${n}`, `.pass${n}`], out),
];

const FF = "(clk_delay=1n set_delay=1n reset_delay=1n ic=0 rise_delay=1n fall_delay=1n)";

const CIRCUITS: Readonly<Record<string, Circuit>> = {
  "74138": {
    inputs: "G1 /G2A /G2B C B A",
    outputs: range(0, 7)
      .map((n) => `/Y${n}`)
      .join(" "),
    lines: [
      gate("nor", ["/G2A", "/G2B"], ".low"),
      gate("and", ["G1", ".low"], ".on"),
      ...decoded(["A", "B", "C"], [".on"], (n) => `/Y${n}`),
    ],
  },
  "74154": {
    inputs: "/G1 /G2 D C B A",
    outputs: range(0, 15)
      .map((n) => `/${n}`)
      .join(" "),
    lines: [gate("nor", ["/G1", "/G2"], ".on"), ...decoded(["A", "B", "C", "D"], [".on"], (n) => `/${n}`)],
  },
  "7442": {
    inputs: "D C B A",
    outputs: range(0, 9)
      .map((n) => `/${n}`)
      .join(" "),
    lines: decoded(["A", "B", "C", "D"], [], (n) => (n < 10 ? `/${n}` : `.none${n}`)),
  },
  "7483": {
    inputs: "A4 B4 A3 B3 A2 B2 A1 B1 C0",
    outputs: "S1 S2 S3 S4 C4",
    lines: [
      ...fullAdder(1, "C0", ".c1"),
      ...fullAdder(2, ".c1", ".c2"),
      ...fullAdder(3, ".c2", ".c3"),
      ...fullAdder(4, ".c3", "C4"),
    ],
  },
  "74153": {
    inputs: "/1G B A 1C0 1C1 1C2 1C3",
    outputs: "1Y",
    lines: [
      gate("inv", ["/1G"], ".on"),
      gate("inv", ["A"], ".na"),
      gate("inv", ["B"], ".nb"),
      ...range(0, 3).map((n) =>
        gate("and", [".on", n & 1 ? "A" : ".na", n & 2 ? "B" : ".nb", `1C${n}`], `.t${n}`),
      ),
      gate("or", [".t0", ".t1", ".t2", ".t3"], "1Y"),
    ],
  },
  "74280": {
    inputs: "A B C D E F G H I",
    outputs: "SEVEN SODD",
    lines: [
      gate("xor", ["A", "B", "C", "D", "E", "F", "G", "H", "I"], "SODD"),
      gate("inv", ["SODD"], "SEVEN"),
    ],
  },
  "7451": {
    inputs: "1A 1B 1C 1D",
    outputs: "1Y",
    lines: [
      gate("and", ["1A", "1B"], ".x"),
      gate("and", ["1C", "1D"], ".y"),
      gate("nor", [".x", ".y"], "1Y"),
    ],
  },
  "74125": {
    inputs: "/1OE 1A",
    outputs: "1Y",
    lines: [
      gate("inv", ["/1OE"], ".on"),
      `atri ${node("1A")} m_on ${node("1Y")} tri`,
      ".model tri d_tristate(delay=1n)",
    ],
  },
  "7474": {
    inputs: "/1PRE /1CLR 1D 1CLK",
    outputs: "1Q /1Q",
    skip: ([preset, clear]) => !preset && !clear,
    lines: [
      gate("inv", ["/1PRE"], ".set"),
      gate("inv", ["/1CLR"], ".reset"),
      `aff ${node("1D")} ${node("1CLK")} m_set m_reset ${node("1Q")} ${node("/1Q")} ff`,
      `.model ff d_dff${FF}`,
    ],
  },
  "7475": {
    inputs: "1-2EN 1D",
    outputs: "1Q /1Q",
    lines: [
      "apd m_off pd",
      ".model pd d_pulldown(load=1p)",
      `alt ${node("1D")} ${node("1-2EN")} m_off m_off ${node("1Q")} ${node("/1Q")} lt`,
      ".model lt d_dlatch(data_delay=1n enable_delay=1n set_delay=1n reset_delay=1n ic=0 rise_delay=1n fall_delay=1n)",
    ],
  },
};

describeSpice("truth tables against XSPICE", () => {
  let compared = 0;

  test.each(Object.keys(CIRCUITS))("%s", (id) => {
    const circuit = CIRCUITS[id]!;
    const device = builtinLibrary().device(id)!.device;
    const pin = (name: string): string =>
      [...device.pins.values()].find((entry) => entry.name === name)!.number;
    const inputs = circuit.inputs.split(" ");
    const rows = combinations(inputs.length);
    const theirs = run(circuit, rows);
    expect(new Set(theirs.flatMap((row) => Object.values(row))).size).toBeGreaterThanOrEqual(2);
    rows.forEach((bits, at) => {
      if (circuit.skip?.(bits)) return;
      const given = inputs.map((name, k): [string, LogicState] => [pin(name), bits[k] ? "high" : "low"]);
      const whole = Object.entries(theirs[at]!).flatMap(([name, digit]): [string, LogicState][] =>
        digit === "U" ? [] : [[pin(name), digit === "1" ? "high" : "low"]],
      );
      const what = `${id} ${given.map(([number, state]) => `${number} ${state}`).join(", ")}`;
      const found = (states: readonly [string, LogicState][]) =>
        reviewDevice(device, new Map([...given, ...states]), { ref: "U1" }).contradictions;
      expect(
        found(whole).map(({ says }) => says.fact),
        what,
      ).toEqual([]);
      for (const [name, digit] of Object.entries(theirs[at]!)) {
        if (digit === "U") continue;
        // Where the part holds a level, both are possible; else the other level must be contradicted.
        const held = HOLDS[id]?.(bits) ?? false;
        const other = found([[pin(name), digit === "1" ? "low" : "high"]]);
        expect(other.length > 0, `${what}: ${name}`).toBe(!held);
        compared += 1;
      }
    });
  });

  test("the comparison was not empty", () => {
    expect(compared).toBeGreaterThanOrEqual(5_000);
  });
});

/** Rows in which the part keeps what it had, or is switched off. */
const HOLDS: Readonly<Record<string, (bits: readonly boolean[]) => boolean>> = {
  "7474": ([preset, clear]) => preset === true && clear === true,
  "7475": ([enable]) => enable === false,
  "74125": ([disable]) => disable === true,
};
