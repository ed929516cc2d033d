import { defined } from "../base/defined";
import { netAgreement } from "../compute/nets/agreement";
import { practiceMargin } from "../compute/nets/net-reading";
import { pinText } from "../compute/nets/net-text";
import { byNet, comparedAs } from "../judge/nets/block-nets";
import { judgedAlongNets, onNets, type PlacedOnNet, placedAlong } from "../judge/nets/judged-along";
import { statesApart } from "../judge/nets/states-apart";
import { shift } from "../text/span";
import { blockCheck, type CheckOption } from "./check";
import { exampleLog } from "./example-board";
import { placesOfNet } from "./on-net";

const MARGIN: CheckOption = {
  name: "margin",
  description:
    "How many times the usual difference two pins of one net may read apart (1: a few hundredths of a volt; common practice, no source). Above 1 for long, thin or corroded tracks.",
  default: 1,
  least: 0.1,
  most: 20,
};

export default blockCheck({
  code: "net-disagreement",
  title: "Pins of one net that read differently",
  severity: "warning",
  scope: "block",
  why: "All pins of a net are one node, so read the same way they read the same. Where two differ, the track, a joint, a via or a socket contact between them is open, even if each reading by itself is within its window.",
  remedy:
    "Measure the resistance between the two pins on their legs, then along the track, flexing the board gently.",
  settledBy: "later-reading-of-each-pin",
  options: [MARGIN],
  examples: {
    bad: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 0.45    |
| U15 | 1   | 0.68    |
              ^^^^ net-disagreement: ROW_1
`),
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 0.55    |
| U15 | 1   | 0.56    |
`),
    ],
  },
  *run({ block, ctx, option }) {
    const along = new Map(judgedAlongNets(block, ctx).map((one) => [one.table, one]));
    for (const table of block.tables) {
      for (const { net, low, high } of statesApart(table, ctx)) {
        // The finding goes to the reading that came later: it is the one that does not fit what stood there.
        const at = low.reading.row > high.reading.row ? low : high;
        yield {
          span: at.reading.cell.span,
          fact: `${low.ref} pin ${low.pin} reads low and ${high.ref} pin ${high.pin} reads high, on one net, ${net.name}.`,
          cause:
            "The track, a joint or a socket contact between them is open, or they were not read in one go.",
          step: "Read both again, then measure the resistance from one to the other.",
          net,
          related: placesOfNet(net, ctx),
          data: { net: net.name, pins: [low, high].map(pinText) },
        };
      }
      const as = comparedAs(table);
      const own = along.get(table);
      if (!as || !own) continue;
      for (const { net, readings } of byNet(placedAlong(own, onNets))) {
        if (readings.length < 2) continue;
        const result = netAgreement({
          net,
          kind: as.kind,
          readings,
          margin: (a, b) => option(MARGIN) * practiceMargin(as.kind, a, b),
        });
        if (!result.ok) continue;
        for (const { low, high, verdict, says, formula } of result.disagreements) {
          // Reported at the side with fewer readings, which is the likelier to be cut off.
          const odd = (low.length < high.length ? low : high) as readonly PlacedOnNet[];
          const at = odd.at(-1);
          // A reading that is itself out of limits has its finding; the net adds nothing to it.
          const told = [...low, ...high].some(
            (item) => (item as PlacedOnNet).judgement?.verdict === "out-of-limits",
          );
          if (!at || told) continue;
          yield defined({
            span: shift(at.reading.cell.span, at.start),
            severity: verdict === "suspect" ? ("information" as const) : undefined,
            ...says,
            formula,
            net: at.place.net,
            related: placesOfNet(at.place.net, ctx),
            data: { net, pins: [...low, ...high].map(pinText) },
          });
        }
      }
    }
  },
  noFix: "The readings are what was measured; the fault is on the board.",
});
