// Parts that the log took out and put another kind in for: from the next block on the new one stands in the place, until
// a later block puts the old one back.

import type { Known } from "../judge/context";
import { sameNumber } from "../judge/stated/parts";
import { boardIndex } from "../knowledge/board-index";
import type { Board, Part } from "../knowledge/types";
import type { LogDocument } from "../log/document";
import type { LogBlock } from "../log/model";
import { type BlockStatements, statementsOf, statementsOfLog } from "../log/stated/of-block";
import { timelineOf } from "../log/timeline";

/** The board as it stands after each refit, the same objects for as long as the same parts were fitted. */
export interface Refits {
  readonly key: string;
  readonly boards: readonly Known<Board>[];
}

export interface RefitLog {
  readonly refits: Refits;
  /** Which of the boards stands at a block; absent for blocks before the first. */
  readonly at: ReadonlyMap<LogBlock, number>;
}

interface Fitted {
  readonly ref: string;
  readonly device: string;
}

/**
 * Undefined where nothing was fitted that differs from what was there.
 * @param earlier refits of the same board; one of them is given again where the same was fitted
 */
export function refitsIn(
  doc: LogDocument,
  board: Known<Board>,
  earlier: readonly Refits[],
): RefitLog | undefined {
  const { blocks, library } = doc;
  const index = boardIndex(board.value);
  const isAnother = ({ found }: { readonly found: BlockStatements }): boolean =>
    found.all.some((said) => {
      if (said.kind !== "part" || said.by !== "fitted" || said.device === undefined) return false;
      const there = index.part(said.ref)?.device;
      return there !== undefined && !sameNumber(there, said.device, library);
    });
  if (!statementsOfLog(doc).some(isAnother)) return undefined;
  const stands = new Map<string, string>();
  // What stood there before a part that was only tried.
  const before = new Map<string, string>();
  const steps: Fitted[][] = [];
  const at = new Map<LogBlock, number>();
  for (const { block } of blocks) {
    if (steps.length > 0) at.set(block, steps.length - 1);
    const putBack = before.size === 0 ? [] : putBackIn(doc, block);
    const old = putBack.flatMap((ref): Fitted[] => {
      const device = before.get(ref);
      before.delete(ref);
      return device === undefined ? [] : [{ ref, device }];
    });
    const put = statementsOf(block, library).all.flatMap((said): Fitted[] => {
      if (said.kind !== "part" || said.by !== "fitted" || said.device === undefined) return [];
      const there = stands.get(said.ref.toUpperCase()) ?? index.part(said.ref)?.device;
      if (there === undefined || sameNumber(there, said.device, library)) return [];
      if (putBackIn(doc, block).includes(said.ref.toUpperCase())) before.set(said.ref.toUpperCase(), there);
      return [{ ref: said.ref, device: said.device }];
    });
    const fitted = [...old, ...put];
    if (fitted.length === 0) continue;
    for (const { ref, device } of fitted) stands.set(ref.toUpperCase(), device);
    steps.push(fitted);
  }
  if (steps.length === 0) return undefined;
  const key = JSON.stringify(steps);
  const known = earlier.find((one) => one.key === key);
  if (known) return { refits: known, at };
  const boards: Known<Board>[] = [];
  for (const step of steps) boards.push(withParts(boards.at(-1) ?? board, step));
  return { refits: { key, boards }, at };
}

/** Places where the part that a block puts in does not stay, or where one goes back in it. */
const putBackIn = (doc: LogDocument, { tables }: LogBlock): readonly string[] =>
  timelineOf(doc).rows.flatMap(({ state, table, refs }) =>
    state === "put-back" && tables.includes(table) ? refs : [],
  );

function withParts(board: Known<Board>, fitted: readonly Fitted[]): Known<Board> {
  const parts = new Map(board.value.parts);
  for (const { ref, device } of fitted) {
    const part = boardIndex(board.value).part(ref);
    if (part) parts.set(part.ref, { ...part, device } satisfies Part);
  }
  return { ...board, value: { ...board.value, parts } };
}
