// Claims about reading parts in place: other paths only lower a resistance and only raise a capacitance, so a sound
// part is never disproved whatever stands beside it.
import { describe, expect, test } from "vitest";
import {
  judgeCapacitanceInCircuit,
  judgeResistanceInCircuit,
} from "../../../server/src/compute/circuit/in-circuit";
import { parallelCapacitance, parallelResistance } from "../../../server/src/compute/circuit/parallel";
import { amount, describeSpice, measure, simulate } from "./spice";

/** Ohms between nodes a and 0 of a network of resistors, by the voltage that 1 mA makes. */
const ohms = (parts: readonly string[]): number =>
  measure("volts", ["i1 0 a dc 1m", ...parts, ".tran 1u 10u", ".measure tran volts find v(a) at=5u"]) / 1e-3;

/** A small generator with a fixed seed, so that a failing network can be looked at again. */
function generator(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

/** The part between a and 0, in a random mesh over four more nodes; every node has a path to ground. */
function mesh(part: number, random: () => number): string[] {
  const nodes = ["a", "0", "n1", "n2", "n3", "n4"];
  const value = () => (10 ** (2 + 3 * random())).toFixed(1);
  const lines = [`rx a 0 ${part}`, ...nodes.slice(2).map((node, i) => `rg${i} ${node} 0 ${value()}`)];
  for (let i = 0; i < 7; i += 1) {
    const from = nodes[Math.floor(random() * nodes.length)]!;
    const to = nodes[Math.floor(random() * nodes.length)]!;
    if (from !== to) lines.push(`r${i} ${from} ${to} ${value()}`);
  }
  return lines;
}

describeSpice("resistors in place by simulation", () => {
  test("resistors side by side come to what the formula says", () => {
    const simulated = ohms(["r1 a 0 4700", "r2 a 0 10k", "r3 a 0 22k"]);
    expect(simulated).toBeCloseTo(2791.58, 1);
    expect(amount(parallelResistance([4700, 10e3, 22e3]))).toBeCloseTo(simulated, 2);
  });

  test("no mesh disproves a sound part, at either end of its tolerance", () => {
    const random = generator(1978);
    const conclusions = new Set<string>();
    for (let i = 0; i < 30; i += 1) {
      const part = 4700 * (i % 2 === 0 ? 1.05 : 0.95);
      const reading = ohms(mesh(part, random));
      expect(reading).toBeLessThanOrEqual(part * (1 + 1e-6));
      const found = judgeResistanceInCircuit({ reading, uncertainty: 0.1, nominal: 4700, tolerance: 0.05 });
      if (!found.ok) throw new Error(found.reason);
      expect(found.conclusion).not.toBe("disproved");
      conclusions.add(found.conclusion);
    }
    expect(conclusions).toContain("inconclusive");
  });

  test("a part that drifted high is disproved where nothing hides it, and inconclusive where much does", () => {
    const judged = (reading: number) => {
      const found = judgeResistanceInCircuit({ reading, nominal: 4700, tolerance: 0.05 });
      return found.ok ? found.conclusion : found.reason;
    };
    expect(judged(ohms(["rx a 0 9k", "r1 a b 100k", "r2 b 0 100k"]))).toBe("disproved");
    expect(judged(ohms(["rx a 0 9k", "r1 a 0 1k"]))).toBe("inconclusive");
  });
});

describeSpice("capacitors in place by simulation", () => {
  /** Farads between a and 0, by how fast 1 mA raises the voltage. */
  const farads = (parts: readonly string[]): number => {
    const found = simulate([
      "i1 0 a pwl(0 0 1u 1m)",
      ...parts,
      ".options reltol=1e-6",
      ".tran 10u 2m 0 10u uic",
      ".measure tran early find v(a) at=1m",
      ".measure tran late find v(a) at=1.8m",
    ]);
    return (1e-3 * 0.8e-3) / (found.get("late")! - found.get("early")!);
  };
  test("neighbours add, so a sound part is not disproved and a lost one behind a big one is not seen", () => {
    const reading = farads(["c1 a 0 10u", "c2 a 0 4.7u", "c3 a 0 100n"]);
    expect(amount(parallelCapacitance([10e-6, 4.7e-6, 0.1e-6])) / reading).toBeCloseTo(1, 3);
    const judged = (value: number) => {
      const found = judgeCapacitanceInCircuit({ reading: value, nominal: 10e-6, tolerance: 0.2 });
      return found.ok ? found.conclusion : found.reason;
    };
    expect(judged(reading)).toBe("inconclusive");
    expect(judged(farads(["c1 a 0 8.1u"]))).toBe("not-disproved");
    expect(judged(farads(["c1 a 0 3u", "c2 a 0 100n"]))).toBe("disproved");
    expect(judged(farads(["c1 a 0 3u", "c2 a 0 47u"]))).toBe("inconclusive");
  });
});

describe("the generator", () => {
  test("spreads", () => {
    const random = generator(1);
    const values = Array.from({ length: 100 }, random);
    expect(Math.min(...values)).toBeLessThan(0.1);
    expect(Math.max(...values)).toBeGreaterThan(0.9);
  });
});
