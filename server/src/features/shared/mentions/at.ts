import { touches } from "../../../text/span";
import { type Entity, type EntityReference, sameThing } from "./types";

/** The mention at an offset; behind the pin of `U14.3` it is still that of U14. */
export function mentionAt(mentions: readonly EntityReference[], offset: number): EntityReference | undefined {
  return (
    mentions.find(({ span }) => span.start <= offset && offset < span.end) ??
    mentions.find(
      ({ span, pin }) => touches(span, offset) || (pin !== undefined && touches(pin.span, offset)),
    )
  );
}

/** Those mentions that name the same thing, in their order. */
export const mentionsOf = (mentions: readonly EntityReference[], thing: Entity): EntityReference[] =>
  mentions.filter((mention) => sameThing(mention.thing, thing));

export type { EntityReference };
