// What is meant by a mention: the thing, and whose it is. U14 of one board is not U14 of another.
import { nodeAt } from "../../../syntax/yaml";
import type { LogView } from "../../view";
import type { KnowledgeFile } from "../knowledge-file";
import { type EntityReference, mentionAt } from "./at";
import { mentionsInKnowledge } from "./in-knowledge";
import { mentionsInLog } from "./in-log";
import { type Entity, OF_BOARD } from "./types";

/** A named thing as it was pointed at, with the board or file that it belongs to. */
export interface RenameTarget {
  readonly thing: Entity;
  /** The mention that was asked at. */
  readonly mention: EntityReference;
  /** Id of the board that the thing is on, as logs write it; absent for what is of the whole workspace. */
  readonly board?: string;
  /** The only file it can be named in, where that says of no board. */
  readonly only?: string;
}

/** What is named at an offset of a log; undefined where nothing is. */
export function subjectInLog(view: LogView, offset: number): RenameTarget | undefined {
  const { doc, ctx, front } = view;
  const mention = mentionAt(mentionsInLog(doc, ctx.board?.value), offset);
  return mention && whose(mention, front.board, doc.uri);
}

/** What is named at an offset of a knowledge file; undefined where nothing is. */
export function subjectInKnowledge(
  { tree, kind, uri }: KnowledgeFile,
  offset: number,
): RenameTarget | undefined {
  const mention = mentionAt(mentionsInKnowledge(tree, kind), offset);
  const id = nodeAt(tree, ["id"])?.node;
  return mention && whose(mention, id?.kind === "scalar" && id.source !== "" ? id.source : undefined, uri);
}

function whose(mention: EntityReference, board: string | undefined, uri: string): RenameTarget {
  const { thing } = mention;
  if (!OF_BOARD.has(thing.kind)) return { thing, mention };
  return board === undefined ? { thing, mention, only: uri } : { thing, mention, board };
}
