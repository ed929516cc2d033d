// Digits copied off the diode range without their point. What they stand for is asked and never guessed at: it may be the
// difference between a sound pin and a dead one.
import type { Verdict } from "../compute/verdict";
import type { Reading } from "../log/model";
import { parseQuantity, type Quantity } from "../quantity/quantity";
import { DIODE_LIMIT, possibleReadings } from "../quantity/whole-digits";
import type { LogContext } from "./context";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement } from "./types";
import { testVoltage } from "./uncertainty";

/** A reading that digits may stand for, and how it would be judged. */
export interface Pointed {
  /** With its unit: "0.142 V". */
  readonly text: string;
  readonly verdict: Verdict;
}

const ORDER: readonly Verdict[] = ["within-limits", "suspect", "unjudged", "out-of-limits"];
const WORDS: { readonly [verdict in Verdict]?: string } = {
  "within-limits": "within limits",
  suspect: "suspect",
  "out-of-limits": "out of limits",
};

/**
 * What digits without a point may be, the likelier by the pin's window first; empty where the reading has its point, or
 * needs none.
 * @param judge gives the verdict of a reading
 */
export function pointedReadings(
  reading: Reading,
  ctx: LogContext,
  judge: (reading: Reading) => Judgement,
): readonly Pointed[] {
  const { value, table } = reading;
  const fn = table.procedure.meter?.function;
  if (fn !== "diode" || value.kind !== "quantity" || value.quantity.dimension !== "voltage") return [];
  const limit = testVoltage(ctx.meter, fn) ?? DIODE_LIMIT;
  // A column of millivolts is one where the header or the other readings say so: there the number is what it is.
  if (value.quantity.value <= limit) return [];
  const all = possibleReadings(value.typed, { limit }).flatMap((number): Pointed[] => {
    const text = `${number} V`;
    const read = parseQuantity(text, { unit: "V" });
    return read.ok ? [{ text, verdict: judge(readingOf(reading, text, read.quantity)).verdict }] : [];
  });
  const rank = ({ verdict }: Pointed) => (ORDER.indexOf(verdict) + ORDER.length) % ORDER.length;
  return all.toSorted((a, b) => rank(a) - rank(b));
}

/** As if it had been typed with its point. */
export const readingOf = (reading: Reading, typed: string, quantity: Quantity): Reading => ({
  ...reading,
  value: { kind: "quantity", typed, quantity, approx: false },
});

export function judgePoint(
  reading: Reading,
  place: TestPoint | undefined,
  mayBe: readonly Pointed[],
): Judgement | undefined {
  if (mayBe.length === 0) return undefined;
  const choices = mayBe.map(({ text, verdict }) =>
    mayBe.length === 1 || WORDS[verdict] === undefined ? text : `${text} (${WORDS[verdict]})`,
  );
  const name = place ? testPointName(place) : "This";
  const judged = {
    reading,
    verdict: "unjudged" as const,
    code: "point-missing" as const,
    mayBe,
    says: {
      fact: `${name} reads ${reading.value.typed} without its point: ${choices.join(" or ")}?`,
      step: "It is not judged until the point is there.",
    },
  };
  return place ? { ...judged, place } : judged;
}
