// What a log says of each of its parts, all words of a part together, with their places in the document.

import { memo } from "../base/memo";
import { hasBoardFile, type LogContext } from "../judge/context";
import type { Board } from "../knowledge/types";
import type { LogDocument } from "../log/document";
import { statementsOfLog } from "../log/stated/of-block";
import type { LocatedStatement, PartStated } from "../log/stated/statement";
import { shift } from "../text/span";

export interface SaidPart {
  /** As first typed. */
  readonly ref: string;
  /** In the order of the log; spans of the document. */
  readonly words: readonly LocatedStatement<PartStated>[];
  /** The word that counts: what was read tells what the place calls for before what was put in later. */
  readonly first: LocatedStatement<PartStated>;
}

/** Every part that the log names with a number or a value, by designator in capitals. */
export const saidParts = memo((doc: LogDocument): ReadonlyMap<string, SaidPart> => {
  const words = new Map<string, LocatedStatement<PartStated>[]>();
  for (const { start, found } of statementsOfLog(doc)) {
    for (const one of found.all) {
      if (one.kind !== "part") continue;
      const key = one.ref.toUpperCase();
      const placed = { ...one, span: shift(one.span, start) };
      const own = words.get(key);
      if (own) own.push(placed);
      else words.set(key, [placed]);
    }
  }
  return new Map(
    [...words].map(([key, all]) => {
      const [earliest] = all as [LocatedStatement<PartStated>, ...LocatedStatement<PartStated>[]];
      const first = all.find(({ by }) => by !== "fitted") ?? earliest;
      return [key, { ref: earliest.ref, words: all, first }];
    }),
  );
});

/** What the board file alone says, without what the log lays over it; undefined where there is no file. */
export const boardOfFile = (ctx: LogContext): Board | undefined =>
  hasBoardFile(ctx) ? ctx.board?.loaded.value : undefined;
