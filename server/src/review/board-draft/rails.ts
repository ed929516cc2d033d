// Rails by their names. What only the name or the trade's habit tells is said to be no more than that.

import { defined } from "../../base/defined";
import { findRail } from "../../judge/rail-name";
import { feedWindows, statedRail } from "../../judge/stated/rails";
import type { DraftRail } from "../../knowledge/board-file/draft";
import type { Library } from "../../knowledge/library";
import type { Board, Rail } from "../../knowledge/types";
import type { RailStated } from "../../log/stated/statement";
import type { DraftSaying } from "./sayings";

/** Only rails that the board does not have; in the order they were read. `parts` say what the rails feed. */
export function draftRails(
  sayings: readonly DraftSaying<RailStated>[],
  base: Board,
  parts: Iterable<{ readonly device?: string }>,
  library: Library,
): DraftRail[] {
  const feeds = feedWindows(parts, library);
  const all = new Map<string, Rail>(base.rails);
  return sayings.flatMap(({ statement, from }): DraftRail[] => {
    if (findRail({ ...base, rails: all }, statement.name)) return [];
    const { name, nominal, tolerance, ripple, net, source } = statedRail(statement, feeds);
    all.set(name, { name, nominal, tolerance });
    return [
      defined({
        name,
        nominal,
        tolerance,
        ripple,
        net,
        source,
        from,
        guess: statement.byHabit ? (true as const) : undefined,
      }),
    ];
  });
}
