// What is looked for in every block of a log, so that a keystroke costs the blocks about it and those in which there is any.

import { memo, memoBy } from "../base/memo";
import { type KeyRun, type PlacedRun, runsOf } from "../base/runs";
import type { LogBlock, LogDocument, LogTable } from "./model";

/** What was found in one block, with the offset in the document that the block starts at. */
export interface InBlock<R> {
  readonly start: number;
  readonly block: LogBlock;
  readonly found: R;
}

/** A table with the block it stands in, and the offset in the document that the block starts at. */
export interface PlacedTable {
  readonly start: number;
  readonly block: LogBlock;
  readonly table: LogTable;
}

/** What was found in some of a run's blocks, by their numbers in it. */
export type FoundInRun<R> = readonly { readonly at: number; readonly found: R }[];

/** The blocks of a log in runs; made once for a document. */
export const blockRuns = memo(({ blocks }: LogDocument): readonly PlacedRun<LogBlock>[] =>
  runsOf(blocks.map(({ block }) => block)),
);

/** What `find` gives for the blocks of a run; undefined is nothing. */
export function findInRun<R>(
  { keys }: KeyRun<LogBlock>,
  find: (block: LogBlock) => R | undefined,
): FoundInRun<R> {
  const all: { at: number; found: R }[] = [];
  keys.forEach((block, at) => {
    const found = find(block);
    if (found !== undefined) all.push({ at, found });
  });
  return all.length === 0 ? NOTHING : all;
}

const NOTHING: FoundInRun<never> = [];

/** What was found run by run, where it stands in the document. */
export function placedInDocument<R>(
  doc: LogDocument,
  ofRun: (run: KeyRun<LogBlock>) => FoundInRun<R>,
): readonly InBlock<R>[] {
  const all: InBlock<R>[] = [];
  for (const { first, run } of blockRuns(doc)) {
    for (const { at, found } of ofRun(run)) {
      const { start, block } = doc.blocks[first + at]!;
      all.push({ start, block, found });
    }
  }
  return all;
}

/**
 * The function that gives what `find` gives for the blocks of a log, in their order and without those that it gives nothing
 * for. It is asked again only of blocks about one that is new.
 * @param find hangs on the block, and on what else is handed over, alone
 */
export function inBlocks<R>(
  find: (block: LogBlock) => R | undefined,
): (doc: LogDocument) => readonly InBlock<R>[] {
  const ofRun = memo((run: KeyRun<LogBlock>) => findInRun(run, find));
  return memo((doc: LogDocument) => placedInDocument(doc, ofRun));
}

/** The same, where it hangs on one thing more. */
export function inBlocksBy<A, R>(
  find: (block: LogBlock, about: A) => R | undefined,
): (doc: LogDocument, about: A) => readonly InBlock<R>[] {
  const kept = memoBy<KeyRun<LogBlock>, FoundInRun<R>>();
  return memo((doc: LogDocument, about: A) => {
    const make = (run: KeyRun<LogBlock>) => findInRun(run, (block) => find(block, about));
    return placedInDocument(doc, (run) => kept(run, make, about));
  });
}

/** The function that gives the tables of a log that are wanted, in their order. */
export function tablesThat(
  isWanted: (table: LogTable) => boolean,
): (doc: LogDocument) => readonly PlacedTable[] {
  const wanted = inBlocks((block) => {
    const tables = block.tables.filter(isWanted);
    return tables.length === 0 ? undefined : tables;
  });
  return memo((doc: LogDocument) =>
    wanted(doc).flatMap(({ start, block, found }) => found.map((table) => ({ start, block, table }))),
  );
}
