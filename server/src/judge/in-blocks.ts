// What is looked for in every block of a log, and hangs on what its readings are judged against.

import { memo, memoBy } from "../base/memo";
import type { KeyRun } from "../base/runs";
import { type FoundInRun, findInRun, type InBlock, placedInDocument } from "../log/in-blocks";
import type { LogBlock, LogDocument } from "../log/model";
import { contextAt, type LogContext } from "./context";

/**
 * As `inBlocks` of the log, where `find` hangs on the block's own context as well (`contextAt`).
 * @param find is handed the whole log's context
 */
export function inJudgedBlocks<R>(
  find: (block: LogBlock, whole: LogContext) => R | undefined,
): (doc: LogDocument, whole: LogContext) => readonly InBlock<R>[] {
  const kept = memoBy<KeyRun<LogBlock>, FoundInRun<R>>();
  return memo((doc: LogDocument, whole: LogContext) => {
    const make = (run: KeyRun<LogBlock>) => findInRun(run, (block) => find(block, whole));
    return placedInDocument(doc, (run) => {
      const own = contextOfRun(run, whole);
      return own ? kept(run, make, own, whole) : make(run);
    });
  });
}

/** The context of all blocks of a run; undefined where they have several. */
export function contextOfRun({ keys }: KeyRun<LogBlock>, whole: LogContext): LogContext | undefined {
  if (!whole.later) return whole;
  const [first, ...others] = keys;
  const own = first && contextAt(first, whole);
  return others.every((block) => contextAt(block, whole) === own) ? own : undefined;
}
