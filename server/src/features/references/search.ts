// Where in the workspace a thing is named. Files that cannot name it are not read: the memory across jobs says which
// board each log is of, and where in it words stand, so that a closed log is read from disk but not parsed.

import type { AsyncSteps } from "../../base/steps";
import type { Knowledge } from "../../judge/context";
import type { Library } from "../../knowledge/library";
import { type LogDocument, LogReader } from "../../log/document";
import { peekLog } from "../../log/peek";
import { isLog } from "../../log/sniff";
import { railNamed } from "../../log/stated/rail-name";
import { type TextRegion, textRegionsOf } from "../../log/text-regions";
import type { KnowledgeFile } from "../shared/knowledge-file";
import {
  type Entity,
  type EntityReference,
  entityKey,
  knowledgeMentions,
  mentionsInStretch,
  mentionsOf,
  type NameIndex,
  nameIndex,
  namesOfBoard,
  type RenameTarget,
} from "../shared/mentions";
import type { LogView } from "../view";

/** A file as it stands now and the places in it that name the thing. */
export interface FileMentions {
  readonly uri: string;
  readonly text: string;
  readonly mentions: readonly EntityReference[];
  /** Of a knowledge file. */
  readonly file?: KnowledgeFile;
}

/** What is asked of the workspace. */
export interface MentionSearch {
  readonly knowledge: Knowledge;
  knowledgeFiles(): readonly KnowledgeFile[];
  openLogs(): readonly LogView[];
  /** Markdown files that are not being edited and may be logs of this board, of any where none is given. */
  closedLogs(board: string | undefined): Promise<readonly string[]>;
  read(uri: string): Promise<string | undefined>;
  /** A log had to be parsed: it need not be again. */
  remember(doc: LogDocument): void;
  /** Where words stand in this text, if that is remembered. */
  stretches(uri: string, text: string, library: Library): readonly TextRegion[] | undefined;
}

/** Knowledge files first, then the logs being edited, then those on disk. */
export async function* searchMentions(
  subject: RenameTarget,
  searched: MentionSearch,
): AsyncSteps<FileMentions> {
  const { knowledge } = searched;
  const things = sameAs(subject, knowledge);
  for (const file of searched.knowledgeFiles()) {
    const found = inKnowledge(file, subject, things);
    yield found;
  }
  const names = namesFor(subject, things, knowledge);
  for (const { doc, front } of searched.openLogs()) {
    if (!mayName(subject, doc.uri, boardIds(front))) continue;
    const mentions = inStretches(doc.text, textRegionsOf(doc), names, things);
    yield mentions.length > 0 ? { uri: doc.uri, text: doc.text, mentions } : undefined;
  }
  for (const uri of await searched.closedLogs(subject.board)) {
    if (!mayName(subject, uri, [subject.board])) continue;
    const text = await searched.read(uri);
    yield undefined;
    if (text === undefined || !isLog(text) || !speaksOf(text, things)) continue;
    let stretches = searched.stretches(uri, text, knowledge.library);
    if (!stretches) {
      const { board, boards = [board] } = peekLog(uri, text);
      if (!mayName(subject, uri, boards)) continue;
      const reader = new LogReader(uri);
      for (const _ of reader.prepare(text)) yield undefined;
      const doc = reader.read(text, knowledge.library);
      stretches = textRegionsOf(doc);
      searched.remember(doc);
    }
    const mentions = inStretches(text, stretches, names, things);
    if (mentions.length > 0) yield { uri, text, mentions };
  }
}

function mayName({ board, only }: RenameTarget, uri: string, its: readonly (string | undefined)[]): boolean {
  if (only !== undefined) return uri === only;
  return board === undefined || its.includes(board);
}

/** Of one board, or of all of a set. */
const boardIds = ({ board, boards }: LogView["front"]): readonly (string | undefined)[] =>
  boards?.map((one) => one.board) ?? [board];

/** The thing, and for a part number every number the workspace's files have for the same device. */
function sameAs({ thing }: RenameTarget, { library, boards }: Knowledge): readonly Entity[] {
  const device = thing.kind === "device" ? library.device(thing.name)?.device : undefined;
  if (!device) return [thing];
  const numbers = new Set([thing.name, device.id, ...device.aliases]);
  for (const { value } of boards.values()) {
    for (const part of value.parts.values())
      for (const number of [part.device, ...part.fits])
        if (number !== undefined && library.device(number)?.device === device) numbers.add(number);
  }
  return [...numbers].map((name) => ({ kind: "device", name }));
}

function inKnowledge(
  file: KnowledgeFile,
  { board, only }: RenameTarget,
  things: readonly Entity[],
): FileMentions | undefined {
  const { uri, text, knowledge } = file;
  if (only !== undefined && uri !== only) return undefined;
  if (board !== undefined && knowledge.boards.get(board)?.uri !== uri) return undefined;
  const all = knowledgeMentions(file);
  const mentions = things.flatMap((thing) => mentionsOf(all, thing));
  return mentions.length > 0 ? { uri, text, mentions, file } : undefined;
}

/** The board's own names are looked for with it, so that no longer name is taken for the shorter one it begins with. */
function namesFor(
  { board }: RenameTarget,
  things: readonly Entity[],
  { boards }: Knowledge,
): readonly NameIndex[] {
  const known = board === undefined ? undefined : boards.get(board);
  const names = known ? [namesOfBoard(known.value)] : [];
  const declared = names.some((some) => things.every((thing) => some.has(thing)));
  return declared ? names : [...names, known ? nameIndex(things) : withRails(nameIndex(things))];
}

/** Where no board file lists the rails, a rail is any that its name says the voltage of. */
const withRails = (names: NameIndex): NameIndex => ({
  ...names,
  rail: (typed) => {
    const name = railNamed(typed)?.name;
    return name !== undefined && names.has({ kind: "rails", name }) ? name : undefined;
  },
});

const inStretches = (
  text: string,
  stretches: readonly TextRegion[],
  names: readonly NameIndex[],
  things: readonly Entity[],
): EntityReference[] => {
  const all = stretches.flatMap((stretch) =>
    speaksOf(text.slice(stretch.span.start, stretch.span.end), things)
      ? mentionsInStretch(text, stretch, names)
      : [],
  );
  return things.flatMap((thing) => mentionsOf(all, thing));
};

/** A look at the letters, before anything is read. Rails are typed in many ways. */
function speaksOf(text: string, things: readonly Entity[]): boolean {
  if (things.some(({ kind }) => kind === "rails")) return true;
  const upper = text.toUpperCase();
  return things.some((thing) => upper.includes(entityKey(thing).toUpperCase()));
}
