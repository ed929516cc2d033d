import { touches } from "../../../text/span";
import { type Mention, sameThing, type Thing } from "./types";

/** The mention at an offset; behind the pin of `U14.3` it is still that of U14. */
export function mentionAt(mentions: readonly Mention[], offset: number): Mention | undefined {
  return (
    mentions.find(({ span }) => span.start <= offset && offset < span.end) ??
    mentions.find(
      ({ span, pin }) => touches(span, offset) || (pin !== undefined && touches(pin.span, offset)),
    )
  );
}

/** Those mentions that name the same thing, in their order. */
export const mentionsOf = (mentions: readonly Mention[], thing: Thing): Mention[] =>
  mentions.filter((mention) => sameThing(mention.thing, thing));

export type { Mention };
