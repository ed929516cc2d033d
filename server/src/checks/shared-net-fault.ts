import type { LogContext } from "../analysis/context";
import { judgeBlock } from "../analysis/judge";
import { say } from "../analysis/judge/say";
import { comparedAs, type PlacedReading, placedReadings } from "../analysis/nets/block-nets";
import { pinName } from "../analysis/nets/net-reading";
import { howToSeparate } from "../analysis/nets/separate";
import { type SharedFault, sharedFaults, type WrongReading } from "../analysis/nets/shared-fault";
import type { Board, Net } from "../knowledge/types";
import type { LogBlock } from "../log/model";
import { shift } from "../text/span";
import { type Draft, documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { onThatNet, placesOfNet } from "./on-net";

export default documentCheck({
  code: "shared-net-fault",
  title: "One wrong reading on two chips of a net",
  severity: "information",
  scope: "document",
  why: "Two chips whose pins share a net also share its readings. The same wrong reading on both is one fault with several candidates, and replacing the chip that happened to be measured first is a guess.",
  remedy:
    "Find out which part it is before anything is replaced: unplug, pull what is socketed, lift a pin or cut the track, and read the net again after each.",
  examples: {
    bad: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 0.118   |
              ^^^^^ diode-out-of-window: U14 pin 2
              ^^^^^ shared-net-fault: U14 pin 2 and U15 pin 1
| U15 | 1   | 0.12    |
              ^^^^ diode-out-of-window: U15 pin 1
`),
    ],
    good: [
      exampleLog(`## Diode check

<!-- mendlog-allow diode-out-of-window: two nets, two faults -->

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 0.118   |
| U15 | 3   | 0.12    |
`),
      exampleLog(`## Diode check

<!-- mendlog-allow diode-out-of-window: U14 was replaced for it -->

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 0.118   |

## Work done

| Ref | Action  | Part   |
|-----|---------|--------|
| U14 | replace | 74LS04 |

## Diode check after repair

<!-- mendlog-allow diode-out-of-window: read before U15 was reseated -->

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 4   | 0.56    |
| U15 | 1   | 0.12    |
`),
    ],
  },
  *run({ doc, ctx }) {
    const board = ctx.board?.value;
    if (!board) return;
    // What was read before a repair and after it was never one net's reading.
    let repairs = 0;
    const times = new Map<number, PlacedWrong[]>();
    for (const { start, block } of doc.blocks) {
      repairs += block.tables.some(({ procedure }) => procedure.id === "work") ? 1 : 0;
      for (const { after, wrong } of wrongIn(block, ctx)) {
        const time = after ? Math.max(1, repairs) : repairs;
        const list = times.get(time) ?? [];
        times.set(time, list);
        list.push({ ...wrong, start });
      }
    }
    for (const wrong of times.values()) yield* faultsIn(wrong, board, doc.uri, ctx);
  },
  noFix: "The readings are what was measured; the fault is on the board.",
});

type Wrong = WrongReading & Pick<PlacedReading, "reading">;
/** With the offset of its block. */
type PlacedWrong = Wrong & { readonly start: number };

const known = new WeakMap<
  LogBlock,
  { readonly ctx: LogContext; readonly all: readonly { readonly after: boolean; readonly wrong: Wrong }[] }
>();

/** Readings of a block that are out of limits on a net that is neither ground nor a rail. */
function wrongIn(block: LogBlock, ctx: LogContext) {
  const kept = known.get(block);
  if (kept?.ctx === ctx) return kept.all;
  const judgements = judgeBlock(block, ctx);
  const all = block.tables.flatMap((table) => {
    if (comparedAs(table)?.kind !== "drop") return [];
    const after = table.section.qualifiers.repair === "after";
    return placedReadings(table, ctx).flatMap((item) => {
      const { net, tiedTo } = item.place;
      const out = judgements.get(item.reading)?.verdict === "out-of-limits";
      return out && net && !tiedTo ? [{ after, wrong: { ...item, net: net.name } }] : [];
    });
  });
  known.set(block, { ctx, all });
  return all;
}

function* faultsIn(
  wrong: readonly PlacedWrong[],
  board: Board,
  uri: string,
  ctx: LogContext,
): Iterable<Draft> {
  const members = (net: string) => board.nets.get(net)?.pins ?? [];
  const found = sharedFaults({ kind: "drop", wrong, members });
  for (const fault of found.ok ? found.faults : []) {
    const net = board.nets.get(fault.net);
    // Those that were put in, in the order of the log.
    const readings = wrong.filter((item) => (fault.readings as readonly WrongReading[]).includes(item));
    const [first, ...others] = readings;
    if (!net || !first) continue;
    yield {
      span: shift(first.reading.cell.span, first.start),
      message: message(fault, net, board, readings),
      related: [
        ...others.map((item) => ({
          uri,
          span: shift(item.reading.cell.span, item.start),
          message: `${pinName(item)} reads ${item.reading.value.typed} on the same net`,
        })),
        ...placesOfNet(net, ctx),
      ],
      data: { net: fault.net, pins: readings.map(pinName) },
    };
  }
}

function message(
  { net: name, readings: alike }: SharedFault,
  net: Net,
  board: Board,
  readings: readonly PlacedWrong[],
): string {
  const value = alike[0]?.value ?? 0;
  const open = value === Number.POSITIVE_INFINITY;
  const reads = open ? "open" : `about ${say(value, "V")}`;
  const pins = [...new Set(readings.map(pinName))].join(" and ");
  const low = !open && value < LOW;
  return `${pins} stand on one net, ${name}, and read ${reads} alike: take it as one fault with several candidates. ${onThatNet(net)} ${
    low
      ? howToSeparate(net, board)
      : "Nothing on the net conducts as it should: check that the lead stood on the board's ground, then the ground pins and joints of these parts before any of them is blamed."
  }`;
}

/** Below this a net is pulled down, above it its clamps are missing; volts, common practice, no source. */
const LOW = 0.45;
