// What is said where recorded states are themselves in doubt.
import type { Advice } from "../../text/saying";

/** The advice where the states themselves are in doubt. */
export function withDoubts(advice: Advice, restsOnFloating: boolean, moves: boolean): Advice {
  if (restsOnFloating)
    return {
      cause: "This takes a floating TTL input as high.",
      step: "Find out first why it floats.",
      more: [advice.cause, advice.step].filter(Boolean).join(" "),
      source: "common practice, no source",
    };
  return moves
    ? { ...advice, step: "A pulsing pin moves between readings: read the pins again in one go first." }
    : advice;
}
