// How a part's pins may have been counted, how well each way fits, and what was rung out at pins that were counted another way.

import { COUNTS_IN_LINE, countsOf, truePin } from "../../../compute/together/counts";
import type { LogContext } from "../../../judge/context";
import { endsRead } from "../../../judge/nets/ends";
import { partTestPoint, pinTestPoint } from "../../../judge/test-point";
import { pinsInLine } from "../../../judge/together/in-line";
import type { LogTable, Reading } from "../../../log/model";

/** Fewer that come right by it may do so by chance, and so may a part with fewer pins. Common practice, no source. */
const LEAST = 4;
/** Of what can be compared, at least this share is wrong as typed, and at most this share of what comes right is spoilt. */
export const MOST_FIT = 0.6;
export const MOST_SPOILT = 0.2;

interface Fitting {
  readonly typed: readonly (boolean | undefined)[];
  readonly meant: readonly (boolean | undefined)[];
}

/** How many come right, where nearly all that could be compared was wrong as typed; else none. */
export function comeRight({ typed, meant }: Fitting, least: number): number {
  const wrong = typed.filter((one) => one === false).length;
  const right = meant.filter((one, i) => one === true && typed[i] === false).length;
  const spoilt = meant.filter((one) => one === false).length;
  const isMostly = wrong >= MOST_FIT * typed.filter((one) => one !== undefined).length;
  return right >= least && isMostly && spoilt <= MOST_SPOILT * right ? right : 0;
}

/** The part, its pins, and the ways in which they may have been counted. */
export const waysOf = (ref: string, ctx: LogContext) => {
  const at = partTestPoint(ref, ctx.board?.value, ctx.library);
  const inLine = pinsInLine(at.part);
  const pins = inLine ?? at.device?.package.pins ?? 0;
  const ground = [...(at.device?.pins.values() ?? [])].find(({ direction }) => direction === "ground");
  const ways = inLine ? COUNTS_IN_LINE : countsOf(pins, ground && Number(ground.number));
  return { at, pins, ways: pins < LEAST ? [] : ways.map(([by]) => by) };
};

/** The part of which the pins were counted another way while they were rung out, with all that was rung there. */
export function countedEnds(
  table: LogTable,
  ctx: LogContext,
): { readonly ref: string; readonly readings: readonly Reading[] } | undefined {
  const board = ctx.board?.value;
  if (!board || (table.section.apart ?? []).length > 0) return undefined;
  const rung = table.readings.flatMap((reading) => {
    const ends = endsRead(reading, board, ctx.library);
    if (!ends || (ends.heard !== "joined" && ends.heard !== "open")) return [];
    return [{ reading, ends, isJoined: ends.heard === "joined" }];
  });
  const refs = new Set(rung.flatMap(({ ends: { from, to } }) => [from.at?.ref ?? "", to.at?.ref ?? ""]));
  for (const ref of refs) {
    const own = rung.filter(({ ends: { from, to } }) => (from.at?.ref === ref) !== (to.at?.ref === ref));
    if (ref === "" || own.length < LEAST) continue;
    const { at, pins, ways } = waysOf(ref, ctx);
    const netAt = (pin: string) => pinTestPoint(at, pin, board).net?.name;
    const under = (meant: (pin: number) => number): boolean[] =>
      own.map(({ ends: { from, to }, isJoined }) => {
        const [here, there] = from.at?.ref === ref ? [from, to] : [to, from];
        return (netAt(String(meant(Number(here.at?.pin)))) === there.net.name) === isJoined;
      });
    const typed = under((pin) => pin);
    for (const by of ways) {
      const meant = under((pin) => truePin(pin, pins, by));
      // That what does not ring need not ring goes for many a count: what rings tells.
      const rings = own.flatMap(({ isJoined }, i) => (isJoined ? [meant[i]] : []));
      if (rings.includes(true) && !rings.includes(false) && comeRight({ typed, meant }, LEAST) > 0)
        return { ref, readings: own.map(({ reading }) => reading) };
    }
  }
  return undefined;
}
