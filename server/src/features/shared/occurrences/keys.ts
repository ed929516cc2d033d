import type { LogContext } from "../../../judge/context";
import { type Place, partPlace, pinName, pinPlace } from "../../../judge/place";
import { findRail } from "../../../judge/rail-name";
import { keyOf, type Thing } from "../mentions";

/** One name for everything that is the same thing, however it was typed. A rail is its net as well. */
export function thingKeys(thing: Thing, ctx: LogContext): string[] {
  const rail = thing.kind === "rails" && ctx.board ? findRail(ctx.board.value, thing.name) : undefined;
  const own = { ...thing, name: rail?.name ?? thing.name };
  const net = rail?.net;
  return [own, ...(net === undefined ? [] : [{ kind: "nets", name: net } as const])].map(
    (each) => `${each.kind} ${keyOf(each)}`,
  );
}

export const pinKey = (place: Place): string =>
  `pin ${place.ref.trim().toUpperCase()}.${(pinName(place) ?? "").toUpperCase()}`;

/** What is read at a pin tells of its net. */
export const tellsOf = ({ net }: Place): string[] => (net ? [`nets ${net.name}`] : []);

/** The place of a pin by its designator and number, however they were typed. */
export const placeAt = (ref: string, pin: string, ctx: LogContext): Place =>
  pinPlace(partPlace(ref, ctx.board?.value, ctx.library), pin, ctx.board?.value);
