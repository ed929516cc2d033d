import type { LogContext } from "../../../judge/context";
import { findRail } from "../../../judge/rail-name";
import { partTestPoint, pinName, pinTestPoint, type TestPoint } from "../../../judge/test-point";
import { type Entity, entityKey } from "../mentions";

/** One name for everything that is the same thing, however it was typed. A rail is its net as well. */
export function thingKeys(thing: Entity, ctx: LogContext): string[] {
  const rail = thing.kind === "rails" && ctx.board ? findRail(ctx.board.value, thing.name) : undefined;
  const own = { ...thing, name: rail?.name ?? thing.name };
  const net = rail?.net;
  return [own, ...(net === undefined ? [] : [{ kind: "nets", name: net } as const])].map(
    (each) => `${each.kind} ${entityKey(each)}`,
  );
}

export const pinOccurrenceKey = (place: TestPoint): string =>
  `pin ${place.ref.trim().toUpperCase()}.${(pinName(place) ?? "").toUpperCase()}`;

/** What is read at a pin tells of its net. */
export const tellsOf = ({ net }: TestPoint): string[] => (net ? [`nets ${net.name}`] : []);

/** The place of a pin by its designator and number, however they were typed. */
export const testPointAtPin = (ref: string, pin: string, ctx: LogContext): TestPoint =>
  pinTestPoint(partTestPoint(ref, ctx.board?.value, ctx.library), pin, ctx.board?.value);
