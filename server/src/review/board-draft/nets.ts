// Nets by what was found joined, with the names that the board file has for them.

import { findRail } from "../../judge/rail-name";
import { joinNets } from "../../judge/stated/nets";
import { numberedEnd, type PartAt } from "../../judge/stated/pin-names";
import type { SupplyPin } from "../../judge/stated/supplies";
import type { DraftNet } from "../../knowledge/board-file/draft";
import { pinKey } from "../../knowledge/board-index";
import type { Library } from "../../knowledge/library";
import type { Board } from "../../knowledge/types";
import type { LinkEnd, LinkStated } from "../../log/stated/statement";
import { refOf } from "./parts";
import { asSaid, type DraftSaying } from "./sayings";

/** Only pins that the board does not have on a net yet; in the order they were found. */
export function draftNets(
  sayings: readonly DraftSaying<LinkStated>[],
  base: Board,
  at: PartAt,
  supplies: readonly SupplyPin[],
  library: Library,
): DraftNet[] {
  const endOf = (end: LinkEnd): LinkEnd => numberedEnd(netOf(end, base), at, library);
  const links = sayings.map((saying) => ({
    ...saying,
    statement: {
      ...saying.statement,
      ends: [endOf(saying.statement.ends[0]), endOf(saying.statement.ends[1])] as const,
    },
  }));
  const { nets, pins } = joinNets(base.nets, links.map(asSaid), supplies);
  return [...nets.values()].flatMap(({ name, pins: all }): DraftNet[] => {
    const fresh = all.filter(({ ref, pin }) => pins.has(pinKey(ref, pin)));
    if (fresh.length === 0) return [];
    const keys = new Set(fresh.map(({ ref, pin }) => pinKey(ref, pin)));
    const from = links.find(({ statement: { ends } }) =>
      ends.some((end) => "ref" in end && keys.has(pinKey(end.ref, end.pin))),
    )?.from;
    return [{ name, pins: fresh.map(({ ref, pin }) => `${refOf(ref, base)}.${pin}`), from: from ?? "" }];
  });
}

/** A rail and the ground are nets whose names the board file may have chosen otherwise. */
function netOf(end: LinkEnd, base: Board): LinkEnd {
  if (!("net" in end)) return end;
  if (end.net === "GND") return { net: base.grounds[0] ?? "GND" };
  return { net: findRail(base, end.net)?.net ?? end.net };
}
