import { describe, expect, test } from "vitest";
import { diagnose } from "../../../server/src/compute/diagnosis";
import { suspectName } from "../../../server/src/compute/diagnosis/suspects";
import type { DiagnosisFinding } from "../../../server/src/compute/diagnosis/types";
import { board, deviceOf, diagnosed, high, low, rowDead, share } from "./small-board";

const ids = (findings: readonly DiagnosisFinding[], conflict = 0): string[] =>
  (diagnosed(findings).conflicts[conflict]?.members ?? []).map(({ suspect }) => suspect.id);
const weights = (findings: readonly DiagnosisFinding[]): Map<string, number> =>
  new Map(diagnosed(findings).conflicts[0]?.members.map(({ suspect, weight }) => [suspect.id, weight]));

describe("conflict sets", () => {
  test("a net that reads low: its parts, its track, or the reading", () => {
    expect(ids([low("U1", "2")])).toEqual(["U1", "U2", "U3", "R1", "track A", "misreading U1 pin 2"]);
  });

  test("a pin that reads high is first of all its own chip's; a low one any chip's on the net", () => {
    const highs = weights([high("U1", "2")]);
    expect(highs.get("U1")).toBeGreaterThan(10 * (highs.get("U2") ?? 1));
    const lows = weights([low("U1", "4")]);
    expect(lows.get("U2")).toBeGreaterThan(0.5 * (lows.get("U1") ?? 1));
    expect(lows.get("R1") ?? 0).toBe(0);
  });

  test("several pins of one low net are one conflict, which a second pin makes harder to put down to a slip", () => {
    const one = diagnosed([low("U1", "2")]);
    const two = diagnosed([low("U1", "2"), low("U2", "1")]);
    expect(two.conflicts).toHaveLength(1);
    const slip = (d: typeof one) =>
      d.candidates.find(({ suspects }) => suspects.every(({ kind }) => kind === "misreading"))?.probability ??
      0;
    expect(slip(two)).toBeLessThan(slip(one) / 10);
  });

  test("a ground pin that reads high does not accuse the rest of ground; a rail that reads low accuses all of it", () => {
    expect(ids([high("U2", "7")])).toEqual(["U2", "joint U2.7", "misreading U2 pin 7"]);
    expect(ids([low("U2", "14")])).toEqual(["U1", "U2", "U3", "U4", "R1", "misreading U2 pin 14"]);
  });

  test("a gate: its chip first, then what else may hold the nets of its pins", () => {
    const found = weights([{ kind: "gate", ref: "U1", gate: "B", pins: ["3", "4"] }]);
    expect([...found.keys()]).toEqual([
      "U1",
      "joint U1.7",
      "joint U1.14",
      "U2",
      "track B",
      "misreading U1 gate B",
    ]);
    expect(found.get("U1")).toBeGreaterThan(found.get("U2") ?? 1);
  });

  test("a net whose pins differ is its track before its parts", () => {
    const pins = [
      { ref: "U1", pin: "4" },
      { ref: "U2", pin: "3" },
    ];
    expect(diagnosed([{ kind: "net", net: "B", pins }]).ranked[0]?.suspect.id).toBe("track B");
  });

  test("a dead line: what is on it and behind the gates on it", () => {
    const found = ids([{ kind: "matrix-line", net: "E" }]);
    const copper = ["track E", "joint U3.6", "joint U4.1", "track D"];
    expect(found).toEqual(expect.arrayContaining(["U3", "U4", "U2", ...copper, "misreading E"]));
    expect(found).not.toContain("BT1");
  });

  test("a symptom: its circuit, then all its neighbours together as likely as a share of it, then elsewhere", () => {
    const found = weights([rowDead]);
    expect(found.get("U4")).toBeLessThan((found.get("U2") ?? 0) / 5);
    expect(found.has("BT1")).toBe(false);
    expect(found.get("elsewhere Row dead")).toBe(1);
  });

  test("a part off the net: the net coming back accuses it, the net staying low takes it out of the first places", () => {
    const back = diagnosed([low("U1", "2"), { kind: "lift", ref: "U3", net: "A", cleared: true }]);
    expect(share(back, "U3")).toBeGreaterThan(0.85);
    const stays = diagnosed([low("U1", "2"), { kind: "lift", ref: "U3", net: "A", cleared: false }]);
    expect(share(stays, "U3")).toBeLessThan(share(diagnosed([low("U1", "2")]), "U3") / 5);
    expect(share(stays, "U3")).toBeGreaterThan(0);
  });
});

describe("the ranking", () => {
  test("several wrong pins of one chip outweigh one wrong pin on each of several", () => {
    const findings = [low("U1", "2"), low("U1", "4"), low("U1", "6")];
    const [first, second] = diagnosed(findings).ranked;
    expect(first?.suspect.id).toBe("U1");
    expect(first?.probability).toBeGreaterThan(10 * (second?.probability ?? 1));
  });

  test("the shares add up to one, and the bound is stated", () => {
    const { candidates, bound, completeUpTo } = diagnosed([rowDead, low("U1", "2"), high("U3", "5")]);
    expect(candidates.reduce((sum, { probability }) => sum + probability, 0)).toBeCloseTo(1, 9);
    expect(candidates.length).toBeGreaterThan(10);
    expect(completeUpTo).toBeGreaterThanOrEqual(3);
    expect(bound).toMatch(/^Complete/);
  });

  test("a reading within limits lowers a part and never takes it out, however many there are", () => {
    const before = diagnosed([rowDead]);
    const withinLimits = ["1", "3", "5", "2"].map((pin) => ({ ref: "U2", pin }));
    const after = diagnosed([rowDead], { withinLimits });
    expect(share(after, "U2")).toBeLessThan(share(before, "U2"));
    // The hidden share of faults is 0.3; the others share out the rest.
    expect(share(after, "U2") / share(before, "U2")).toBeGreaterThan(0.3);
  });

  test("a reading that contradicts the one found wrong puts it down to a slip", () => {
    const wrong = [high("U2", "2")];
    const again = diagnosed(wrong, { withinLimits: [{ ref: "U2", pin: "2" }] });
    expect(again.candidates[0]?.suspects.map(suspectName)).toEqual(["a mistake in the reading of U2 pin 2"]);
    expect(share(diagnosed(wrong), "U2")).toBeGreaterThan(0.5);
  });

  test("priors: near the battery, an aged electrolytic, the shop's own cures, a part already replaced", () => {
    const plain = diagnosed([rowDead]);
    expect(share(plain, "U1")).toBeGreaterThan(2 * share(plain, "U2"));
    expect(share(diagnosed([rowDead], { year: 2020 }), "C1")).toBeGreaterThan(1.5 * share(plain, "C1"));
    const cured = diagnosed([rowDead], { history: [{ ref: "u2", count: 6 }] });
    expect(cured.ranked[0]?.suspect.id).toBe("U2");
    expect(share(cured, "U3")).toBeGreaterThan(0);
    expect(share(diagnosed([rowDead], { replaced: ["U1"] }), "U1")).toBeLessThan(share(plain, "U1") / 5);
  });

  test("the history is smoothed: one more case for every part", () => {
    const cured = diagnosed([rowDead], {
      history: [
        { ref: "U2", count: 3 },
        { ref: "U9", count: 50 },
      ],
    });
    const factor = cured.candidates
      .find(({ suspects }) => suspects[0]?.id === "U2")
      ?.priors.get("U2")
      ?.find(({ name }) => name.includes("cured"));
    // Seven parts: 4 of 10 cases against 1 of 7.
    expect(factor?.factor).toBeCloseTo((4 / 10) * 7, 12);
    expect(factor?.name).toBe("3 of the 3 replacements that cured this symptom before");
  });

  test("every prior names its source", () => {
    for (const { priors } of diagnosed([rowDead], { year: 2020 }).candidates) {
      for (const factors of priors.values()) {
        for (const { source } of factors) expect(source).toBe("common practice, no source");
      }
    }
  });
});

describe("evidence", () => {
  test("for, against and not taken, in words that prove no part", () => {
    const { candidates } = diagnosed([rowDead, low("U1", "4")], { withinLimits: [{ ref: "U1", pin: "2" }] });
    const { evidence } = candidates.find(({ suspects }) => suspects.map(({ id }) => id).join() === "U1")!;
    expect(evidence.for).toEqual(["U1 pin 4 reads low on B.", '"Row dead" points to Rows.']);
    expect(evidence.against).toEqual([
      "U1: 1 of 4 signal pins read within limits. That makes it less likely; it cannot exclude it.",
    ]);
    expect(evidence.notTaken.map(({ ref, pin }) => `${ref} pin ${pin}`)).toEqual(["U1 pin 6", "U1 pin 1"]);
    for (const candidate of candidates) {
      const text = JSON.stringify(candidate.evidence);
      expect(text).not.toMatch(/\b(good|pass(ed|es)?|proven?|sound|ok)\b/i);
    }
  });
});

describe("bad input", () => {
  test("nothing found wrong: nothing suspected", () => {
    expect(diagnosed([])).toMatchObject({
      candidates: [],
      ranked: [],
      completeUpTo: Number.POSITIVE_INFINITY,
    });
  });

  test("what the board does not have is named and left out, the rest is used", () => {
    const result = diagnosed([
      low("U99", "1"),
      { kind: "gate", ref: "U98", gate: "A", pins: ["1"] },
      { kind: "net", net: "NOPE", pins: [] },
      { kind: "matrix-line", net: "NOPE" },
      { kind: "symptom", circuits: ["nowhere"] },
      { kind: "lift", ref: "U1", net: "NOPE", cleared: true },
      low("u1", "2"),
    ]);
    expect(result.problems).toHaveLength(6);
    expect(result.problems[0]).toBe("U99 is not a part of this board: the reading at its pin 1 is left out.");
    expect(result.ranked[0]?.suspect.id).toBe("U1");
  });

  test("an option that is no number is refused", () => {
    expect(diagnose({ board, deviceOf, findings: [rowDead] }, { maxSize: Number.NaN })).toMatchObject({
      ok: false,
    });
  });

  test("no node allowed: nothing listed by size, and it says so", () => {
    const result = diagnose({ board, deviceOf, findings: [rowDead] }, { maxNodes: 0 });
    expect(result).toMatchObject({ ok: true, completeUpTo: 0 });
    expect(result.ok && result.bound).toContain("Not complete");
  });

  test("the order of the findings changes nothing but the order of the reasons", () => {
    const findings = [rowDead, low("U1", "2"), high("U3", "5"), low("U2", "3")];
    const line = (list: readonly DiagnosisFinding[]) =>
      diagnosed(list).ranked.map(({ suspect, probability }) => `${suspect.id} ${probability.toFixed(9)}`);
    expect(line([...findings].reverse())).toEqual(line(findings));
    expect(line(findings)).toEqual(line(findings));
  });
});
