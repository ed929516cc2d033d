// A short that was followed along its net: the copper between two places is ohms as well, so that it reads least where it is.
import type { BoardModel } from "../board-model";
import type { Member } from "../conflict";
import { partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";

/** How well each explains where a net reads least to ground; few of the faults of a chip short its supply. Common practice, no source. */
const NEAREST = { there: 0.95, unread: 0.008, further: 0.003, track: 0.05 } as const;

export const SHORT_SIGNS = {
  // `refs` are read at the least, `pins` are all that were read.
  "short-nearest": (
    model: BoardModel,
    { nets = [], refs = [], pins = [] }: SignFinding,
  ): readonly Member[] => {
    const there = new Set(refs.map((ref) => ref.toUpperCase()));
    const read = new Set(pins.map(({ ref }) => ref.toUpperCase()));
    return nets.flatMap((name): Member[] => {
      const net = model.board.nets.get(name);
      if (!net) return [];
      const on = model.onNet(net).filter(({ kind }) => kind !== "test-point");
      return [
        ...on.map(({ part }): Member => {
          const ref = part.ref.toUpperCase();
          const weight = there.has(ref) ? NEAREST.there : read.has(ref) ? NEAREST.further : NEAREST.unread;
          return { suspect: partSuspect(part.ref), weight };
        }),
        { suspect: trackSuspect(name), weight: NEAREST.track },
      ];
    });
  },
};
