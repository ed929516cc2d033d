// What a tester said of a chip that was off the board.

import type { Reading } from "../log/model";
import type { LogContext } from "./context";
import { unjudged } from "./judgement-from";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement } from "./types";

/** Common practice, no source: what fails alone is itself the fault, and what passes was tried slowly, cold and unloaded. */
export function judgeChipTest(
  reading: Reading,
  place: TestPoint | undefined,
  _ctx: LogContext,
): Judgement | undefined {
  const { value } = reading;
  if (value.kind !== "result") return undefined;
  const name = place ? testPointName(place) : "This chip";
  if (value.ok === undefined)
    return unjudged(
      reading,
      place,
      `${name}: "${value.typed}" decides nothing. Clean its legs and test it again, cold and warm.`,
    );
  const base = place ? { reading, place } : { reading };
  return value.ok
    ? {
        ...base,
        verdict: "within-limits",
        says: {
          fact: `${name} showed no fault in that test.`,
          cause: "Not disproved. It may still fail warm or at speed.",
        },
      }
    : {
        ...base,
        verdict: "out-of-limits",
        code: "chip-test-failed",
        says: {
          fact: `${name} failed its test out of circuit.`,
          cause: "Nothing else was on its pins, so the chip is disproved.",
          step: "Clean its legs and test it again, then renew it, in a socket.",
        },
      };
}
