// Mentions: what is named where in a document. References, rename, highlights and colours all read this one list.

import type { LogView } from "../../view";
import type { KnowledgeFile } from "../knowledge-file";
import { mentionsInKnowledge } from "./in-knowledge";
import { mentionsInLog } from "./in-log";
import type { EntityReference } from "./types";

export { mentionAt, mentionsOf } from "./at";
export { mentionsInKnowledge } from "./in-knowledge";
export { designatorsIn, designatorsNamed, mentionsByBlock, mentionsInLog, mentionsInStretch } from "./in-log";
export { type NameIndex, nameIndex, namesOfBoard, standsOut } from "./names";
export { type RenameTarget, subjectInKnowledge, subjectInLog } from "./subject";
export {
  type Entity,
  type EntityReference,
  entityKey,
  isLoose,
  type MentionPlace,
  sameThing,
  type ThingKind,
} from "./types";

/** Everything named in a log, in order; what a block names is kept with the block. */
export const logMentions = ({ doc, ctx }: LogView): readonly EntityReference[] =>
  mentionsInLog(doc, ctx.board?.value);

/** Everything named in a knowledge file, in order; kept for as long as the file stays the same. */
export const knowledgeMentions = ({ tree, kind }: KnowledgeFile): readonly EntityReference[] =>
  mentionsInKnowledge(tree, kind);
