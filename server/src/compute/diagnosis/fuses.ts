// A fuse is a consequence first: what would have blown it.
import type { BoardModel, PartModel } from "./board-model";
import type { Member } from "./conflict";
import type { ReadNets } from "./read-nets";
import { partSuspect } from "./suspects";

/** How strongly a blown fuse points to itself and to each part behind it, 0 to 1. Common practice, no source. */
export const FUSE = {
  /** Worn out by itself now and then. */
  itself: 0.5,
  rectifier: 0.2,
  reservoir: 0.1,
  load: 0.03,
  /** What is left where the rail behind it was not shorted, or the part read well. */
  notShorted: 0.05,
} as const;

/** What would have blown a fuse: a rectifier on it and the reservoir behind that, unless they were seen not to be shorted. */
export function blew(model: BoardModel, fuse: PartModel, read: ReadNets): Member[] {
  const sound = ({ part }: PartModel): number =>
    read.measured.has(part.ref.toUpperCase()) ? FUSE.notShorted : 1;
  const near = new Set(fuse.pins.map(({ net }) => net).filter((net) => !model.isGround(net)));
  const rectifiers = [...near].flatMap((net) => model.onNet(net).filter(({ kind }) => kind === "diode"));
  const behind = new Set(rectifiers.flatMap(({ pins }) => pins.map(({ net }) => net)));
  for (const net of near) behind.add(net);
  const loads = [...behind].flatMap((net) => {
    if (model.isGround(net)) return [];
    const rail = [...model.board.rails.values()].find((one) => one.net === net.name);
    const left = rail && read.railsNotShort.has(rail.name) ? FUSE.notShorted : 1;
    return model.onNet(net).flatMap((part): Member[] => {
      if (part === fuse || rectifiers.includes(part)) return [];
      const weight =
        part.kind === "electrolytic"
          ? FUSE.reservoir
          : ["capacitor", "regulator", "transistor", "diode"].includes(part.kind)
            ? FUSE.load
            : 0;
      return [{ suspect: partSuspect(part.part.ref), weight: weight * left * sound(part) }];
    });
  });
  return [
    ...rectifiers.map((part) => ({
      suspect: partSuspect(part.part.ref),
      weight: FUSE.rectifier * sound(part),
    })),
    ...loads,
  ];
}
