import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type GateStates, reviewGates } from "../../../server/src/compute/logic/contradictions";
import { outputStage, visibleStates } from "../../../server/src/compute/logic/output-stage";
import { inputTechnology } from "../../../server/src/compute/logic/technology";
import { pinText } from "../../../server/src/compute/nets/net-text";
import type { PinDirection } from "../../../server/src/knowledge/types";
import type { LogicState } from "../../../server/src/quantity/words";
import { words } from "../../support/words";

const STATES: readonly LogicState[] = ["high", "low", "pulsing", "floating"];

/** One two-input NAND on pins 1, 2 and 3. "H L -> L", a dash for a pin not read. */
function nand(text: string, over: Partial<GateStates> & { stage?: PinDirection } = {}) {
  const word: Record<string, LogicState> = { H: "high", L: "low", P: "pulsing", F: "floating" };
  const states = new Map<string, LogicState>();
  text
    .replace("->", "")
    .split(/\s+/)
    .filter(Boolean)
    .forEach((letter, index) => {
      const state = word[letter];
      if (state) states.set(String(index + 1), state);
    });
  const { stage = "output", ...rest } = over;
  return reviewGates({
    ref: "U14",
    gates: [{ name: "1", function: "NAND", inputs: ["1", "2"], outputs: ["3"] }],
    technology: "ttl",
    states,
    direction: (pin) => (pin === "3" ? stage : "input"),
    ...rest,
  });
}

describe("a NAND", () => {
  test.each(["H L -> L", "H H -> H", "H P -> H", "H P -> L", "P L -> P", "- L -> L", "P P -> L", "F H -> H"])(
    "%s is contradicted",
    (text) => {
      const { contradictions } = nand(text);
      expect(contradictions).toHaveLength(1);
      expect(contradictions[0]).toMatchObject({ output: "3", gate: { name: "1" } });
    },
  );

  test.each([
    "H L -> H",
    "H H -> L",
    "H P -> P",
    "P P -> H",
    "P P -> P",
    "- H -> L",
    "- H -> H",
    "- - -> P",
    "- P -> H",
    "P L -> H",
    "F H -> L",
  ])("%s is explained", (text) => {
    expect(nand(text).contradictions).toEqual([]);
  });

  test("says the rule with its numbers and both explanations", () => {
    const [found] = nand("H L -> L", {
      netMembers: () => [
        { ref: "U9", pin: "4" },
        { ref: "J3", pin: "1" },
        { ref: "U14", pin: "3" },
      ],
    }).contradictions;
    expect(found?.formula).toBe("NAND(high, low) = high, recorded low");
    expect(words(found)).toMatch(
      /^U14 pin 3 is low; with pin 1 high, pin 2 low its NAND output can only be high\. The gate is disproved, or another part of its net holds it\. Lift pin 3/,
    );
    expect(found?.alternatives.map(pinText)).toEqual(["U9 pin 4", "J3 pin 1"]);
    expect(found?.verdict).toBe("out-of-limits");
  });

  test("without a net the alternative stays, unnamed", () => {
    const [found] = nand("H L -> L").contradictions;
    expect(found?.alternatives).toEqual([]);
    expect(words(found)).toMatch(/another part of its net holds it\. Lift pin 3/);
  });

  test("an unread input is named as unread and decides nothing by itself", () => {
    expect(words(nand("- L -> L").contradictions[0])).toMatch(/with pin 1 not read, pin 2 low/);
  });

  test("an undriven push-pull output is a contradiction whatever the inputs do", () => {
    const [found] = nand("- - -> F").contradictions;
    expect(words(found)).toMatch(
      /can only be high or low or pulsing\..* Check the chip's own supply and ground/,
    );
  });

  test("moving signals call for reading again in one go", () => {
    expect(words(nand("P L -> P").contradictions[0])).toMatch(/in one go/);
    expect(words(nand("H L -> L").contradictions[0])).not.toMatch(/in one go/);
  });
});

describe("floating inputs", () => {
  test("make a TTL contradiction only suspect", () => {
    const [found] = nand("F H -> H").contradictions;
    expect(found?.verdict).toBe("suspect");
    expect(words(found)).toMatch(/takes a floating TTL input as high/);
  });
  test("but not one that holds whatever they are", () => {
    const [found] = nand("F L -> L").contradictions;
    expect(found?.verdict).toBe("out-of-limits");
    expect(words(found)).not.toMatch(/floating TTL input/);
  });
  test.each(["cmos", "unknown"] as const)("explain anything where the technology is %s", (technology) => {
    expect(nand("F H -> H", { technology }).contradictions).toEqual([]);
    expect(nand("F L -> L", { technology }).contradictions).toHaveLength(1);
  });
});

describe("other output stages", () => {
  const oc = (text: string) => nand(text, { stage: "open-collector" }).contradictions.length;
  test("an open collector that lets go may be held low, pulsed or left floating by others", () => {
    expect(["H L -> H", "H L -> L", "H L -> P", "H L -> F"].map(oc)).toEqual([0, 0, 0, 0]);
  });
  test("an open collector that pulls is seen low and nothing else", () => {
    expect(["H H -> L", "H H -> H", "H H -> P", "H H -> F"].map(oc)).toEqual([0, 1, 1, 1]);
  });
  test("one that pulls at times cannot leave the net high for good", () => {
    expect(["H P -> P", "H P -> L", "H P -> F", "H P -> H"].map(oc)).toEqual([0, 0, 0, 1]);
  });
  test("an open emitter is the mirror image", () => {
    const oe = (text: string) => nand(text, { stage: "open-emitter" }).contradictions.length;
    expect(["H L -> H", "H L -> L", "H H -> H", "H P -> L"].map(oe)).toEqual([0, 1, 0, 1]);
  });
  test.each(["H", "L", "P", "F"])("a three-state output may be switched off, and is seen %s", (state) => {
    expect(nand(`H L -> ${state}`, { stage: "three-state" }).contradictions).toEqual([]);
  });
  test.each(["push-pull", "open-collector", "open-emitter", "three-state"] as const)(
    "every behaviour may be seen as itself at a %s output",
    (stage) => {
      for (const behaviour of ["high", "low", "pulsing"] as const)
        expect(visibleStates(behaviour, stage)).toContain(behaviour);
    },
  );
  test("an input has no output stage, and an output is push-pull unless it is told otherwise", () => {
    expect(outputStage("input")).toBeUndefined();
    expect(outputStage("output")).toBe("push-pull");
  });
});

describe("what cannot be judged says why", () => {
  const gate = { name: "1", function: "NAND", inputs: ["1", "2"], outputs: ["3"] };
  test.each([
    [{}, "H L -> -", /output of gate 1 was not read/],
    [{ gates: [{ ...gate, function: "AOI" }] }, "H L -> L", /AOI, with no truth table/],
    [{ gates: [{ ...gate, function: "NOT" }] }, "H L -> L", /2 inputs, which a NOT cannot have/],
    [{ stage: "bidirectional" as const }, "H L -> L", /Pin 3 of gate 1 is not an output/],
  ])("%j", (over, text, why) => {
    const { contradictions, unjudged } = nand(text, over);
    expect(contradictions).toEqual([]);
    expect(unjudged.map(({ reason }) => reason).join()).toMatch(why);
  });
});

test("reading one more input never explains away a contradiction, nor does unreading one make it", () => {
  const state = fc.option(fc.constantFrom(...STATES), { nil: undefined });
  const text = (states: readonly (LogicState | undefined)[]) =>
    `${letter(states[0])} ${letter(states[1])} -> ${letter(states[2])}`;
  fc.assert(
    fc.property(fc.tuple(state, state, state), fc.integer({ min: 0, max: 1 }), (states, hidden) => {
      const fewer = states.map((known, index) => (index === hidden ? undefined : known));
      const before = nand(text(fewer)).contradictions.length;
      if (before > 0) expect(nand(text(states)).contradictions).toHaveLength(before);
    }),
  );
});

const letter = (state: LogicState | undefined): string => state?.charAt(0).toUpperCase() ?? "-";

test("the technology goes by the chip's family", () => {
  expect(["TTL", "LS", "ALS", "F"].map(inputTechnology)).toEqual(["ttl", "ttl", "ttl", "ttl"]);
  expect(["HC", "HCT", "4000", "CMOS"].map(inputTechnology)).toEqual(["cmos", "cmos", "cmos", "cmos"]);
  expect(["NMOS", "bipolar", undefined].map(inputTechnology)).toEqual(["unknown", "unknown", "unknown"]);
});
