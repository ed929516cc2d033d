// What a logic probe showed at a pin that has no logic state to show: ground and the supply.
import type { Reading } from "../log/model";
import { supplyWindow } from "./supply-window";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement } from "./types";

const CODE = "level-undefined";

/** Undefined for signal pins: what they ought to show hangs on the others, which the truth tables ask. */
export function judgeState(reading: Reading, place: TestPoint | undefined): Judgement | undefined {
  const { value } = reading;
  const direction = place?.pin?.direction;
  if (!place || value.kind !== "state" || (direction !== "ground" && direction !== "supply"))
    return undefined;
  const due = direction === "ground" ? "low" : supplyState(place);
  if (due === undefined) return undefined;
  if (value.state === due) {
    return {
      reading,
      place,
      verdict: "within-limits",
      says: { fact: `${testPointName(place)} reads ${value.state}, as it should.`, cause: "Not disproved." },
    };
  }
  const advice =
    direction === "ground"
      ? {
          cause: "The path to ground is open.",
          step: "Check the pin's joint, the socket contact and the track first.",
        }
      : {
          cause: "No supply reaches the pin.",
          step: "Check the rail, the pin's joint, the socket contact and the track first.",
        };
  return {
    reading,
    place,
    verdict: "out-of-limits",
    code: CODE,
    formula: `${value.state}, not ${due}`,
    says: {
      fact: `${testPointName(place)} reads ${value.state}; ${direction === "ground" ? "a ground" : "this supply"} pin should be ${due}.`,
      ...advice,
    },
  };
}

/**
 * A probe on a supply below zero shows low; where nothing says which the supply is (VEE, V-), neither is wrong: it is
 * ground on many boards.
 */
function supplyState({ pin, device, family }: TestPoint): "high" | "low" | undefined {
  if (!pin || !device) return "high";
  const window = supplyWindow(pin, device, family);
  if (window) return window.high <= 0 ? "low" : "high";
  return /^(?:v-|-v|vee|vbb|vss|-)/i.test(pin.name.trim()) ? undefined : "high";
}
