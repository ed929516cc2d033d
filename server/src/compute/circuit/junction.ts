// A transistor's readings on the diode range. They can disprove it; all six within their windows prove nothing about
// gain, breakdown or leakage.

import { formatValue } from "../../quantity/format-value";
import type { Saying } from "../../text/saying";
import { compareToLimits } from "../limits/compare";
import { comparisonText } from "../limits/text";
import { notNegative, type Result, refused } from "../result";
import { type Assessment, gravest, type Verdict } from "../verdict";
import {
  DARLINGTON_BASE_EMITTER,
  EXPECTED,
  JUNCTION_PAIRS,
  type JunctionPair,
  type JunctionType,
  type JunctionWindow,
  leadNames,
  type PairExpectation,
  USUAL_WINDOWS,
} from "./junction-table";

/** Below this a pair counts as shorted, volts: common practice, no source. */
export const JUNCTION_SHORT_BELOW = 0.05;

const SOURCE = "common practice, no source";

export interface JunctionInput {
  readonly type: JunctionType;
  /** Volts by pair, infinity for overload; a pair that was not read is left out. */
  readonly readings: Readonly<Partial<Record<JunctionPair, number>>>;
  /** Half-width of the meter's uncertainty in volts. */
  readonly uncertainty?: number;
  /** Windows of the device's own file, volts; the usual ones otherwise. */
  readonly windows?: Readonly<Partial<Record<JunctionWindow, readonly [low: number, high: number]>>>;
  readonly windowSource?: string;
  /** True (where nothing is said) with the part on the board, whose resistors lower every reading. */
  readonly inCircuit?: boolean;
}

export interface PairRuling extends Pick<Assessment, "verdict" | "side" | "says" | "saysUnproven"> {
  readonly pair: JunctionPair;
  readonly expected: PairExpectation;
  readonly formula?: string;
}

/** What several readings together suggest, in a full sentence. */
export interface JunctionHint {
  readonly suggests: string;
  readonly source?: string;
}

export interface JunctionRuling {
  readonly ok: true;
  /** The gravest of the pairs'. */
  readonly verdict: Verdict;
  /** In the table's order; pairs not read are left out. */
  readonly pairs: readonly PairRuling[];
  /** What the readings together suggest beyond the single pairs. */
  readonly hints: readonly JunctionHint[];
  readonly source: string;
}

export const expectedPair = (type: JunctionType, pair: JunctionPair): PairExpectation => EXPECTED[type][pair];

/** Window in volts for a junction of this type, the device's own first. */
export function junctionWindow(
  type: JunctionType,
  window: JunctionWindow,
  own: JunctionInput["windows"] = {},
): readonly [low: number, high: number] {
  const darlington = window === "base-emitter" && type.endsWith("-Darlington");
  return own[window] ?? (darlington ? DARLINGTON_BASE_EMITTER : USUAL_WINDOWS[window]);
}

/** Judges each pair that was read; refuses readings that are not numbers, or none at all. */
export function judgeJunctions(input: JunctionInput): Result<JunctionRuling> {
  const read = JUNCTION_PAIRS.filter((pair) => input.readings[pair] !== undefined);
  const bad = refused(
    read.length === 0 ? "None of the six pairs was read." : undefined,
    ...read.map((pair) =>
      Number.isNaN(input.readings[pair]) ? `The ${pair} reading is not a number.` : undefined,
    ),
    notNegative("uncertainty", input.uncertainty ?? 0, "V"),
    ...Object.values(input.windows ?? {}).map(([low, high]) =>
      low <= high ? undefined : `The window ${formatValue(low, "V")} to ${formatValue(high, "V")} is empty.`,
    ),
  );
  if (bad) return bad;
  const pairs = read.map((pair) => judgePair(pair, input.readings[pair]!, input));
  return {
    ok: true,
    verdict: gravest(pairs.map(({ verdict }) => verdict)),
    pairs,
    hints: hints(input),
    source: input.windows && input.windowSource !== undefined ? input.windowSource : SOURCE,
  };
}

function judgePair(pair: JunctionPair, value: number, input: JunctionInput): PairRuling {
  const { type, uncertainty = 0, inCircuit = true } = input;
  const expected = EXPECTED[type][pair];
  const names = leadNames(type);
  const where = `${names[pair[0] as "b"]} to ${names[pair[1] as "b"]}`;
  const open = value === Number.POSITIVE_INFINITY;
  const reads = `${capital(where)} ${open ? "reads open" : `reads ${formatValue(value, "V")}`}`;
  const rule = (verdict: Verdict, says: Saying, more: Partial<PairRuling> = {}): PairRuling => ({
    pair,
    expected,
    verdict,
    says,
    ...more,
  });
  const note = "note" in expected && expected.kind !== "either" ? expected.note : undefined;

  if (value + uncertainty < 0) {
    return rule("impossible", {
      fact: `${reads}; a drop on an unpowered board cannot be below 0.`,
      step: "Check the sign, or whether the leads were swapped.",
    });
  }
  if (!open && value + uncertainty < JUNCTION_SHORT_BELOW) {
    const step = inCircuit ? "Lift the part: something across it may be what is shorted." : undefined;
    const charged = expected.kind !== "either" && expected.note !== undefined && expected.kind === "open";
    const fact = `${reads}; below ${formatValue(JUNCTION_SHORT_BELOW, "V")} is a short.`;
    return rule(
      charged ? "suspect" : "out-of-limits",
      { fact, cause: note, step },
      {
        side: "low",
        formula: `${formatValue(value, "V")} < ${formatValue(JUNCTION_SHORT_BELOW, "V")}`,
      },
    );
  }
  if (expected.kind === "either") {
    return rule("unjudged", { fact: `${reads}: not judged, ${expected.note}.` });
  }
  if (expected.kind === "open") {
    if (open)
      return rule(
        "within-limits",
        { fact: `${reads}, as it should.`, cause: "Not disproved." },
        { saysUnproven: true },
      );
    return inCircuit
      ? rule("suspect", {
          fact: `${reads}; it should read open.`,
          cause: note ?? "Other parts on the board may conduct.",
          step: "Lift the part and read it again.",
        })
      : rule("out-of-limits", {
          fact: `${reads} out of circuit; it should read open.`,
          cause: note ?? "The junction leaks, or the leads were on other legs.",
          step: "Check the leads and read it again.",
        });
  }
  const [low, high] = junctionWindow(type, expected.window, input.windows);
  const window = `${formatValue(low, "V")} to ${formatValue(high, "V")}`;
  const fact = `${reads}; usual is ${window}.`;
  if (open) {
    return rule(
      "out-of-limits",
      {
        fact,
        cause: "The junction or a joint is open.",
        step: "Check its joints, then replace it.",
      },
      { side: "high", formula: `∞ > ${formatValue(high, "V")}` },
    );
  }
  const held = compareToLimits(value, { low, high, unit: "V" }, { uncertainty });
  const { verdict, side } = held;
  const found = { side, formula: comparisonText(held, "arithmetic") };
  if (verdict === "within-limits") {
    return rule(
      verdict,
      { fact: `${reads}, within ${window}.`, cause: "Not disproved." },
      { ...found, saysUnproven: true },
    );
  }
  if (verdict === "suspect") {
    return rule(
      verdict,
      { fact, cause: "Too close to the limit to tell.", step: "Compare a sister part." },
      found,
    );
  }
  if (side === "low" && inCircuit) {
    return rule(
      "suspect",
      {
        fact,
        cause: note ?? "A resistor across it on the board lowers the reading.",
        step: "Lift the part and read it again.",
      },
      found,
    );
  }
  return rule(
    verdict,
    side === "low"
      ? { fact: `${reads} out of circuit; usual is ${window}.`, cause: note ?? "The junction leaks." }
      : {
          fact,
          cause: "The junction is failing or a joint is poor: no part beside it can raise a drop.",
          step: "Check its joints, then replace it.",
        },
    found,
  );
}

/** The same two leads with red and black the other way round. */
export const MIRROR: Readonly<Record<JunctionPair, JunctionPair>> = {
  be: "eb",
  bc: "cb",
  ce: "ec",
  eb: "be",
  cb: "bc",
  ec: "ce",
};

function hints({ type, readings, uncertainty = 0 }: JunctionInput): JunctionHint[] {
  const found: JunctionHint[] = [];
  const conducts = (pair: JunctionPair): boolean => {
    const value = readings[pair];
    return value !== undefined && value !== Number.POSITIVE_INFINITY && value >= JUNCTION_SHORT_BELOW;
  };
  const isOpen = (pair: JunctionPair): boolean => readings[pair] === Number.POSITIVE_INFINITY;
  const drops = JUNCTION_PAIRS.filter((pair) => EXPECTED[type][pair].kind === "drop");
  const bipolar = type !== "N-MOSFET" && type !== "SCR";
  if (bipolar && drops.every((pair) => isOpen(pair) && conducts(MIRROR[pair]))) {
    const other = type.startsWith("NPN") ? "PNP" : "NPN";
    found.push({
      suggests: `Every junction conducts the other way round: the part is ${other}, or the leads are swapped.`,
    });
  }
  const [be, bc] = drops.map((pair) => readings[pair]);
  if ((type === "NPN" || type === "PNP") && be !== undefined && bc !== undefined) {
    if (
      Number.isFinite(be) &&
      Number.isFinite(bc) &&
      be >= JUNCTION_SHORT_BELOW &&
      bc - be > 2 * uncertainty + 0.002
    ) {
      found.push({
        suggests: "Collector and emitter may be swapped: the collector junction usually drops a little less.",
        source: SOURCE,
      });
    }
  }
  return found;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
