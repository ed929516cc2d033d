// A coil's resistance says what its driver and fuse will have to carry when the board goes back.
import { defined } from "../../base/defined";
import { say } from "../../quantity/say";
import { compare, type Side } from "../limits/compare";
import { computed, notNegative, type Outcome, positive, readable, refused } from "../outcome";
import { gravest, type Verdict } from "../verdict";

const OHM = "Ohm's law";

export interface CoilInput {
  /** Coil supply in V and resistance in ohm, both above zero. */
  readonly supply: number;
  readonly resistance: number;
}

const parts = ({ supply, resistance }: CoilInput) =>
  refused(positive("coil supply", supply, "V"), positive("coil resistance", resistance, "ohm"));

/** Steady current in A. The winding's inductance only delays it. */
export const coilCurrent = (input: CoilInput): Outcome =>
  parts(input) ??
  computed(
    input.supply / input.resistance,
    "A",
    `${say(input.supply, "V")} / ${say(input.resistance, "ohm")}`,
    OHM,
  );

/** Heat in W while held on. */
export const coilPower = (input: CoilInput): Outcome =>
  parts(input) ??
  computed(
    input.supply ** 2 / input.resistance,
    "W",
    `(${say(input.supply, "V")})² / ${say(input.resistance, "ohm")}`,
    OHM,
  );

export interface Limit {
  /** Amperes, above zero. */
  readonly value: number;
  readonly source: string;
}

export interface JudgeCoilInput {
  readonly supply: number;
  /** Ohms as read less the leads; 0 for a short and infinity for an open winding are answers, not errors. */
  readonly resistance: number;
  /** Half-width of the resistance's uncertainty in ohm. */
  readonly uncertainty?: number;
  /** What the driver transistor carries continuously. */
  readonly transistor?: Limit;
  readonly fuse?: Limit;
}

export interface CoilRuling {
  readonly ok: true;
  readonly verdict: Verdict;
  /** Which way the resistance left what keeps the current within the limits; absent within them. */
  readonly side?: Side;
  /** Amperes and watts, infinite for a short. */
  readonly current: number;
  readonly power: number;
  /** One a limit: the driver first, then the fuse. */
  readonly sentences: readonly string[];
  readonly formula: string;
  readonly source: string;
}

/**
 * A coil's current against its driver and its fuse. Above the driver's limit is out of limits; above the fuse's
 * rating only suspect, since fuses carry short pulses above it.
 */
export function judgeCoil(input: JudgeCoilInput): Outcome<CoilRuling> {
  const { supply, resistance, uncertainty = 0, transistor, fuse } = input;
  const bad = refused(
    positive("coil supply", supply, "V"),
    readable("coil resistance", resistance, "ohm"),
    notNegative("uncertainty", uncertainty, "ohm"),
    transistor && positive("transistor's limit", transistor.value, "A"),
    fuse && positive("fuse's rating", fuse.value, "A"),
  );
  if (bad) return bad;
  if (resistance === Number.POSITIVE_INFINITY) {
    return extreme(
      "high",
      0,
      "The winding is open: no current flows. Look at the lugs first, the wire breaks there.",
    );
  }
  if (resistance === 0) {
    return extreme(
      "low",
      Number.POSITIVE_INFINITY,
      "The winding is shorted: only the wiring limits the current. Do not connect it, it destroys the driver.",
    );
  }
  const current = coilCurrent(input);
  const power = coilPower(input);
  if (!current.ok) return current;
  if (!power.ok) return power;
  // The resistance's uncertainty moves the current unevenly, and without end where it reaches zero.
  const range: readonly [number, number] = [
    supply / (resistance + uncertainty),
    uncertainty < resistance ? supply / (resistance - uncertainty) : Number.POSITIVE_INFINITY,
  ];
  const draws = `The coil draws ${say(current.value, "A")}`;
  const verdicts: Verdict[] = [];
  const sentences: string[] = [];
  if (transistor) {
    const held = compare(current.value, { high: transistor.value, unit: "A" }, { uncertainty: range });
    verdicts.push(held.verdict);
    const limit = `the ${say(transistor.value, "A")} its driver carries (${transistor.source})`;
    sentences.push(
      held.verdict === "within-limits"
        ? `${draws}, within ${limit}.`
        : held.verdict === "suspect"
          ? `${draws}, at the edge of ${limit}: read the resistance again with the leads' own taken off.`
          : `${draws}, above ${limit}. It has shorted turns or is the wrong coil: do not connect it.`,
    );
  }
  if (fuse) {
    const held = compare(current.value, { high: fuse.value, unit: "A" }, { uncertainty: range });
    verdicts.push(held.verdict === "out-of-limits" ? "suspect" : held.verdict);
    const limit = `the fuse's ${say(fuse.value, "A")} (${fuse.source})`;
    sentences.push(
      held.verdict === "within-limits"
        ? `${draws}, within ${limit}.`
        : `${draws}, above or at ${limit}: the fuse carries that for short pulses only and opens when the coil is held on.`,
    );
  }
  if (verdicts.length === 0) sentences.push(`${draws}; neither the driver's limit nor the fuse is known.`);
  const verdict = gravest(verdicts);
  return defined({
    ok: true,
    verdict,
    // Too much current is too little resistance.
    side: verdict === "out-of-limits" || verdict === "suspect" ? "low" : undefined,
    current: current.value,
    power: power.value,
    sentences,
    formula: `${current.formula}; ${power.formula}`,
    source: OHM,
  });

  function extreme(side: Side, amperes: number, sentence: string): CoilRuling {
    return {
      ok: true,
      verdict: "out-of-limits",
      side,
      current: amperes,
      power: amperes * supply,
      sentences: [sentence],
      formula: `${say(supply, "V")} / ${say(resistance, "ohm")}`,
      source: OHM,
    };
  }
}
