// Rails by their names. What only the name or the trade's habit tells is said to be no more than that.

import { defined } from "../../base/defined";
import { findRail } from "../../judge/rail-name";
import { feedsOf, statedRail } from "../../judge/stated/rails";
import type { DraftRail } from "../../knowledge/board-file/draft";
import type { Library } from "../../knowledge/library";
import type { Board, Rail } from "../../knowledge/types";
import type { RailStated } from "../../log/stated/statement";
import type { Saying } from "./sayings";

/** Only rails that the board does not have; in the order they were read. `parts` say what the rails feed. */
export function draftRails(
  sayings: readonly Saying<RailStated>[],
  base: Board,
  parts: Iterable<{ readonly device?: string }>,
  library: Library,
): DraftRail[] {
  const feeds = feedsOf(parts, library);
  const all = new Map<string, Rail>(base.rails);
  return sayings.flatMap(({ statement, from }): DraftRail[] => {
    if (findRail({ ...base, rails: all }, statement.name)) return [];
    const { name, ripple, net, source, ...limits } = statedRail(statement, feeds);
    const { nominal, tolerance } = asWritten(limits);
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

/** What a board file can hold: where both ways differ by more than the voltage, the middle of what may be there. */
function asWritten({
  nominal,
  tolerance,
  window,
}: Pick<Rail, "nominal" | "tolerance" | "window">): Pick<Rail, "nominal" | "tolerance"> {
  const volts = Math.abs(Number.parseFloat(nominal));
  if (window && Math.max(...window.map((end) => Math.abs(Math.abs(end) - volts))) >= volts) {
    const [low, high] = window;
    return { nominal: `${(low + high) / 2} V`, tolerance: `${Math.abs(high - low) / 2} V` };
  }
  return { nominal, tolerance: symmetric(tolerance) };
}

/** A board file has one figure for both ways: of two the wider one, so that nothing is out by it that was within. */
function symmetric(tolerance: string): string {
  const [low, high] = [...tolerance.matchAll(/[-+]?(\d+(?:\.\d+)?)\s*%/g)].map(([, figure]) =>
    Number(figure),
  );
  return low === undefined || high === undefined ? tolerance : `${Math.max(low, high)} %`;
}
