// A standing voltage read as a logic level. A meter averages: a moving signal can read as anything in between.

import { formatValue } from "../../quantity/format-value";
import { type Advice, inWords } from "../../text/saying";
import { finite, notNegative, positive, type Result, refused } from "../result";
import type { Assessment } from "../verdict";
import { type Levels, levelComplaints } from "./family-levels";
import type { InputTechnology } from "./technology";

export type LogicLevel = "high" | "low" | "undefined";

/** What can bring a node between the levels; the likeliest first. */
export type BetweenCause = "off" | "floating" | "fighting" | "moving" | "weak-driver";

/** Where an open TTL input settles, volts: common practice, no source. */
export const FLOATING_TTL: readonly [low: number, high: number] = [1.4, 1.6];
/** How near that a reading still counts as floating, volts: common practice, no source. */
const FLOATING_MARGIN = 0.1;
/** How far past its rails a pin may read before something outside the logic is at work: common practice, no source. */
const BEYOND_RAIL = 0.5;

/** Volts to a level by what the receiving input takes; what it does not promise to take is "undefined". */
export function logicLevel(
  volts: number,
  receiving: Pick<Levels, "vih" | "vil">,
): Result<{ readonly ok: true; readonly level: LogicLevel; readonly formula: string }> {
  const bad = refused(finite("level", volts, "V"), ...levelComplaints(receiving));
  if (bad) return bad;
  const { vih, vil } = receiving;
  if (volts >= vih)
    return { ok: true, level: "high", formula: `${formatValue(volts, "V")} ≥ ${formatValue(vih, "V")}` };
  if (volts <= vil)
    return { ok: true, level: "low", formula: `${formatValue(volts, "V")} ≤ ${formatValue(vil, "V")}` };
  return {
    ok: true,
    level: "undefined",
    formula: `${formatValue(vil, "V")} < ${formatValue(volts, "V")} < ${formatValue(vih, "V")}`,
  };
}

export interface LevelInput {
  readonly volts: number;
  /** Half-width of the meter's uncertainty in V. */
  readonly uncertainty?: number;
  /** Levels of the input that reads this node. */
  readonly receiving: Pick<Levels, "vih" | "vil" | "source">;
  /** Levels the driving output promises, for a pin known to be a push-pull output. */
  readonly driving?: Pick<Levels, "voh" | "vol" | "source">;
  readonly technology: InputTechnology;
  /** The logic supply in V. */
  readonly supply?: number;
  /** Its output may be switched off, which leaves the node to the rest of the net: between the levels is then a doubt. */
  readonly mayBeOff?: boolean;
}

/** The level that a voltage stands for, and what may have brought it between the levels. */
export interface LevelAssessment extends Assessment {
  readonly level: LogicLevel;
  /** Empty where the level is clear. */
  readonly causes: readonly BetweenCause[];
}

/**
 * Between the levels is out of limits; a level that its driver does not promise, or one within the uncertainty of
 * a threshold, is suspect. Which level it ought to be is not judged here.
 */
export function compareToLevels(input: LevelInput): Result<LevelAssessment> {
  const { volts, uncertainty = 0, receiving, driving, supply } = input;
  const bad = refused(
    notNegative("uncertainty", uncertainty, "V"),
    supply === undefined ? undefined : positive("supply", supply, "V"),
  );
  const read = bad ?? logicLevel(volts, receiving);
  if (!read.ok) return read;
  const { level, formula } = read;
  const { source } = receiving;
  const base = { ok: true as const, level, formula, source };
  const typed = formatValue(volts, "V");

  if (
    volts + uncertainty < -BEYOND_RAIL ||
    (supply !== undefined && volts - uncertainty > supply + BEYOND_RAIL)
  ) {
    const rail = volts < 0 ? "below ground" : `above the supply of ${formatValue(supply ?? 0, "V")}`;
    return {
      ...base,
      verdict: "out-of-limits",
      causes: [],
      source: "common practice, no source",
      says: {
        fact: `${typed} is ${rail}.`,
        cause: "A higher or negative supply reaches this pin.",
        step: "Switch off and look for a short to it.",
      },
    };
  }
  if (level === "undefined") {
    const causes = betweenCauses(input);
    const [first, ...others] = causes;
    // Within the uncertainty of a threshold the node may be at its level after all.
    const near = volts + uncertainty >= receiving.vih || volts - uncertainty <= receiving.vil;
    return {
      ...base,
      verdict: near || input.mayBeOff ? "suspect" : "out-of-limits",
      causes,
      says: {
        fact: `${typed} is between low (at most ${formatValue(receiving.vil, "V")}) and high (at least ${formatValue(receiving.vih, "V")}).`,
        ...CAUSE[first],
        more: [
          likeOpenTtl(input) ? LIKE_OPEN : undefined,
          ...others.map((cause) => inWords({ fact: "", ...CAUSE[cause] })),
        ]
          .filter(Boolean)
          .join(" "),
        source: likeOpenTtl(input) ? "common practice, no source" : undefined,
      },
    };
  }
  const straddles =
    level === "high" ? volts - uncertainty < receiving.vih : volts + uncertainty > receiving.vil;
  if (straddles) {
    return {
      ...base,
      verdict: "suspect",
      causes: [],
      says: {
        fact: `${typed} reads ${level}, but the threshold is ${formatValue(level === "high" ? receiving.vih : receiving.vil, "V")}.`,
        cause: "Too close to tell with this meter.",
        step: "Read it again on a finer range.",
      },
    };
  }
  const weak =
    driving && (level === "high" ? volts + uncertainty < driving.voh : volts - uncertainty > driving.vol);
  if (weak) {
    const promised =
      level === "high"
        ? `at least ${formatValue(driving.voh, "V")}`
        : `at most ${formatValue(driving.vol, "V")}`;
    return {
      ...base,
      verdict: "suspect",
      causes: ["weak-driver"],
      source: driving.source,
      formula: `${typed} ${level === "high" ? "<" : ">"} ${formatValue(level === "high" ? driving.voh : driving.vol, "V")}`,
      says: { fact: `${typed} reads ${level}, but an output gives ${promised}.`, ...CAUSE["weak-driver"] },
    };
  }
  return {
    ...base,
    verdict: "within-limits",
    causes: [],
    says: { fact: `${typed} is ${level}.` },
  };
}

const CAUSE: Readonly<Record<BetweenCause, Advice>> = {
  off: {
    cause: "The output may be off, or the line moving.",
    step: "Hold the board still with its output enabled and read again.",
  },
  floating: {
    cause: "Nothing may drive it.",
    step: "Look for a missing driver, a missing pull-up or an open track.",
  },
  fighting: {
    cause: "Two outputs may fight over it.",
    step: "Feel which chip is warm, and lift one of the outputs on the net.",
  },
  moving: {
    cause: "A moving signal can average to this.",
    step: "Look with a probe or an oscilloscope first.",
  },
  "weak-driver": {
    cause: "The driver is weak, or overloaded by something on its net.",
    step: "Lift the pin and read it again.",
  },
};

const LIKE_OPEN = `An open TTL input settles at about ${FLOATING_TTL[0]} V to ${FLOATING_TTL[1]} V.`;

const likeOpenTtl = ({ volts, uncertainty = 0, technology, driving }: LevelInput): boolean => {
  const margin = FLOATING_MARGIN + uncertainty;
  return (
    !driving && technology === "ttl" && volts >= FLOATING_TTL[0] - margin && volts <= FLOATING_TTL[1] + margin
  );
};

function betweenCauses(input: LevelInput): readonly [BetweenCause, ...BetweenCause[]] {
  if (input.mayBeOff) return ["off", "fighting"];
  // A push-pull output that works is never undriven; an open CMOS input can sit anywhere.
  if (input.driving) return ["fighting", "moving"];
  if (input.technology === "ttl") {
    return likeOpenTtl(input) ? ["floating", "fighting", "moving"] : ["fighting", "moving"];
  }
  return ["fighting", "moving", "floating"];
}
