// Pins held against what is alike: one that stands still while the same pins of the sections beside it move.

import type { SignFinding } from "../../../compute/diagnosis/types";
import { activeLevel } from "../../../compute/logic/one-of-n";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { pinName, type TestPoint, testPointOf } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Device } from "../../../knowledge/types";
import type { LogDocument } from "../../../log/document";
import type { LogTable, Reading } from "../../../log/model";
import { momentIn, timelineOf } from "../../../log/timeline";
import { shift } from "../../../text/span";
import type { LocatedObservation } from "../observation";

/** Outputs beside it that move, at least. A latch may have one idle line of a few by chance, and hardly one of many. */
const LEAST_MOVING = 3;
const LEAST_OF_LATCH = 5;
/** The same where it is the output of a line that is seen to fail. */
const LEAST_BESIDE_MISSED = 2;

/** An output that stands still while the others of its chip move, all of them read in one table. */
export function stillOutputs(
  all: readonly LocatedObservation[],
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): LocatedObservation[] {
  const byChip = new Map<string, LocatedObservation[]>();
  for (const one of all) {
    if (!one.level || !one.table) continue;
    const { ref, pin } = one.level;
    const device = deviceOf(board.parts.get(ref)?.device ?? "");
    const direction = device?.pins.get(pin)?.direction;
    // A row of drivers is no port: its outputs follow what stands at its inputs.
    const isPort =
      device?.kind === "processor" ||
      device?.kind === "memory" ||
      (device?.kind === "interface" &&
        [...device.pins.values()].some((one) => one.direction === "bidirectional"));
    if (isPort || (direction !== "output" && direction !== "three-state" && direction !== "open-collector"))
      continue;
    byChip.set(ref, [...(byChip.get(ref) ?? []), one]);
  }
  const told = netsTold(all, board);
  const missed = new Set(
    all.flatMap(({ finding }) =>
      finding?.kind === "matrix-line"
        ? finding.net
        : finding?.kind === "sign" && (finding.sign === "digit" || finding.sign === "segment")
          ? (finding.nets ?? [])
          : [],
    ),
  );
  const isSeenMoving = (ref: string, pin: string): boolean =>
    all.some(({ level }) => level?.ref === ref && level.pin === pin && level.state === "pulsing");
  return [...byChip.values()].flatMap((outputs): LocatedObservation[] => {
    const still = outputs.filter(({ level }) => level?.state === "low" || level?.state === "high");
    const moving = outputs.filter(({ level }) => level?.state === "pulsing");
    const [one] = still;
    if (still.length !== 1 || !one?.level || one.finding) return [];
    const { ref, pin, state } = one.level;
    const isMissed = missed.has(boardIndex(board).net(ref, pin)?.name ?? "");
    const device = deviceOf(board.parts.get(ref)?.device ?? "");
    // A decoder of which every select moves goes round all its lines.
    const isRound = device?.truthTables.some(
      (table) =>
        table.outputs.includes(pin) &&
        activeLevel(table) !== undefined &&
        activeLevel(table) !== state &&
        table.inputs.every((input) => isSeenMoving(ref, input)),
    );
    // A gate all of whose inputs move, beside one that passes what it is given.
    const isAsked = device?.gates.some(
      ({ inputs, outputs: own }) =>
        own.includes(pin) && inputs.length > 1 && inputs.every((input) => isSeenMoving(ref, input)),
    );
    const least = isAsked ? 1 : isMissed || isRound ? LEAST_BESIDE_MISSED : LEAST_MOVING;
    if (moving.length < least) return [];
    if (told.has(boardIndex(board).net(ref, pin)?.name ?? "")) return [];
    // A latch whose input stands still as well does what it is told.
    const isLatch = device && isClocked(device) && [...device.pins.keys()].some((one) => takes(device, one));
    if (isLatch && moving.length < LEAST_OF_LATCH) return [];
    if (
      isLatch &&
      all.some(({ level }) => level?.ref === ref && level.state === state && takes(device, level.pin))
    )
      return [];
    const of = `${ref} pin ${pin}`;
    return [
      {
        ...one,
        key: `still ${ref}.${pin}`.toUpperCase(),
        finding: {
          kind: "sign",
          sign: isRound ? "still-beside" : "still",
          ref,
          pin,
          state: state === "low" ? "low" : "high",
          of,
          says: `${of} stands ${state} while the other outputs of ${ref} move.`,
        } satisfies SignFinding,
      },
    ];
  });
}

/** Something tells it when to take its data over: "D" of a decoder is one of its numbers. */
const isClocked = ({ pins }: Device): boolean =>
  !["A", "B", "C"].every((bit) => [...pins.values()].some(({ name }) => name === bit)) &&
  [...pins.values()].some(
    ({ name, direction }) =>
      direction === "input" && /^[/~]?\d?(?:CLK|CK|CP|CLOCK|LE|C|G|E|\d-\dEN)\d*$/i.test(name),
  );

/** Data, and neither a clock nor what enables or clears. */
const takes = ({ pins }: Device, pin: string): boolean =>
  pins.get(pin)?.direction === "input" && /^\d*D\d*$/i.test(pins.get(pin)?.name ?? "");

/** Nets that a reading without power found wrong: what they stand at under power follows from that. */
function netsTold(all: readonly LocatedObservation[], board: Board): ReadonlySet<string> {
  const index = boardIndex(board);
  return new Set(
    all.flatMap(({ finding }) =>
      finding?.kind === "pin" && !finding.powered ? (index.net(finding.ref, finding.pin)?.name ?? []) : [],
    ),
  );
}

/** Volts by which a pin moves between two tables, and the share of that below which its sister stands still. */
const MOVES = 0.6;
const STILL_SHARE = 0.15;

interface Twice {
  readonly place: TestPoint;
  readonly pin: string;
  readonly first: number;
  readonly last: number;
  readonly reading: Reading;
}

/**
 * Pins read in two tables, nothing asked for and something asked for: those that move, and those that do not while the
 * same pin of a section beside it does.
 */
export function betweenTables(
  doc: LogDocument,
  ctx: LogContext,
  all: readonly LocatedObservation[],
): LocatedObservation[] {
  const board = ctx.board?.value;
  if (!board) return [];
  const told = netsTold(all, board);
  const timeline = timelineOf(doc);
  const seen = new Map<
    string,
    {
      place: TestPoint;
      pin: string;
      phase: number;
      start: number;
      reads: { volts: number; reading: Reading; table: LogTable }[];
    }
  >();
  for (const { start, block } of doc.blocks) {
    for (const table of block.tables) {
      if (table.kind.judgedBy !== "level") continue;
      for (const reading of table.readings) {
        const place = testPointOf(reading.subject, ctx);
        const pin = place && pinName(place);
        const extent = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
        if (!place?.part || pin === undefined || place.tiedTo || !extent || extent.low !== extent.high)
          continue;
        const phase = momentIn(timeline, table).order;
        const key = `${place.part.ref}.${pin} ${phase}`;
        const known = seen.get(key) ?? { place, pin, phase, start, reads: [] };
        seen.set(key, known);
        if (known.reads.every((other) => other.table !== table))
          known.reads.push({ volts: extent.low, reading, table });
        known.start = start;
      }
    }
  }
  const twice = [...seen.values()].flatMap(({ place, pin, phase, start, reads }) => {
    const [first] = reads;
    const last = reads.at(-1);
    return first && last && first !== last && reads.length === 2
      ? [
          {
            place,
            pin,
            phase,
            start,
            first: first.volts,
            last: last.volts,
            reading: last.reading,
            role: roleName(place),
          },
        ]
      : [];
  });
  const change = ({ first, last }: Pick<Twice, "first" | "last">): number => Math.abs(last - first);
  return twice.flatMap((one): LocatedObservation[] => {
    const { place, pin, phase, start, reading } = one;
    const ref = place.part?.ref ?? "";
    const of = `${ref} pin ${pin}`;
    const at = {
      what: of,
      table: reading.table,
      span: shift(reading.cell.span, start),
      refs: [ref.toUpperCase()],
      phase,
    };
    const most = Math.max(...twice.flatMap((other) => (other.role === one.role ? change(other) : [])));
    if (change(one) > Math.max(MOVES, most / 2))
      return [{ ...at, key: `moves ${of}`.toUpperCase(), level: { ref, pin, state: "pulsing" } }];
    const sister = twice.find(
      (other) =>
        other !== one &&
        other.role === one.role &&
        change(other) > MOVES &&
        change(one) < STILL_SHARE * change(other),
    );
    if (!sister || told.has(place.net?.name ?? "")) return [];
    // Where it is furthest from its sister it is wrong.
    const isLast = Math.abs(one.last - sister.last) >= Math.abs(one.first - sister.first);
    const state = (isLast ? one.last < sister.last : one.first < sister.first) ? "low" : "high";
    return [
      {
        ...at,
        key: `sister ${of}`.toUpperCase(),
        level: { ref, pin, state },
        finding: {
          kind: "sign",
          sign: "still-beside",
          ref,
          pin,
          state,
          of,
          says: `${of} stays where it is, and ${sister.place.part?.ref} pin ${sister.pin} beside it moves.`,
        } satisfies SignFinding,
      },
    ];
  });
}

/** What the pin is in its section: "1A" and "2A" are one, and so are the bases of two transistors of one type. */
function roleName({ device, pin, part }: TestPoint): string {
  return `${device?.kind ?? ""} ${device?.kind === "transistor" ? "" : (part?.device ?? "")} ${(pin?.name ?? "").replace(/\d+/g, "")}`;
}
