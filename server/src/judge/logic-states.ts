import { defined } from "../base/defined";
import { outputsOf, withSeveralActive } from "../compute/logic/one-of-n";
import { reviewDevice } from "../compute/logic/review-device";
import { inputTechnology } from "../compute/logic/technology";
import type { Reading } from "../log/model";
import type { LogicState } from "../quantity/words";
import type { Saying } from "../text/saying";
import type { LogContext } from "./context";
import { partTestPoint, pinTestPoint, type TestPoint } from "./test-point";

/** What contradicts itself on one chip, with the pins it shows at. */
export interface ReviewedContradiction {
  readonly pins: readonly string[];
  readonly verdict: "out-of-limits" | "suspect";
  readonly says: Saying;
}

/** Recorded states of one chip's pins against what its gates and truth tables allow. */
export function reviewDeviceStates(
  place: TestPoint,
  states: ReadonlyMap<string, { readonly state: LogicState; readonly reading: Reading }>,
  ctx: LogContext,
): ReviewedContradiction[] {
  const { device, family, ref } = place;
  if (!device) return [];
  const board = ctx.board?.value;
  const recorded = new Map([...states].map(([pin, { state }]) => [pin, state] as const));
  const netAt = (pin: string) => pinTestPoint(partTestPoint(ref, board, ctx.library), pin, board).net;
  const along = {
    ref,
    netName: (pin: string) => netAt(pin)?.name,
    netMembers: (pin: string) => netAt(pin)?.pins ?? [],
  };
  const { contradictions } = reviewDevice(device, recorded, defined({ ...along, family: family?.id }));
  const all = withSeveralActive(contradictions, {
    ...along,
    tables: device.truthTables,
    technology: inputTechnology(family?.id),
    states: recorded,
    direction: (pin) => device.pins.get(pin)?.direction,
    pinName: (pin) => device.pins.get(pin)?.name,
  });
  return all.map((found) => ({
    pins: outputsOf(found),
    verdict: found.verdict,
    says: found.says,
  }));
}
