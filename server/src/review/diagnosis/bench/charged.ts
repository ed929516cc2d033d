// A rail that was measured for ohms or drops while what stands on it still held its charge: one finding for all that was
// read there, in place of what each reading says.

import { extentOf } from "../../../judge/compare";
import { contextAt, type LogContext } from "../../../judge/context";
import { railAt } from "../../../judge/rail-name";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Net, Rail } from "../../../knowledge/types";
import type { LogDocument } from "../../../log/document";
import type { JudgedBy } from "../../../log/kinds/kind";
import type { LogTable, Reading } from "../../../log/model";
import { shift } from "../../../text/span";
import type { LocatedObservation } from "../observation";
import { isPowerOff } from "../words/power-off";

/** Common practice, no source. */
const CHARGED = {
  /** Volts on a rail without power that a meter's own voltage is lost in. */
  volts: 0.3,
  /** Volts that spoil any reading of ohms. */
  much: 2,
  /** Ohms one way that are as good as none, and how much more they are the other way. */
  none: 1,
  ratio: 1000,
} as const;

/** Left unplugged to be read: no supply can reach it. */
const PULLED = /\b(?:cord|plug) (?:was )?(?:out|pulled)\b|\bmachine(?: is| was)? off\b/i;
/** Who judges the tables whose readings a charge spoils: drops, and resistances to ground. */
const SPOILT: ReadonlySet<JudgedBy> = new Set(["diode", "ground"]);

interface OnRail {
  readonly rail: Rail;
  readonly net: Net;
  /** Its reading with the power off. */
  volts?: { readonly reading: Reading; readonly start: number };
  /** Where its ohms were read first. */
  ohms?: number;
  /** Ohms that no resistor has. */
  wild?: { readonly reading: Reading; readonly start: number };
}

export function withoutCharged(
  all: readonly LocatedObservation[],
  doc: LogDocument,
  whole: LogContext,
): readonly LocatedObservation[] {
  const board = whole.board?.value;
  if (!board) return all;
  const charged = [...railsRead(doc, whole, board).values()].flatMap((one): Charged[] => {
    const { rail, net, volts, wild } = one;
    const at = volts ?? wild;
    // Read again further down; with the leads the other way round, in the same row, is not again.
    const isAgain = ({ railNotShort, span, table }: LocatedObservation): boolean =>
      railNotShort === rail.name && span.start > (at?.start ?? 0) && table !== at?.reading.table;
    if (!at || all.some(isAgain)) return [];
    const spoilt = all.filter((placed) => isSpoilt(placed, net, board));
    const says = volts
      ? `${rail.name} still had ${volts.reading.value.typed} with the power off, which spoils what was read on it.`
      : `${rail.name} reads ${wild?.reading.value.typed} to ground, which no part does.`;
    // Its charge was only found when its ohms had been read.
    const isLate =
      volts !== undefined && one.ohms !== undefined && one.ohms < volts.start && isHigh(volts.reading);
    const isNonsense = wild !== undefined || isLate || spoilt.some(({ finding }) => finding);
    return isNonsense ? [{ rail, at, says, spoilt }] : [];
  });
  if (charged.length === 0) return all;
  const gone = new Set(charged.flatMap(({ spoilt }) => spoilt));
  const [first] = charged;
  const kept = all.filter((one) => !gone.has(one) && !isOffRail(one));
  return first ? [...kept, told(first, charged)] : kept;
}

interface Charged {
  readonly rail: Rail;
  readonly at: { readonly reading: Reading; readonly start: number };
  readonly says: string;
  readonly spoilt: readonly LocatedObservation[];
}

function told(first: Charged, all: readonly Charged[]): LocatedObservation {
  const refs = all.map(({ rail }) => rail.name);
  const whose = refs.join(", ");
  const { reading, start } = first.at;
  return {
    key: `table charged ${whose}`.toUpperCase(),
    what: `what was read on ${whose}`,
    table: reading.table,
    span: shift(reading.cell.span, start),
    refs: [],
    phase: 0,
    finding: {
      kind: "table",
      refs,
      of: `the readings on ${whose}`,
      mistake: "the board was still charged",
      says: all.map(({ says }) => says).join(" "),
      again: `With power off, discharge ${whose} through a resistor made for it, measure next to nothing there, and read it again`,
    },
  };
}

function railsRead(doc: LogDocument, whole: LogContext, board: Board): ReadonlyMap<string, OnRail> {
  const found = new Map<string, OnRail>();
  for (const { start, block } of doc.blocks) {
    const ctx = contextAt(block, whole);
    if (!ctx.board) continue;
    for (const table of block.tables) {
      const ofOhms = table.kind.observedAs === "rail-to-ground";
      if (!ofOhms && table.kind.observedAs !== "rail") continue;
      for (const reading of table.readings) {
        const rail = railAt(reading.subject, board);
        const net = board.nets.get(rail?.net ?? "");
        if (!rail || !net) continue;
        const one = found.get(rail.name) ?? { rail, net };
        found.set(rail.name, one);
        const at = { reading, start };
        if (ofOhms) one.ohms ??= start;
        if (ofOhms ? isWild(reading, table) : isStillUp(reading)) one[ofOhms ? "wild" : "volts"] = at;
      }
    }
  }
  return found;
}

const isOff = (reading: Reading): boolean =>
  reading.table.section.qualifiers.power === "unpowered" ||
  isPowerOff(reading) ||
  [reading.table.section.heading?.text, reading.subject.note?.text].some(
    (words) => words !== undefined && PULLED.test(words),
  );

function isStillUp(reading: Reading): boolean {
  const extent =
    reading.spec.quantity === "voltage" && reading.measure !== "ripple" ? extentOf(reading.value) : undefined;
  return (
    extent !== undefined &&
    isOff(reading) &&
    Math.min(Math.abs(extent.low), Math.abs(extent.high)) >= CHARGED.volts
  );
}

const isHigh = ({ value }: Reading): boolean => Math.abs(extentOf(value)?.low ?? 0) >= CHARGED.much;

/** Below nothing; or a short the one way and far from it the other. */
function isWild(reading: Reading, { readings }: LogTable): boolean {
  const extent = extentOf(reading.value);
  if (!extent) return false;
  if (extent.high < 0) return true;
  const others = readings.filter((one) => one.row === reading.row && one !== reading);
  return (
    extent.high < CHARGED.none &&
    others.some((one) => (extentOf(one.value)?.low ?? 0) > CHARGED.none * CHARGED.ratio)
  );
}

/** The readings of a rail with the power off are of its charge, and not of what makes it. */
const isOffRail = ({ table, finding }: LocatedObservation): boolean =>
  table !== undefined &&
  finding?.kind === "sign" &&
  finding.rail !== undefined &&
  table.kind.observedAs === "rail" &&
  table.readings.some((reading) => isOff(reading) && reading.subject.rail?.text === finding.rail);

function isSpoilt(
  { table, finding, net: on, railNotShort }: LocatedObservation,
  net: Net,
  board: Board,
): boolean {
  if (!table || !SPOILT.has(table.kind.judgedBy)) return false;
  if (on === net.name || (railNotShort !== undefined && board.rails.get(railNotShort)?.net === net.name))
    return true;
  switch (finding?.kind) {
    case "pin":
      return boardIndex(board).net(finding.ref, finding.pin) === net;
    case "part":
      return net.pins.some(({ ref }) => ref === finding.ref);
    case "sign":
      return finding.ref !== undefined && finding.pin !== undefined
        ? boardIndex(board).net(finding.ref, finding.pin) === net
        : board.rails.get(finding.rail ?? "")?.net === net.name || (finding.nets ?? []).includes(net.name);
    default:
      return false;
  }
}
