// What was tried as a whole, in words: an output fired, a game played.

import type { Reading } from "../log/model";
import type { LogContext } from "./context";
import { unjudged } from "./judgement-from";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement } from "./types";

/** Common practice, no source: what failed failed, and what did not was tried for a while. */
export function judgeTrial(
  reading: Reading,
  place: TestPoint | undefined,
  _ctx: LogContext,
): Judgement | undefined {
  const { value, subject } = reading;
  if (value.kind !== "result") return undefined;
  const driver = place ? `, ${testPointName(place)}` : "";
  const name = subject.item ? `${subject.item.text}${driver}` : place ? testPointName(place) : "This";
  const base = place ? { reading, place } : { reading };
  if (value.ok === undefined)
    return unjudged(
      reading,
      place,
      `${name}: "${value.typed}" decides nothing. Try it again, cold and warm.`,
    );
  return value.ok
    ? {
        ...base,
        verdict: "within-limits",
        says: {
          fact: `${name}: ${value.typed}.`,
          cause: "Not disproved. It was tried for a while, and may fail warm or under load.",
        },
      }
    : {
        ...base,
        verdict: "out-of-limits",
        code: "trial-failed",
        says: {
          fact: `${name}: ${value.typed}.`,
          cause: "The board, its connectors or what is plugged into it.",
          step: "Exchange plugs with a neighbour, or measure, to tell the board from its load.",
        },
      };
}
