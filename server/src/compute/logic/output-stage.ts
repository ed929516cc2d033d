import type { PinDirection } from "../../knowledge/types";
import type { LogicState } from "../../quantity/words";
import type { Behaviour } from "./gates";

/** How an output drives its net, which decides what may be seen there besides what its gate asks for. */
export type OutputStage = "push-pull" | "open-collector" | "open-emitter" | "three-state";

/** How a pin of this direction drives its net; undefined for pins that drive none and for those that go both ways. */
export function outputStage(direction: PinDirection | undefined): OutputStage | undefined {
  if (direction === "output") return "push-pull";
  if (direction === "open-collector" || direction === "open-emitter" || direction === "three-state")
    return direction;
  return undefined;
}

const NOTHING_SAID: readonly LogicState[] = ["high", "low", "pulsing", "floating"];

/**
 * The states a probe may find at an output whose gate behaves so, others on the net doing what they like within
 * the wiring's rules. An open collector that lets go leaves the net to a pull-up, to the others or to nobody; while
 * it pulls, nothing else makes the net high. A three-state output may be switched off at any time.
 */
export function visibleStates(behaviour: Behaviour, stage: OutputStage): readonly LogicState[] {
  if (stage === "three-state") return NOTHING_SAID;
  if (stage === "push-pull") return [behaviour];
  const pulls: Behaviour = stage === "open-collector" ? "low" : "high";
  if (behaviour === pulls) return [pulls];
  // Pulling at times and letting go at others: the net may be held at the pulled level, never at the other.
  if (behaviour === "pulsing") return [pulls, "pulsing", "floating"];
  return NOTHING_SAID;
}
