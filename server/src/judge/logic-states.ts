import { defined } from "../base/defined";
import { reviewDevice } from "../compute/logic/review-device";
import type { Reading } from "../log/model";
import type { LogicState } from "../quantity/words";
import type { LogContext } from "./context";
import { type Place, partPlace, pinPlace } from "./place";

/** What contradicts itself on one chip, with the pins it shows at. */
export interface ReviewedContradiction {
  readonly pins: readonly string[];
  readonly verdict: "out-of-limits" | "suspect";
  readonly sentence: string;
}

/** Recorded states of one chip's pins against what its gates and truth tables allow. */
export function reviewDeviceStates(
  place: Place,
  states: ReadonlyMap<string, { readonly state: LogicState; readonly reading: Reading }>,
  ctx: LogContext,
): ReviewedContradiction[] {
  const { device, family, ref } = place;
  if (!device) return [];
  const board = ctx.board?.value;
  const recorded = new Map([...states].map(([pin, { state }]) => [pin, state] as const));
  const netAt = (pin: string) => pinPlace(partPlace(ref, board, ctx.library), pin, board).net;
  const { contradictions } = reviewDevice(
    device,
    recorded,
    defined({
      ref,
      family: family?.id,
      netName: (pin) => netAt(pin)?.name,
      netMembers: (pin) => netAt(pin)?.pins ?? [],
    }),
  );
  return contradictions.map((found) => ({
    pins: "outputs" in found ? found.outputs : [found.output],
    verdict: found.verdict,
    sentence: found.sentence,
  }));
}
