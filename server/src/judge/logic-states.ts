import { defined } from "../base/defined";
import { memo } from "../base/memo";
import { outputsOf, withSeveralActive } from "../compute/logic/one-of-n";
import { reviewDevice } from "../compute/logic/review-device";
import { inputTechnology } from "../compute/logic/technology";
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

/** Recorded states of one chip's pins against what its gates and truth tables allow; worked out once for the same states. */
export function reviewDeviceStates(
  place: TestPoint,
  states: ReadonlyMap<string, { readonly state: LogicState }>,
  ctx: LogContext,
): readonly ReviewedContradiction[] {
  const recorded = new Map([...states].map(([pin, { state }]) => [pin, state] as const));
  const known = reviewed(ctx);
  const key = `${place.ref} ${[...recorded].join(" ")}`;
  let found = known.get(key);
  if (!found) {
    if (known.size >= MOST_KEPT) known.clear();
    found = review(place, recorded, ctx);
    known.set(key, found);
  }
  return found;
}

/** What a chip showed before it most often shows again, at the next key. */
const reviewed = memo((_ctx: LogContext) => new Map<string, readonly ReviewedContradiction[]>());
/** As many are kept of a log. */
const MOST_KEPT = 3000;

function review(
  place: TestPoint,
  recorded: ReadonlyMap<string, LogicState>,
  ctx: LogContext,
): ReviewedContradiction[] {
  const { device, family, ref } = place;
  if (!device) return [];
  const board = ctx.board?.value;
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
