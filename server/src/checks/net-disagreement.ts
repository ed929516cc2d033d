import { defined } from "../base/defined";
import { memo } from "../base/memo";
import { netAgreement } from "../compute/nets/agreement";
import { type NetReadingKind, practiceMargin } from "../compute/nets/net-reading";
import { pinText } from "../compute/nets/net-text";
import type { LogContext } from "../judge/context";
import { comparedAs, type NetGroup } from "../judge/nets/block-nets";
import { judgedAlongNets, netsAlong, type PlacedOnNet } from "../judge/nets/judged-along";
import { statesApart } from "../judge/nets/states-apart";
import type { LogTable, Reading } from "../log/model";
import { shift } from "../text/span";
import { blockCheck, type CheckOption, type Draft } from "./check";
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
      // The columns of its pieces are those of the table before.
      const kept = keptBefore(table.pieces?.[0]?.table.columns ?? table.columns, ctx);
      const before = kept.last;
      kept.last = new Map();
      for (const group of netsAlong(own)) {
        const { readings } = group;
        const [first] = readings;
        if (!first || readings.length < 2) continue;
        const known = before.get(first.reading);
        const margin = option(MARGIN);
        const told =
          known?.margin === margin && isSame(known.readings, readings)
            ? { ...known, readings }
            : { margin, readings, found: disagreementsOf(group, as.kind, margin, ctx) };
        if (table.pieces) kept.last.set(first.reading, told);
        for (const { at, draft } of told.found) {
          const { reading, start } = readings[at]!;
          yield { ...draft, span: shift(reading.cell.span, start) };
        }
      }
    }
  },
  noFix: "The readings are what was measured; the fault is on the board.",
});

/** What is told of a net, and by number the reading that it is told at. */
interface ToldOfNet {
  readonly at: number;
  readonly draft: Draft;
}

interface Told {
  readonly margin: number;
  readonly readings: readonly PlacedOnNet[];
  readonly found: readonly ToldOfNet[];
}

/** What was told of a long table's nets last, by the first reading of each; kept with its columns, which stay while only rows change. */
const keptBefore = memo((_columns: LogTable["columns"], _ctx: LogContext): { last: Map<Reading, Told> } => ({
  last: new Map(),
}));

const isSame = (a: readonly PlacedOnNet[], b: readonly PlacedOnNet[]): boolean =>
  a.length === b.length &&
  a.every(({ reading, judgement }, at) => reading === b[at]?.reading && judgement === b[at]?.judgement);

function disagreementsOf(
  { net, readings }: NetGroup<PlacedOnNet>,
  kind: NetReadingKind,
  margin: number,
  ctx: LogContext,
): ToldOfNet[] {
  const result = netAgreement({
    net,
    kind,
    readings,
    margin: (a, b) => margin * practiceMargin(kind, a, b),
  });
  if (!result.ok) return [];
  return result.disagreements.flatMap(({ low, high, verdict, says, formula }): ToldOfNet[] => {
    // Reported at the side with fewer readings, which is the likelier to be cut off.
    const odd = (low.length < high.length ? low : high) as readonly PlacedOnNet[];
    const at = odd.at(-1);
    // A reading that is itself out of limits has its finding; the net adds nothing to it.
    const isTold = [...low, ...high].some(
      (item) => (item as PlacedOnNet).judgement?.verdict === "out-of-limits",
    );
    if (!at || isTold) return [];
    const draft: Draft = defined({
      span: at.reading.cell.span,
      severity: verdict === "suspect" ? ("information" as const) : undefined,
      ...says,
      formula,
      net: at.place.net,
      related: placesOfNet(at.place.net, ctx),
      data: { net, pins: [...low, ...high].map(pinText) },
    });
    return [{ at: readings.indexOf(at), draft }];
  });
}
