import { describe, expect, test } from "vitest";
import { type GateStates, reviewGates } from "../../../server/src/compute/logic/contradictions";
import { GATE_FUNCTIONS, type GateFunction } from "../../../server/src/compute/logic/gates";
import { reviewDevice } from "../../../server/src/compute/logic/review-device";
import { reviewTables } from "../../../server/src/compute/logic/truth-table";
import { pinText } from "../../../server/src/compute/nets/net-text";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import { loadDevice } from "../../../server/src/knowledge/load-device";
import type { PinDirection, PinRef } from "../../../server/src/knowledge/types";
import type { LogicState } from "../../../server/src/quantity/words";
import { words } from "../../support/words";

const WORD: Record<string, LogicState> = { H: "high", L: "low", P: "pulsing", F: "floating" };

/** Reviews a part of the library: "74138 6H 4L 5L 1L 2L 3L 15H". */
function review(
  text: string,
  more: { family?: string; netMembers?: (pin: string) => readonly PinRef[] } = {},
) {
  const [part = "", ...readings] = text.split(" ");
  const { device } = builtinLibrary().device(part)!;
  const states = new Map(
    readings.map((reading) => [reading.slice(0, -1), WORD[reading.slice(-1)]!] as const),
  );
  return reviewDevice(device, states, { ref: "U14", ...more });
}

const pins = (text: string, more = {}) => review(text, more).contradictions.map(({ output }) => output);

describe("a decoder", () => {
  test("what the address does not select must be high, what it does low", () => {
    const at0 = "74138 6H 4L 5L 1L 2L 3L";
    expect(pins(`${at0} 15L 14H 7H`)).toEqual([]);
    expect(pins(`${at0} 15H`)).toEqual(["15"]);
    expect(pins(`${at0} 15L 14L`)).toEqual(["14"]);
    expect(pins(`${at0} 15P`)).toEqual(["15"]);
  });

  test("one input that disables it is enough, and only that one is told", () => {
    const { contradictions } = review("74138 6L 1H 2P 15L");
    expect(contradictions).toHaveLength(1);
    const [found] = contradictions;
    expect(found).toMatchObject({
      output: "15",
      recorded: "low",
      possible: ["high"],
      inputs: [{ pin: "6", state: "low" }],
      verdict: "out-of-limits",
      formula: "decoder(G1 low): /Y0 = high, recorded low",
    });
    expect(words(found)).toMatch(
      /^U14 pin 15 \(\/Y0\) is low; with pin 6 \(G1\) low it can only be high\. The chip is disproved, or another part of its net holds this output\./,
    );
  });

  test("an unread or moving input leaves open what it may select", () => {
    expect(pins("74138 6H 4L 5L 1L 2L 15H")).toEqual([]);
    expect(pins("74138 6H 4L 5L 1L 2L 15L")).toEqual([]);
    expect(pins("74138 6H 4L 5L 1L 2L 3P 15P 11P")).toEqual([]);
    // Output 1 is never selected while A stays low, so it cannot move; nor can 0 be selected all the time.
    expect(pins("74138 6H 4L 5L 1L 2L 3P 14P")).toEqual(["14"]);
    expect(pins("74138 6H 4L 5L 1L 2L 3P 15L")).toEqual(["15"]);
  });

  test("two outputs cannot be selected at once, whatever the address", () => {
    const { contradictions } = review("74138 6H 15L 14L 13H");
    expect(contradictions).toHaveLength(1);
    expect(contradictions[0]).toMatchObject({ outputs: ["15", "14"], possible: ["high"] });
    expect(words(contradictions[0])).toContain("with pin 14 (/Y1) low it can only be high");
    expect(words(contradictions[0])).toContain("holds one of these outputs");
  });
});

describe("a flip-flop", () => {
  test("preset and clear hold a flip-flop's outputs", () => {
    expect(pins("7474 4L 1H 5L")).toEqual(["5"]);
    expect(pins("7474 4H 1L 5L 6L")).toEqual(["6"]);
    expect(pins("7474 4L 1L 5H 6H")).toEqual([]);
  });

  test("its outputs are opposite unless both are low", () => {
    expect(pins("7474 4H 1H 5H 6L")).toEqual([]);
    expect(pins("7474 4H 1H 5P 6P")).toEqual([]);
    const both = review("7474 4H 1H 5H 6H").contradictions;
    expect(both).toHaveLength(1);
    expect(both[0]).toMatchObject({ outputs: ["5", "6"], inputs: expect.any(Array) });
    // With preset and clear unread both may be low, which shows high at both outputs, but never low at both.
    expect(pins("7474 5H 6H")).toEqual([]);
    expect(pins("7474 5L 6L")).toHaveLength(1);
    expect(pins("7474 4H 1H 5H 6P")).toHaveLength(1);
  });

  test("the other half is judged by itself", () => {
    expect(pins("7474 4L 1H 5H 10H 13L 9H")).toEqual(["9"]);
  });
});

describe("what others on the net may do", () => {
  test("an open collector that lets go may be held low or float, but not made high while it pulls", () => {
    const zero = "7445 15L 14L 13L 12L";
    expect(pins(`${zero} 2L`)).toEqual([]);
    expect(pins(`${zero} 2F`)).toEqual([]);
    expect(pins(`${zero} 1H`)).toEqual(["1"]);
    expect(pins(`${zero} 1F`)).toEqual(["1"]);
  });

  test.each(["H", "L", "P", "F"])("an output switched off is not judged: %s", (state) => {
    expect(pins(`74244 1H 2H 18${state}`)).toEqual([]);
  });

  test("an output switched on is judged", () => {
    expect(pins("74244 1L 2H 18L")).toEqual(["18"]);
    expect(pins("74244 1L 2H 18F")).toEqual(["18"]);
    expect(pins("74244 1P 2H 18L")).toEqual(["18"]);
    expect(pins("74244 1P 2H 18F 16P")).toEqual([]);
  });

  test("a transceiver passes one way", () => {
    expect(pins("74245 19L 1H 2H 18L")).toEqual(["18"]);
    expect(pins("74245 19L 1L 2H 18L")).toEqual(["2"]);
    expect(pins("74245 19H 1L 2H 18L")).toEqual([]);
  });

  test("other members of the net are named", () => {
    const { contradictions } = review("7442 15L 14L 13L 12L 1H", {
      netMembers: (pin) => [
        { ref: "U14", pin },
        { ref: "U3", pin: "4" },
      ],
    });
    expect(contradictions[0]?.alternatives.map(pinText)).toEqual(["U3 pin 4"]);
    expect(contradictions[0]?.says.more).toContain("On its net: U3 pin 4.");
  });
});

describe("a floating input", () => {
  test("reads as high in TTL, which is only suspect, and as anything in CMOS", () => {
    const ttl = review("74LS157 15F 4H", { family: "LS" }).contradictions;
    expect(ttl).toMatchObject([{ output: "4", verdict: "suspect" }]);
    expect(words(ttl[0])).toContain("takes a floating TTL input as high");
    expect(pins("74HCT157 15F 4H", { family: "HCT" })).toEqual([]);
  });
});

describe("what is not judged", () => {
  test("no output read, no table, inputs no row is about", () => {
    expect(review("74138 6H").unjudged).toEqual([
      { section: "decoder", reason: "No output of the decoder was read." },
    ]);
    expect(review("2114 1H 2L")).toEqual({ contradictions: [], unjudged: [] });
    const { value } = loadDevice(`mendlog-device: 1
id: "74999"
title: Section
kind: logic
package: { name: DIP-14, pins: 14 }
pins:
  1: { name: A, direction: input }
  3: { name: "Y", direction: output }
truth-tables: [{ name: clear, inputs: ["1"], outputs: ["3"], rows: ["0 | 0"] }]
source: from memory
`);
    const states = (a: LogicState, y: LogicState) =>
      new Map([
        ["1", a],
        ["3", y],
      ]);
    const found = (a: LogicState, y: LogicState) =>
      reviewDevice(value!, states(a, y), { ref: "U1" }).contradictions.length;
    expect([found("low", "high"), found("high", "high"), found("pulsing", "high")]).toEqual([1, 0, 1]);
    expect([found("pulsing", "pulsing"), found("high", "floating"), found("low", "pulsing")]).toEqual([
      0, 0, 1,
    ]);
  });

  test("an output contradicted by its gate is told once", () => {
    const { device } = builtinLibrary().device("7404")!;
    const both = {
      ...device,
      truthTables: loadDevice(`mendlog-device: 1
id: x
title: x
kind: logic
package: { name: DIP-14, pins: 14 }
pins: { 1: { name: A, direction: input }, 2: { name: "Y", direction: output } }
truth-tables: [{ name: inverter, inputs: ["1"], outputs: ["2"], rows: ["a | /a"] }]
source: from memory
`).value!.truthTables,
    };
    const found = reviewDevice(
      both,
      new Map([
        ["1", "high"],
        ["2", "high"],
      ] as const),
      { ref: "U1" },
    );
    expect(found.contradictions.map(({ gate }) => gate.function)).toEqual(["NOT"]);
  });
});

// Two ways to the same answer: the gates' own reckoning, and their truth tables written out.
const ROWS: Readonly<Record<GateFunction, (bits: readonly boolean[]) => boolean>> = {
  NOT: ([a]) => !a,
  BUFFER: ([a]) => a === true,
  AND: (bits) => bits.every(Boolean),
  NAND: (bits) => !bits.every(Boolean),
  OR: (bits) => bits.some(Boolean),
  NOR: (bits) => !bits.some(Boolean),
  XOR: (bits) => bits.filter(Boolean).length % 2 === 1,
  XNOR: (bits) => bits.filter(Boolean).length % 2 === 0,
};
const STAGES: readonly PinDirection[] = ["output", "open-collector", "open-emitter"];
const STATES = [undefined, "high", "low", "pulsing", "floating"] as const;

describe.each(GATE_FUNCTIONS)("%s written as a table", (fn) => {
  const width = fn === "NOT" || fn === "BUFFER" ? 1 : 3;
  const inputs = Array.from({ length: width }, (_, at) => String(at + 1));
  const rows = Array.from({ length: 2 ** width }, (_, code) => {
    const bits = inputs.map((_pin, at) => ((code >> at) & 1) === 1);
    return `${bits.map((bit) => (bit ? "1" : "0")).join(" ")} | ${ROWS[fn](bits) ? "1" : "0"}`;
  });
  const names = [...inputs, "9"].map(
    (pin) => `  ${pin}: { name: P${pin}, direction: ${pin === "9" ? "output" : "input"} }`,
  );
  const { value, problems } = loadDevice(`mendlog-device: 1
id: gate
title: Gate
kind: logic
package: { name: DIP-14, pins: 14 }
pins:
${names.join("\n")}
truth-tables:
  - { name: t, inputs: ${JSON.stringify(inputs)}, outputs: ["9"], rows: ${JSON.stringify(rows)} }
source: from memory
`);

  test("contradicts what the gate contradicts, with the same verdict", () => {
    expect(problems).toEqual([]);
    let contradicted = 0;
    const combinations = STATES.length ** width;
    for (const technology of ["ttl", "cmos"] as const) {
      for (const stage of STAGES) {
        for (let code = 0; code < combinations; code++) {
          for (const recorded of ["high", "low", "pulsing", "floating"] as const) {
            const states = new Map<string, LogicState>([["9", recorded]]);
            inputs.forEach((pin, at) => {
              const state = STATES[Math.floor(code / STATES.length ** at) % STATES.length];
              if (state) states.set(pin, state);
            });
            const common = {
              ref: "U1",
              technology,
              states,
              direction: (pin: string): PinDirection => (pin === "9" ? stage : "input"),
            };
            const gates: GateStates = {
              ...common,
              gates: [{ name: "t", function: fn, inputs, outputs: ["9"] }],
            };
            const byGate = reviewGates(gates).contradictions.map(({ verdict }) => verdict);
            const byTable = reviewTables({ ...common, tables: value!.truthTables }).contradictions;
            const what = `${[...states].map(([pin, state]) => `${pin} ${state}`).join(", ")} ${stage} ${technology}`;
            expect(
              byTable.map(({ verdict }) => verdict),
              what,
            ).toEqual(byGate);
            contradicted += byTable.length;
          }
        }
      }
    }
    expect(contradicted).toBeGreaterThan(20);
  });
});
