import type { Reading } from "../../log/model";
import type { LogicState } from "../../quantity/words";
import type { LogContext } from "../context";
import { type Place, partPlace, pinPlace } from "../place";
import { reviewGates } from "./contradictions";
import { inputTechnology } from "./technology";

/** What contradicts itself on one chip, with the pins it shows at. */
export interface ReviewedContradiction {
  readonly pins: readonly string[];
  readonly verdict: "out-of-limits" | "suspect";
  readonly sentence: string;
}

/** Recorded states of one chip's pins against what its gates can do. */
export function reviewDeviceStates(
  place: Place,
  states: ReadonlyMap<string, { readonly state: LogicState; readonly reading: Reading }>,
  ctx: LogContext,
): ReviewedContradiction[] {
  const { device, family, ref } = place;
  if (!device) return [];
  const board = ctx.board?.value;
  const { contradictions } = reviewGates({
    ref,
    gates: device.gates,
    technology: inputTechnology(family?.id),
    states: new Map([...states].map(([pin, { state }]) => [pin, state])),
    direction: (pin) => device.pins.get(pin)?.direction,
    netMembers: (pin) =>
      (pinPlace(partPlace(ref, board, ctx.library), pin, board).net?.pins ?? [])
        .filter((member) => member.ref !== ref || member.pin !== pin)
        .map((member) => `${member.ref} pin ${member.pin}`),
  });
  return contradictions.map(({ output, verdict, sentence }) => ({ pins: [output], verdict, sentence }));
}
