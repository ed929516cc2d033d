// What a known-good part in the place of a suspect came to.

import type { Reading } from "../log/model";
import { type SwapOutcome, swapOutcome } from "../log/timeline/swaps";
import type { Saying } from "../text/saying";
import type { LogContext } from "./context";
import { unjudged } from "./judgement-from";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement } from "./types";

/** Common practice, no source: what cures with another part in was the part, its socket or its contacts. */
export function judgeSwap(
  reading: Reading,
  place: TestPoint | undefined,
  _ctx: LogContext,
): Judgement | undefined {
  const { value } = reading;
  if (value.kind === "empty") return undefined;
  const outcome = swapOutcome(value.typed);
  if (outcome === undefined) return undefined;
  const name = place ? testPointName(place) : "This part";
  if (outcome === "worse")
    return unjudged(
      reading,
      place,
      `With another part at ${name} the board was worse. Look for a bent pin, a wrong type or a disturbed contact.`,
    );
  const base = place ? { reading, place } : { reading };
  return outcome === "same"
    ? {
        ...base,
        verdict: "within-limits",
        says: {
          fact: `Another part at ${name} changed nothing.`,
          cause: `${name} alone is not the cause. It is not proven.`,
        },
      }
    : {
        ...base,
        verdict: "out-of-limits",
        code: "swap-helped",
        says: SAYINGS[outcome](name),
      };
}

const SAYINGS: Readonly<Record<Exclude<SwapOutcome, "same" | "worse">, (name: string) => Saying>> = {
  cured: (name) => ({
    fact: `The fault was gone with another part at ${name}.`,
    cause: "It is the part, its socket or its contacts.",
    step: "Put the old one in again to tell which.",
  }),
  better: (name) => ({
    fact: `The fault was less with another part at ${name}.`,
    cause: "One cause of several, or a part near its limits.",
    step: "Check its supply and its load too.",
  }),
};
