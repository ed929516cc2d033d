// A short that was followed along its net with a meter that shows tenths of an ohm: it lies where the fewest are read.

import { defined } from "../../../base/defined";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { testPointOf } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Net } from "../../../knowledge/types";
import type { LogBlock, Reading } from "../../../log/model";
import type { Observation } from "../observation";

/** Ohms, places and shares; common practice, no source. */
const FOLLOWED = {
  /** More is no short that copper could be told along. */
  most: 5,
  /** Places that it takes to see where it falls to. */
  places: 3,
  /** The furthest reads at least so many times the nearest. */
  falls: 1.3,
  /** So much more than the nearest is as near. */
  near: 1.1,
} as const;

interface Place {
  readonly ref: string;
  readonly pin: string;
  readonly ohms: number;
  readonly reading: Reading;
}

/** One observation a net that was followed in one table, and the places of the readings that it stands for. */
export function nearestShorts(
  block: LogBlock,
  ctx: LogContext,
): { readonly found: readonly Observation[]; readonly spans: ReadonlySet<number> } {
  const spans = new Set<number>();
  return { found: [...along(block, ctx, spans)], spans };
}

function along(block: LogBlock, ctx: LogContext, spans: Set<number>): Observation[] {
  const board = ctx.board?.value;
  if (!board) return [];
  const index = boardIndex(board);
  return block.tables.flatMap((table) => {
    if (table.kind.judgedBy !== "ground" || table.pieces) return [];
    const nets = new Map<Net, Place[]>();
    for (const reading of table.readings) {
      const ohms = reading.spec.quantity === "resistance" ? extentOf(reading.value)?.high : undefined;
      if (ohms === undefined || ohms > FOLLOWED.most || reading.apart) continue;
      const at = testPointOf(reading.subject, ctx);
      const pin = at?.pin?.number ?? at?.pinTyped;
      const net = at?.part && pin !== undefined ? index.net(at.part.ref, pin) : undefined;
      if (!at?.part || pin === undefined || !net || index.isGround(net)) continue;
      const place = { ref: at.part.ref, pin, ohms, reading };
      const others = nets.get(net);
      if (others) others.push(place);
      else nets.set(net, [place]);
    }
    return [...nets].flatMap(([net, places]): Observation[] => {
      const ohms = places.map((one) => one.ohms);
      const least = Math.min(...ohms);
      const isFollowed =
        new Set(places.map(({ ref }) => ref)).size >= FOLLOWED.places &&
        Math.max(...ohms) >= FOLLOWED.falls * least;
      const there = places.filter((one) => one.ohms <= FOLLOWED.near * least);
      const [first] = there;
      if (!isFollowed || !first) return [];
      for (const { reading } of places) spans.add(reading.cell.span.start);
      const refs = [...new Set(there.map(({ ref }) => ref))];
      return [
        {
          key: `nearest short ${net.name}`.toUpperCase(),
          what: `the short of ${net.name}`,
          table,
          span: first.reading.cell.span,
          refs: refs.map((ref) => ref.toUpperCase()),
          net: net.name,
          finding: defined({
            kind: "sign" as const,
            sign: "short-nearest" as const,
            rail: index.railOf(net),
            nets: [net.name],
            refs,
            pins: places.map(({ ref, pin }) => ({ ref, pin })),
            of: `the ohms along ${net.name}`,
            says: `Of ${places.length} places on ${net.name}, ${refs.join(" and ")} reads the fewest ohms to ground: the short is there.`,
          }),
        },
      ];
    });
  });
}
