// A transistor's readings on the diode range. They can disprove it; all six within their windows prove nothing about
// gain, breakdown or leakage.
import { say } from "../../quantity/say";
import { compare } from "../limits/compare";
import { comparisonText } from "../limits/text";
import { notNegative, type Outcome, refused } from "../outcome";
import { gravest, type Ruling, type Verdict } from "../verdict";
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
export const SHORT_BELOW = 0.05;

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

export interface PairRuling extends Pick<Ruling, "verdict" | "side" | "sentence" | "saysUnproven"> {
  readonly pair: JunctionPair;
  readonly expected: PairExpectation;
  readonly formula?: string;
  /** Whose window the sentence names; absent where it names none. */
  readonly sourceNamed?: string;
}

/** What several readings together suggest, with the source where the sentence names one. */
export interface JunctionHint {
  readonly sentence: string;
  readonly sourceNamed?: string;
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
export function judgeJunctions(input: JunctionInput): Outcome<JunctionRuling> {
  const read = JUNCTION_PAIRS.filter((pair) => input.readings[pair] !== undefined);
  const bad = refused(
    read.length === 0 ? "None of the six pairs was read." : undefined,
    ...read.map((pair) =>
      Number.isNaN(input.readings[pair]) ? `The ${pair} reading is not a number.` : undefined,
    ),
    notNegative("uncertainty", input.uncertainty ?? 0, "V"),
    ...Object.values(input.windows ?? {}).map(([low, high]) =>
      low <= high ? undefined : `The window ${say(low, "V")} to ${say(high, "V")} is empty.`,
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
  const reads = `${capital(where)} ${open ? "reads open" : `reads ${say(value, "V")}`}`;
  const rule = (verdict: Verdict, sentence: string, more: Partial<PairRuling> = {}): PairRuling => ({
    pair,
    expected,
    verdict,
    sentence,
    ...more,
  });
  const note = "note" in expected && expected.kind !== "either" ? ` ${expected.note}` : "";

  if (value + uncertainty < 0) {
    return rule(
      "impossible",
      `${reads}: the diode range does not show drops below zero on an unpowered board.`,
    );
  }
  if (!open && value + uncertainty < SHORT_BELOW) {
    const parallel = inCircuit ? " Lift the part to tell it from what lies across it." : "";
    const charged = expected.kind !== "either" && expected.note !== undefined && expected.kind === "open";
    return rule(charged ? "suspect" : "out-of-limits", `${reads}: shorted.${note}${parallel}`, {
      side: "low",
      formula: `${say(value, "V")} < ${say(SHORT_BELOW, "V")}`,
    });
  }
  if (expected.kind === "either") {
    return rule("unjudged", `${reads}: not judged, ${expected.note}.`);
  }
  if (expected.kind === "open") {
    if (open) return rule("within-limits", `${reads}, as it should. Not disproved.`, { saysUnproven: true });
    return inCircuit
      ? rule(
          "suspect",
          `${reads} where open is expected: other parts on the board may conduct.${note} Lift the part and read again.`,
        )
      : rule(
          "out-of-limits",
          `${reads} out of circuit where open is expected: the junction leaks or the leads are not where they are thought to be.${note}`,
        );
  }
  const [low, high] = junctionWindow(type, expected.window, input.windows);
  const sourceNamed =
    input.windows?.[expected.window] && input.windowSource !== undefined ? input.windowSource : SOURCE;
  const window = `${say(low, "V")} to ${say(high, "V")} (${sourceNamed})`;
  if (open) {
    return rule(
      "out-of-limits",
      `${reads}; a drop of ${window} is expected: the junction or a joint is open.`,
      { side: "high", formula: `∞ > ${say(high, "V")}`, sourceNamed },
    );
  }
  const held = compare(value, { low, high, unit: "V" }, { uncertainty });
  const { verdict, side } = held;
  const found = { side, formula: comparisonText(held, "arithmetic"), sourceNamed };
  if (verdict === "within-limits") {
    return rule(verdict, `${reads}, within ${window}. Not disproved.`, { ...found, saysUnproven: true });
  }
  if (verdict === "suspect") {
    return rule(verdict, `${reads}, which straddles ${window}: compare a sister part.`, found);
  }
  if (side === "low" && inCircuit) {
    return rule(
      "suspect",
      `${reads}, below ${window}: a resistor across it on the board lowers the reading.${note} Lift the part and read again.`,
      found,
    );
  }
  return rule(
    verdict,
    side === "low"
      ? `${reads} out of circuit, below ${window}: the junction leaks.${note}`
      : `${reads}, above ${window}: nothing beside it on a board can raise a drop, so the junction is failing or a joint is poor.`,
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
    return value !== undefined && value !== Number.POSITIVE_INFINITY && value >= SHORT_BELOW;
  };
  const isOpen = (pair: JunctionPair): boolean => readings[pair] === Number.POSITIVE_INFINITY;
  const drops = JUNCTION_PAIRS.filter((pair) => EXPECTED[type][pair].kind === "drop");
  const bipolar = type !== "N-MOSFET" && type !== "SCR";
  if (bipolar && drops.every((pair) => isOpen(pair) && conducts(MIRROR[pair]))) {
    const other = type.startsWith("NPN") ? "PNP" : "NPN";
    found.push({
      sentence: `Every junction conducts the other way round: the part is ${other}, or red and black are swapped.`,
    });
  }
  const [be, bc] = drops.map((pair) => readings[pair]);
  if ((type === "NPN" || type === "PNP") && be !== undefined && bc !== undefined) {
    if (
      Number.isFinite(be) &&
      Number.isFinite(bc) &&
      be >= SHORT_BELOW &&
      bc - be > 2 * uncertainty + 0.002
    ) {
      found.push({
        sentence: `The collector junction usually drops a little less than the emitter junction (${SOURCE}): collector and emitter may be swapped.`,
        sourceNamed: SOURCE,
      });
    }
  }
  return found;
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
