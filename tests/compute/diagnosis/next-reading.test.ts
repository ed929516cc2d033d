import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { entropy, expectedInformation } from "../../../server/src/compute/diagnosis/information";
import { nextReading } from "../../../server/src/compute/diagnosis/next-reading";
import type { DiagnosisFinding, DiagnosisInput } from "../../../server/src/compute/diagnosis/types";
import { board, deviceOf, diagnosed, high, low, rowDead } from "./small-board";

const advise = (
  findings: readonly DiagnosisFinding[],
  rest: Partial<DiagnosisInput> = {},
  options: Parameters<typeof nextReading>[2] = {},
) => nextReading({ board, deviceOf, findings, ...rest }, diagnosed(findings, rest), options);

describe("expected information", () => {
  test("worked by hand: halving four equal candidates is one bit, telling all apart is two", () => {
    const quarter = [0.25, 0.25, 0.25, 0.25];
    expect(entropy(quarter)).toBe(2);
    expect(
      expectedInformation(quarter, [
        [1, 0],
        [1, 0],
        [0, 1],
        [0, 1],
      ]),
    ).toBeCloseTo(1, 12);
    expect(
      expectedInformation(quarter, [
        [1, 0, 0, 0],
        [0, 1, 0, 0],
        [0, 0, 1, 0],
        [0, 0, 0, 1],
      ]),
    ).toBeCloseTo(2, 12);
    expect(
      expectedInformation(quarter, [
        [0.3, 0.7],
        [0.3, 0.7],
        [0.3, 0.7],
        [0.3, 0.7],
      ]),
    ).toBeCloseTo(0, 12);
  });

  test("is the mutual information, worked the other way round", () => {
    const weight = fc.double({ min: 0.01, max: 1, noNaN: true });
    fc.assert(
      fc.property(fc.array(fc.tuple(weight, weight, weight), { minLength: 1, maxLength: 6 }), (rows) => {
        const total = rows.reduce((sum, [share]) => sum + share, 0);
        const shares = rows.map(([share]) => share / total);
        const likelihood = rows.map(([, a, b]) => [a / (a + b), b / (a + b)]);
        // H(outcome) - sum of share x H(outcome where the candidate is true)
        const outcome = [0, 1].map((o) => shares.reduce((sum, s, i) => sum + s * likelihood[i]![o]!, 0));
        const noise = shares.reduce((sum, s, i) => sum + s * entropy(likelihood[i]!), 0);
        expect(expectedInformation(shares, likelihood)).toBeCloseTo(Math.max(0, entropy(outcome) - noise), 9);
      }),
      { seed: 6 },
    );
  });
});

describe("the next reading", () => {
  test("a lone wrong reading is read again before anything is taken out", () => {
    expect(advise([high("U2", "2")]).best).toMatchObject({ kind: "read-again", ref: "U2", pin: "2" });
  });

  test("a low net seen twice: the socketed chip comes off before any pin is lifted", () => {
    const { best, runnersUp } = advise(
      [low("U1", "2"), low("U2", "1"), low("U3", "1")],
      {},
      { runnersUp: 50 },
    );
    const off = [best, ...runnersUp].filter(
      (reading) => reading?.kind === "pull" || reading?.kind === "lift",
    );
    expect(off[0]).toMatchObject({ kind: "pull", ref: "U3", net: "A" });
    expect(off[0]?.reason).toContain("With power off, pull U3 from its socket and read A again");
  });

  test("nothing is advised twice", () => {
    const findings: DiagnosisFinding[] = [rowDead];
    const withinLimits: { ref: string; pin: string }[] = [];
    const seen = new Set<string>();
    for (let i = 0; i < 30; i += 1) {
      const { best } = advise(findings, { withinLimits });
      if (!best) break;
      const key = `${best.kind} ${best.ref}.${best.pin}`;
      expect(seen).not.toContain(key);
      seen.add(key);
      withinLimits.push({ ref: best.ref, pin: best.pin ?? "" });
    }
    expect(seen.size).toBeGreaterThan(5);
  });

  test("the best is worth most a minute, each with its reason and price", () => {
    const { best, runnersUp, bits } = advise([rowDead], {}, { runnersUp: 4 });
    const rates = [best, ...runnersUp].map((reading) => reading?.bitsPerMinute ?? 0);
    expect(rates).toHaveLength(5);
    expect(rates).toEqual([...rates].sort((a, b) => b - a));
    expect(best?.bits).toBeLessThanOrEqual(bits);
    expect(best?.reason).toMatch(
      /^Diode check U\d pin \d+ \([A-F]\), unpowered: .+ would speak for .+ against .+ It takes about \d+ (?:s|min)\.$/,
    );
  });

  test("logic states only where power is said to be allowed", () => {
    const kinds = (powered: boolean) => {
      const { best, runnersUp } = advise([rowDead], {}, { powered, runnersUp: 200 });
      return new Set([best, ...runnersUp].map((reading) => reading?.kind));
    };
    expect(kinds(false)).not.toContain("gate-states");
    expect(kinds(true)).toContain("gate-states");
  });

  test("the bench's own minutes count; those that are none are left", () => {
    const twice = [low("U1", "2"), low("U2", "1"), low("U3", "1")];
    const quick = advise(twice, {}, { minutes: { lift: 0.01 } });
    expect(quick.best).toMatchObject({ kind: "lift", minutes: 0.01 });
    expect(advise(twice, {}, { minutes: { lift: -1 } })).toEqual(advise(twice));
  });

  test("nothing suspected: nothing to read, and it is said why", () => {
    const none = "Nothing was found wrong, so nothing is suspected.";
    expect(advise([])).toEqual({ bits: 0, runnersUp: [], none });
  });
});
