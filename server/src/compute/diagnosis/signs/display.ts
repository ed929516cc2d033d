// A display that misses a segment everywhere, a digit whole, or all of itself: each is one driver and its way.
import { pinRoleOf, powerPins } from "../around";
import type { BoardModel, PartModel } from "../board-model";
import type { Member } from "../conflict";
import type { ReadNets } from "../read-nets";
import { jointSuspect, outsideSuspect, partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";
import { LINE_SIGNS } from "./lines";

/** What many of the lines go through, where all of them are dark. */
const DARK = { chip: 0.5, power: 0.4, header: 0.3, outside: 0.2 } as const;

const lines = (model: BoardModel, finding: SignFinding, read: ReadNets): readonly Member[] =>
  LINE_SIGNS["matrix-line"](model, finding, read);

function dark(model: BoardModel, { nets = [], outside }: SignFinding): readonly Member[] {
  const shares = new Map<PartModel, number>();
  for (const name of nets) {
    const net = model.board.nets.get(name);
    for (const part of net ? model.onNet(net) : [])
      shares.set(part, (shares.get(part) ?? 0) + 1 / nets.length);
  }
  return [
    ...[...shares].flatMap(([part, share]): Member[] => {
      const { ref } = part.part;
      if (part.kind === "connector") return [{ suspect: partSuspect(ref), weight: DARK.header * share }];
      if (!part.signalPins.some(({ pin }) => pinRoleOf(part, pin) === "drives")) return [];
      const { ground, supply } = powerPins(part);
      return [
        { suspect: partSuspect(ref), weight: DARK.chip * Math.min(1, 2 * share) },
        ...[...ground, ...supply].map((pin) => ({
          suspect: jointSuspect(ref, pin),
          weight: DARK.power * Math.min(1, 2 * share),
        })),
      ];
    }),
    ...(outside === undefined ? [] : [{ suspect: outsideSuspect(outside), weight: DARK.outside }]),
  ];
}

/** A line that ends between two tubes; several tubes do not lose the same bar by themselves. */
const PARTWAY = { track: 0.85, joint: 0.2, tube: 0.02, outside: 0.6 } as const;

function partway(model: BoardModel, finding: SignFinding): readonly Member[] {
  const { nets = [], refs = [], pins = [], outside } = finding;
  return [
    ...nets.map((net) => ({ suspect: trackSuspect(net), weight: PARTWAY.track })),
    ...pins.map(({ ref, pin }) => ({ suspect: jointSuspect(ref, pin), weight: PARTWAY.joint })),
    ...refs.flatMap((ref) => {
      const part = model.part(ref);
      return part ? [{ suspect: partSuspect(part.part.ref), weight: PARTWAY.tube }] : [];
    }),
    ...(outside === undefined ? [] : [{ suspect: outsideSuspect(outside), weight: PARTWAY.outside }]),
  ];
}

export const DISPLAY_SIGNS = { segment: lines, digit: lines, "display-dark": dark, "line-partway": partway };
