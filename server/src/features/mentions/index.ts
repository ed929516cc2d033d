// Mentions: what is named where in a document. References, rename, highlights and colours all read this one list.
import { touches } from "../../text/span";
import type { KnowledgeFile } from "../knowledge/file";
import type { LogView } from "../view";
import { mentionsInKnowledge } from "./in-knowledge";
import { mentionsInLog } from "./in-log";
import { type Mention, sameThing, type Thing } from "./types";

export { mentionsInKnowledge } from "./in-knowledge";
export { designatorsIn, mentionsInLog, mentionsInStretch } from "./in-log";
export { type Names, namesOf, namesOfBoard } from "./names";
export {
  isLoose,
  keyOf,
  type Mention,
  type MentionPlace,
  sameThing,
  type Thing,
  type ThingKind,
} from "./types";

/** Everything named in a log, in order; what a block names is kept with the block. */
export const logMentions = ({ doc, ctx }: LogView): readonly Mention[] =>
  mentionsInLog(doc, ctx.board?.value);

/** Everything named in a knowledge file, in order; kept for as long as the file stays the same. */
export const knowledgeMentions = ({ tree, kind }: KnowledgeFile): readonly Mention[] =>
  mentionsInKnowledge(tree, kind);

/** The mention at an offset; behind the pin of `U14.3` it is still that of U14. */
export function mentionAt(mentions: readonly Mention[], offset: number): Mention | undefined {
  return (
    mentions.find(({ span }) => span.start <= offset && offset < span.end) ??
    mentions.find(
      ({ span, pin }) => touches(span, offset) || (pin !== undefined && touches(pin.span, offset)),
    )
  );
}

export const mentionsOf = (mentions: readonly Mention[], thing: Thing): Mention[] =>
  mentions.filter((mention) => sameThing(mention.thing, thing));
