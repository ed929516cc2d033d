// A coil's resistance says what its driver and fuse will have to carry when the board goes back.

import { defined } from "../../base/defined";
import { formatValue } from "../../quantity/format-value";
import type { Saying } from "../../text/saying";
import { compareToLimits, type Side } from "../limits/compare";
import { computed, notNegative, positive, type Result, readable, refused } from "../result";
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
export const coilCurrent = (input: CoilInput): Result =>
  parts(input) ??
  computed(
    input.supply / input.resistance,
    "A",
    `${formatValue(input.supply, "V")} / ${formatValue(input.resistance, "ohm")}`,
    OHM,
  );

/** Heat in W while held on. */
export const coilPower = (input: CoilInput): Result =>
  parts(input) ??
  computed(
    input.supply ** 2 / input.resistance,
    "W",
    `(${formatValue(input.supply, "V")})² / ${formatValue(input.resistance, "ohm")}`,
    OHM,
  );

/** The most that something carries, with whose figure it is. */
export interface CurrentLimit {
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
  readonly transistor?: CurrentLimit;
  readonly fuse?: CurrentLimit;
}

export interface CoilSaying extends Saying {
  readonly verdict: Verdict;
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
  readonly says: readonly CoilSaying[];
  readonly formula: string;
  readonly source: string;
}

/**
 * A coil's current against its driver and its fuse. Above the driver's limit is out of limits; above the fuse's
 * rating only suspect, since fuses carry short pulses above it.
 */
export function judgeCoil(input: JudgeCoilInput): Result<CoilRuling> {
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
    return extreme("high", 0, {
      fact: "No current flows.",
      cause: "The winding is open.",
      step: "Check the lugs first: the wire breaks there.",
    });
  }
  if (resistance === 0) {
    return extreme("low", Number.POSITIVE_INFINITY, {
      fact: transistor
        ? `Only the wiring limits its current; its driver carries ${formatValue(transistor.value, "A")}.`
        : "Only the wiring limits its current.",
      cause: "The winding is shorted.",
      step: "Do not connect it: it destroys the driver.",
    });
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
  const draws = `The coil draws ${formatValue(current.value, "A")}`;
  const told: CoilSaying[] = [];
  if (transistor) {
    const held = compareToLimits(
      current.value,
      { high: transistor.value, unit: "A" },
      { uncertainty: range },
    );
    const base = {
      verdict: held.verdict,
      fact: `${draws}; its driver carries ${formatValue(transistor.value, "A")}.`,
      source: transistor.source,
    };
    told.push(
      held.verdict === "within-limits"
        ? base
        : held.verdict === "suspect"
          ? {
              ...base,
              cause: "Too close to tell.",
              step: "Take off the leads' own resistance and read it again.",
            }
          : { ...base, cause: "It has shorted turns or is the wrong coil.", step: "Do not connect it." },
    );
  }
  if (fuse) {
    const held = compareToLimits(current.value, { high: fuse.value, unit: "A" }, { uncertainty: range });
    const base = {
      verdict: held.verdict === "out-of-limits" ? ("suspect" as const) : held.verdict,
      fact: `${draws}; its fuse is ${formatValue(fuse.value, "A")}.`,
      source: fuse.source,
    };
    told.push(
      held.verdict === "within-limits"
        ? base
        : {
            ...base,
            cause: "The fuse carries that for short pulses only. It blows when the coil is held on.",
          },
    );
  }
  const verdict = gravest(told.map((each) => each.verdict));
  if (told.length === 0)
    told.push({ verdict, fact: `${draws}; neither the driver's limit nor the fuse is known.` });
  return defined({
    ok: true,
    verdict,
    // Too much current is too little resistance.
    side: verdict === "out-of-limits" || verdict === "suspect" ? "low" : undefined,
    current: current.value,
    power: power.value,
    says: told,
    formula: `${current.formula}; ${power.formula}`,
    source: OHM,
  });

  function extreme(side: Side, amperes: number, says: Saying): CoilRuling {
    return {
      ok: true,
      verdict: "out-of-limits",
      side,
      current: amperes,
      power: amperes * supply,
      says: [{ ...says, verdict: "out-of-limits" }],
      formula: `${formatValue(supply, "V")} / ${formatValue(resistance, "ohm")}`,
      source: OHM,
    };
  }
}
