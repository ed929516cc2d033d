import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Behaviour,
  GATE_FUNCTIONS,
  type GateFunction,
  gateFunction,
  possibleOutputs,
  type Signal,
} from "../../../server/src/compute/logic/gates";

/** Each function on plain bits, by its definition. */
const BITS: Readonly<Record<GateFunction, (bits: readonly boolean[]) => boolean>> = {
  NOT: ([a]) => !a,
  BUFFER: ([a]) => a === true,
  AND: (bits) => !bits.includes(false),
  NAND: (bits) => bits.includes(false),
  OR: (bits) => bits.includes(true),
  NOR: (bits) => !bits.includes(true),
  XOR: (bits) => bits.filter(Boolean).length % 2 === 1,
  XNOR: (bits) => bits.filter(Boolean).length % 2 === 0,
};

const SIGNALS: readonly Signal[] = ["high", "low", "pulsing", "floating", "unknown"];

/** Courses of one node over four moments, enough for two pulsing nodes to be equal, opposite, disjoint or mixed. */
const COURSES = Array.from({ length: 16 }, (_, code) => [0, 1, 2, 3].map((at) => ((code >> at) & 1) === 1));

const seen = (course: readonly boolean[]): Behaviour =>
  course.every((bit) => bit) ? "high" : course.some((bit) => bit) ? "pulsing" : "low";

function coursesOf(signal: Signal, technology: "ttl" | "cmos"): boolean[][] {
  if (signal === "unknown" || (signal === "floating" && technology === "cmos")) return COURSES;
  const behaviour = signal === "floating" ? "high" : signal;
  return COURSES.filter((course) => seen(course) === behaviour);
}

/** All behaviours of the output, by trying every course of every input. */
function tried(fn: GateFunction, inputs: readonly Signal[], technology: "ttl" | "cmos"): Behaviour[] {
  let partial: boolean[][][] = [[]];
  for (const signal of inputs) {
    partial = partial.flatMap((done) => coursesOf(signal, technology).map((course) => [...done, course]));
  }
  const outputs = partial.map((courses) =>
    seen([0, 1, 2, 3].map((at) => BITS[fn](courses.map((course) => course[at]!)))),
  );
  return (["high", "low", "pulsing"] as const).filter((behaviour) => outputs.includes(behaviour));
}

const single = (fn: GateFunction): boolean => fn === "NOT" || fn === "BUFFER";

describe("every course of the inputs, and no other", () => {
  test.each(GATE_FUNCTIONS)("%s with one or two inputs, all 5 signals, both technologies", (fn) => {
    for (const technology of ["ttl", "cmos"] as const) {
      for (const a of SIGNALS) {
        if (single(fn)) expect(possibleOutputs(fn, [a], technology)).toEqual(tried(fn, [a], technology));
        else {
          for (const b of SIGNALS) {
            expect(possibleOutputs(fn, [a, b], technology), `${fn}(${a}, ${b})`).toEqual(
              tried(fn, [a, b], technology),
            );
          }
        }
      }
    }
  });

  test("three inputs, taken by chance", () => {
    const signal = fc.constantFrom(...SIGNALS);
    const wide = GATE_FUNCTIONS.filter((fn) => !single(fn));
    fc.assert(
      fc.property(
        fc.constantFrom(...wide),
        fc.tuple(signal, signal, signal),
        fc.constantFrom("ttl" as const, "cmos" as const),
        (fn, inputs, technology) => {
          expect(possibleOutputs(fn, inputs, technology)).toEqual(tried(fn, inputs, technology));
        },
      ),
      { numRuns: 150 },
    );
  });
});

describe("what the bench expects", () => {
  test("a controlling value stops the others, pulsing or not", () => {
    expect(possibleOutputs("NAND", ["low", "pulsing", "unknown"], "ttl")).toEqual(["high"]);
    expect(possibleOutputs("NOR", ["high", "pulsing"], "ttl")).toEqual(["low"]);
    expect(possibleOutputs("XOR", ["low", "unknown"], "ttl")).toEqual(["high", "low", "pulsing"]);
  });
  test("one pulsing input with the others enabling passes on", () => {
    expect(possibleOutputs("NAND", ["high", "pulsing"], "ttl")).toEqual(["pulsing"]);
    expect(possibleOutputs("XOR", ["high", "pulsing"], "ttl")).toEqual(["pulsing"]);
  });
  test("two pulsing inputs may never be high at once", () => {
    expect(possibleOutputs("NAND", ["pulsing", "pulsing"], "ttl")).toEqual(["high", "pulsing"]);
  });
  test("a floating TTL input enables a NAND, a floating CMOS input decides nothing", () => {
    expect(possibleOutputs("NAND", ["floating", "high"], "ttl")).toEqual(["low"]);
    expect(possibleOutputs("NAND", ["floating", "high"], "cmos")).toEqual(["high", "low", "pulsing"]);
    expect(possibleOutputs("NAND", ["floating", "high"], "unknown")).toEqual(["high", "low", "pulsing"]);
    expect(possibleOutputs("NAND", ["floating", "low"], "cmos")).toEqual(["high"]);
  });
  test("thirteen unknown inputs take no time", () => {
    expect(possibleOutputs("NAND", Array<Signal>(13).fill("unknown"), "ttl")).toHaveLength(3);
  });
});

describe("input", () => {
  test("the number of inputs must fit", () => {
    expect(possibleOutputs("NOT", [], "ttl")).toEqual([]);
    expect(possibleOutputs("NOT", ["high", "low"], "ttl")).toEqual([]);
    expect(possibleOutputs("NAND", [], "ttl")).toEqual([]);
  });
  test("functions by name, any case", () => {
    expect(gateFunction(" nand ")).toBe("NAND");
    expect(gateFunction("AOI")).toBeUndefined();
  });
});
