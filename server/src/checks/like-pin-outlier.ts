import { memo } from "../base/memo";
import { likePinOutliers } from "../compute/nets/outliers";
import {
  type JudgedOnNet,
  judgedAlongNets,
  netsAlong,
  type PlacedOnNet,
  placedAlong,
} from "../judge/nets/judged-along";
import { shift } from "../text/span";
import { blockCheck, type CheckOption } from "./check";
import { exampleLog } from "./example-board";
import { placesOfNet } from "./on-net";

const LEAST_SPREAD: CheckOption = {
  name: "leastSpread",
  description:
    "Drops of like pins closer together than this count as the same, in volts (0.02: common practice, no source).",
  default: 0.02,
  least: 0,
  most: 0.5,
};

export default blockCheck({
  code: "like-pin-outlier",
  title: "A pin that differs from its like pins",
  severity: "information",
  scope: "block",
  why: "Pins that do the same job on chips of the same type read nearly the same. One that differs is worth a second look, even inside the usual window.",
  remedy:
    "Read it again, then compare what else is on its net. A pin with other parts on it may differ for that reason alone.",
  options: [LEAST_SPREAD],
  examples: {
    bad: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.560   |
| U14 | 3   | 0.558   |
| U14 | 5   | 0.561   |
| U14 | 9   | 0.559   |
| U14 | 11  | 0.562   |
| U14 | 13  | 0.425   |
              ^^^^^ like-pin-outlier: U14 pin 13
`),
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.560   |
| U14 | 3   | 0.558   |
| U14 | 5   | 0.571   |
| U14 | 9   | 0.549   |
| U14 | 11  | 0.562   |
| U14 | 13  | 0.535   |
`),
    ],
  },
  *run({ block, ctx, option }) {
    for (const along of judgedAlongNets(block, ctx)) {
      const several = new Set(
        netsAlong(along).flatMap(({ net, readings }) => (readings.length > 1 ? [net] : [])),
      );
      const groups = new Map<string, PlacedOnNet[]>();
      for (const item of placedAlong(along, comparable)) {
        const { net } = item.place;
        if (net && several.has(net.name)) continue;
        const group = groups.get(item.like);
        if (group) group.push(item);
        else groups.set(item.like, [item]);
      }
      for (const group of groups.values()) {
        const result = likePinOutliers(
          group.map((item) => ({ what: item, value: item.value })),
          { unit: "V", leastSpread: option(LEAST_SPREAD) },
        );
        if (!result.ok) continue;
        for (const { what, side, formula } of result.outliers) {
          const { ref, pin, place } = what;
          yield {
            span: shift(what.reading.cell.span, what.start),
            fact: `${ref} pin ${pin} (${place.pin?.name}) reads ${what.reading.value.typed}, ${side === "low" ? "lower" : "higher"} than the ${group.length - 1} like pins in this table.`,
            cause: "It is inside the usual window, but differs from them.",
            step: "Read it again and look at what else is on its net.",
            formula,
            source: result.source,
            net: place.net,
            related: placesOfNet(place.net, ctx),
          };
        }
      }
    }
  },
  noFix: "The reading is what was measured; the fault, if there is one, is on the board.",
});

interface LikePin extends JudgedOnNet {
  /** The same for pins that read alike. */
  readonly like: string;
}

/** Only pins with nothing on their net but logic like their own can be expected to read alike. */
const comparable = memo((readings: readonly JudgedOnNet[]): readonly LikePin[] =>
  readings.flatMap((item): LikePin[] => {
    const { device, family, pin, net, tiedTo } = item.place;
    const { judgement } = item;
    if (!device || !pin || tiedTo || item.isolation) return [];
    if (judgement?.reference?.kind !== "family" || judgement.verdict !== "within-limits") return [];
    return [{ ...item, like: [family?.id, device.id, pin.direction, net?.pins.length ?? 0].join(" ") }];
  }),
);
