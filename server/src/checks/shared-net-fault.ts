import { memo } from "../base/memo";
import { pinText, someOf } from "../compute/nets/net-text";
import { howToSeparate } from "../compute/nets/separate";
import { type SharedFault, sharedFaults, type WrongReading } from "../compute/nets/shared-fault";
import { contextAt, type LogContext } from "../judge/context";
import { inJudgedBlocks } from "../judge/in-blocks";
import { comparedAs } from "../judge/nets/block-nets";
import { type JudgedOnNet, judgedAlongNets, type PlacedOnNet, placedAlong } from "../judge/nets/judged-along";
import type { Board, Net } from "../knowledge/types";
import type { LogBlock, LogTable } from "../log/model";
import { momentIn, timelineOf } from "../log/timeline";
import { formatValue } from "../quantity/format-value";
import type { Advice, Saying } from "../text/saying";
import { shift } from "../text/span";
import { type Draft, documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { placesOfNet } from "./on-net";

export default documentCheck({
  code: "shared-net-fault",
  title: "One wrong reading on two chips of a net",
  severity: "information",
  scope: "document",
  why: "Two chips with pins on one net share its readings. The same wrong reading on both is one fault with several candidates, and replacing the chip that happened to be measured first is a guess.",
  remedy:
    "Find out which part it is before anything is replaced: unplug, pull what is socketed, lift a pin or cut the track, and read the net again after each.",
  settledBy: "later-reading-of-each-pin",
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
    const timeline = timelineOf(doc);
    const times = new Map<number, { wrong: Map<string, PlacedWrong[]>; lifts: PlacedLift[] }>();
    for (const { start, found } of readOnNets(doc, ctx)) {
      for (const { out, item: own } of found) {
        const item = { ...own, start: start + own.start };
        const at = momentIn(timeline, item.table).repairs;
        const time = times.get(at) ?? { wrong: new Map<string, PlacedWrong[]>(), lifts: [] as PlacedLift[] };
        times.set(at, time);
        const key = item.isolation?.key ?? "";
        if (item.isolation) time.lifts.push({ ...item, cleared: !out });
        if (!out || item.isolation?.alone) continue;
        const wrong = time.wrong.get(key);
        if (wrong) wrong.push(item);
        else time.wrong.set(key, [item]);
      }
    }
    for (const { wrong, lifts } of times.values()) {
      for (const alike of wrong.values()) yield* faultsIn(alike, lifts, board, doc.uri, ctx);
    }
  },
  noFix: "The readings are what was measured; the fault is on the board.",
});

/** With the offset that its spans count from. */
type PlacedWrong = WrongReading &
  Pick<PlacedOnNet, "reading" | "isolation" | "start"> & { readonly table: LogTable };
/** Read with something off the net, and right then or still wrong. */
type PlacedLift = PlacedWrong & { readonly cleared: boolean };

interface ReadOnNet {
  readonly out: boolean;
  readonly item: PlacedWrong;
}

/** Readings of a block on nets that are neither ground nor a rail: those out of limits, and those taken apart. */
const readIn = memo((block: LogBlock, ctx: LogContext): readonly ReadOnNet[] =>
  judgedAlongNets(block, contextAt(block, ctx)).flatMap((along) => {
    const { table } = along;
    if (comparedAs(table)?.kind !== "drop") return [];
    return placedAlong(along, telling).map(
      (item): ReadOnNet => ({ out: isOut(item), item: { ...item, table, net: item.place.net?.name ?? "" } }),
    );
  }),
);

const readOnNets = inJudgedBlocks((block, ctx) => {
  const read = readIn(block, ctx);
  return read.length === 0 ? undefined : read;
});

const isOut = ({ judgement }: JudgedOnNet): boolean => judgement?.verdict === "out-of-limits";

const telling = memo((readings: readonly JudgedOnNet[]): readonly JudgedOnNet[] =>
  readings.filter((item) => {
    const { net, tiedTo } = item.place;
    const told = isOut(item) || (item.isolation && item.judgement?.verdict === "within-limits");
    return told && net && !tiedTo;
  }),
);

function* faultsIn(
  wrong: readonly PlacedWrong[],
  lifts: readonly PlacedLift[],
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
    const tried = lifts.filter((lift) => lift.net === fault.net);
    yield {
      span: shift(first.reading.cell.span, first.start),
      ...sayingOf(fault, net, board, readings, tried),
      related: [
        ...others.map((item) => ({
          uri,
          span: shift(item.reading.cell.span, item.start),
          message: `${pinText(item)} reads ${item.reading.value.typed} on the same net`,
        })),
        ...tried.map((item) => ({
          uri,
          span: shift(item.reading.cell.span, item.start),
          message: `${pinText(item)} reads ${item.reading.value.typed} ${item.isolation?.words}`,
        })),
        ...placesOfNet(net, ctx),
      ],
      data: { net: fault.net, pins: readings.map(pinText) },
    };
  }
}

function sayingOf(
  { net: name, readings: alike }: SharedFault,
  net: Net,
  board: Board,
  readings: readonly PlacedWrong[],
  tried: readonly PlacedLift[],
): Saying & Pick<Draft, "net"> {
  const value = alike[0]?.value ?? 0;
  const open = value === Number.POSITIVE_INFINITY;
  const reads = open ? "open" : `about ${formatValue(value, "V")}`;
  const names = [...new Set(readings.map(pinText))];
  const pins = names.length === 2 ? names.join(" and ") : someOf(names, 2);
  const low = !open && value < LOW;
  return {
    fact: `${pins} are on one net, ${name}, and ${names.length === 2 ? "both" : "all"} read ${reads}: one fault.`,
    net,
    ...(low
      ? separated(net, board, tried)
      : {
          cause: "Nothing on the net conducts as it should.",
          step: "Check that the lead was on the board's ground, then the ground pins and joints of these parts.",
        }),
  };
}

/** What the readings with something off say of the parts on the net, or how to tell them apart. */
function separated(net: Net, board: Board, tried: readonly PlacedLift[]): Advice {
  const culprits = tried.filter(({ cleared, isolation }) => cleared && !isolation?.alone && !isolation?.cut);
  const few = [...culprits].sort(
    (a, b) => (a.isolation?.off.length ?? 0) - (b.isolation?.off.length ?? 0),
  )[0];
  if (few?.isolation) {
    const { off, words } = few.isolation;
    const read = `It reads ${few.reading.value.typed} ${words}`;
    return off.length === 1
      ? { cause: `${read}, so it is ${off[0]}, its socket or its joints there.` }
      : { cause: `${read}, so it is one of ${off.join(", ")}.`, step: "Put them back one at a time." };
  }
  const out = new Set(
    tried.flatMap(({ cleared, isolation, ref }) =>
      isolation?.alone ? (cleared ? [ref] : []) : cleared ? [] : (isolation?.off ?? []),
    ),
  );
  const guilty = tried.find(({ cleared, isolation }) => isolation?.alone && !cleared);
  if (guilty)
    return {
      cause: `${pinText(guilty)} reads ${guilty.reading.value.typed} with its leg lifted: it is ${guilty.ref}.`,
    };
  const cause = out.size > 0 ? `Not ${[...out].join(" or ")}: the net reads low without it.` : undefined;
  return { cause, ...howToSeparate(net, board, out) };
}

/** Below this a net is pulled down, above it its clamps are missing; volts, common practice, no source. */
const LOW = 0.45;
