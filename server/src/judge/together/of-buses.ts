// Lines of one bus that all read low: whatever holds them down holds them all, and none of them is at fault by itself.

import { memo } from "../../base/memo";
import type { LogBlock, Reading } from "../../log/model";
import { extentOf } from "../compare";
import { contextAt, type LogContext } from "../context";
import { judgeBlock, judgePieces } from "../index";
import type { Judgement } from "../types";
import { causesIn } from "./index";

export interface BusLine {
  readonly reading: Reading;
  readonly ref: string;
  /** The pin's number, and its name: "D3". */
  readonly pin: string;
  readonly name: string;
  readonly number: number;
}

/** A bus that is held down, as one chip or several show it. */
export interface LowBus {
  /** In the order of the log. */
  readonly refs: readonly string[];
  /** "D0" and "D7". */
  readonly first: string;
  readonly last: string;
  readonly lines: readonly BusLine[];
  /** Lines that were read, each once however many chips show it, and lines that the bus has. */
  readonly read: number;
  readonly of: number;
  /** Lowest and highest reading, and the limit that all are below; volts. */
  readonly from: number;
  readonly to: number;
  readonly limit: number;
}

/** "D7", "I/O3", "/A12": what a bus is called, and which line of it this is. */
const LINE = /^(\/?[A-Z][A-Z/]{0,3})(\d{1,2})$/;
/** Lines that other chips drive as well, and lines that a chip only listens to. Common practice, no source. */
const LEAST_SHARED = 4;
const LEAST_HEARD = 6;

/** Worked out once for a block and a context. */
export const lowBusesIn = (block: LogBlock, whole: LogContext): readonly LowBus[] =>
  lowBusesOf(block, contextAt(block, whole), whole);

const lowBusesOf = memo((block: LogBlock, ctx: LogContext, whole: LogContext): readonly LowBus[] => {
  if (!judgePieces(block, ctx).some(({ judgements }) => hasLowLines(judgements))) return NONE;
  const judgements = judgeBlock(block, ctx);
  const told = new Set(causesIn(block, whole).flatMap(({ parts }) => parts.map(({ ref }) => ref)));
  const found = new Map<string, LowBus>();
  for (const { lines, ref, stem, of } of busesRead(judgements)) {
    if (told.has(ref) || !lines.every(({ judgement }) => isLow(judgement))) continue;
    const bus = busOf(lines, of);
    const key = `${stem} ${of}`;
    const before = found.get(key);
    found.set(key, before ? both(before, bus) : bus);
  }
  return found.size === 0 ? NONE : [...found.values()];
});

const NONE: readonly LowBus[] = [];

const hasLowLines = memo((judgements: ReadonlyMap<Reading, Judgement>): boolean =>
  [...judgements.values()].some((one) => isLow(one) && LINE.test(one.place?.pin?.name ?? "")),
);

const isLow = ({ verdict, side, code }: Judgement): boolean =>
  side === "low" &&
  (verdict === "out-of-limits" || verdict === "suspect") &&
  (code === "diode-out-of-window" || code === "pin-shorted");

type Read = BusLine & { readonly judgement: Judgement };

interface BusAtChip {
  readonly ref: string;
  readonly stem: string;
  /** Lines that it has there. */
  readonly of: number;
  readonly lines: Read[];
}

/** By chip and bus, those of which every line but one at most was read. */
function busesRead(judgements: ReadonlyMap<Reading, Judgement>): BusAtChip[] {
  const buses = new Map<string, BusAtChip>();
  for (const [reading, judgement] of judgements) {
    const { place } = judgement;
    const pin = place?.pin;
    const [, stem, number] = LINE.exec(pin?.name ?? "") ?? [];
    if (!place?.device || !pin || stem === undefined || pin.direction === "output") continue;
    const siblings = [...place.device.pins.values()].filter(({ name }) => LINE.exec(name)?.[1] === stem);
    const isShared = siblings.every(
      ({ direction }) => direction === "bidirectional" || direction === "three-state",
    );
    if (siblings.length < (isShared ? LEAST_SHARED : LEAST_HEARD)) continue;
    const key = `${place.ref} ${stem}`;
    const bus = buses.get(key) ?? { ref: place.ref, stem, of: siblings.length, lines: [] };
    bus.lines.push({
      reading,
      judgement,
      ref: place.ref,
      pin: pin.number,
      name: pin.name,
      number: Number(number),
    });
    buses.set(key, bus);
  }
  return [...buses.values()].filter(({ lines, of }) => linesIn(lines) >= of - 1);
}

/** How many lines of the bus these are: a pin may be read twice, and a line at several chips. */
const linesIn = (lines: readonly BusLine[]): number => new Set(lines.map(({ name }) => name)).size;

function busOf(lines: readonly Read[], of: number): LowBus {
  const ordered = [...lines].sort((a, b) => a.number - b.number);
  const values = lines.flatMap(({ reading }) => {
    const extent = extentOf(reading.value);
    return extent ? [extent.low, extent.high] : [];
  });
  return {
    refs: [lines[0]?.ref ?? ""],
    first: ordered[0]?.name ?? "",
    last: ordered.at(-1)?.name ?? "",
    lines: lines.map(({ judgement: _, ...line }) => line),
    read: linesIn(lines),
    of,
    from: Math.min(...values),
    to: Math.max(...values),
    limit: Math.min(...lines.map(({ judgement }) => judgement.reference?.low ?? Number.POSITIVE_INFINITY)),
  };
}

function both(a: LowBus, b: LowBus): LowBus {
  const lines = [...a.lines, ...b.lines];
  return {
    ...a,
    refs: [...a.refs, ...b.refs],
    lines,
    read: linesIn(lines),
    from: Math.min(a.from, b.from),
    to: Math.max(a.to, b.to),
    limit: Math.min(a.limit, b.limit),
  };
}
