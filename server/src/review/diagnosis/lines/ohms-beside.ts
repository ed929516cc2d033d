// Ohms to ground beside those of places that are alike: another pin of the same net, or the same leg of a sister. Where one reads
// open, or several times as much, it does not hang where the others do.

import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { pinName, testPointOf } from "../../../judge/test-point";
import type { Board, Net, PinRef } from "../../../knowledge/types";
import type { LogBlock, LogTable, Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { otherEndOf } from "./ends";

/** Times and shares; common practice, no source. */
const OHMS = {
  /** So many times what the others read is not the same node. */
  more: 3,
  /** Sisters agree within this share of each other, and are at least so many. */
  alike: 0.2,
  sisters: 2,
} as const;

interface Placed extends PinRef {
  readonly net: Net;
  readonly ohms: number;
  readonly reading: Reading;
  /** What sisters share: the device and the pin's name; of transistors only. */
  readonly like: string | undefined;
}

/** Observations, and the places of readings that they stand for. */
export function ohmsBeside(
  block: LogBlock,
  ctx: LogContext,
): { readonly found: readonly Observation[]; readonly spans: ReadonlySet<number> } {
  const found: Observation[] = [];
  for (const table of block.tables) {
    if (table.kind.judgedBy !== "ground" || table.pieces) continue;
    const placed = placedIn(table, ctx);
    const apart = cutOff(placed);
    found.push(...apart.map((one) => ofNet(one, placed, table)));
    found.push(...loose(placed).flatMap((one) => (apart.includes(one) ? [] : ofSisters(one, table, ctx))));
  }
  return { found, spans: new Set(found.map(({ span }) => span.start)) };
}

function placedIn(table: LogTable, ctx: LogContext): Placed[] {
  return table.readings.flatMap((reading): Placed[] => {
    const { value, spec, subject, apart = [] } = reading;
    const ohms = value.kind === "open" ? Number.POSITIVE_INFINITY : extentOf(value)?.low;
    const at = spec.quantity === "resistance" && ohms !== undefined ? testPointOf(subject, ctx) : undefined;
    const pin = at && pinName(at);
    if (!at?.part || !at.net || at.tiedTo || pin === undefined || ohms === undefined || apart.length > 0)
      return [];
    const like = at.device?.kind === "transistor" && at.pin ? `${at.device.id} ${at.pin.name}` : undefined;
    return [{ ref: at.part.ref, pin, net: at.net, ohms, reading, like }];
  });
}

/** Of each net, the places that read far more than the least of it. */
const cutOff = (placed: readonly Placed[]): Placed[] =>
  placed.filter(({ net, ohms }) =>
    placed.some((other) => other.net === net && ohms > OHMS.more * Math.max(1, other.ohms)),
  );

/** Places whose sisters agree, and which read far more. */
const loose = (placed: readonly Placed[]): Placed[] =>
  placed.filter((one) => {
    const sisters = placed.filter(
      (other) => other !== one && other.like !== undefined && other.like === one.like,
    );
    const all = sisters.map(({ ohms }) => ohms);
    const [least, most] = [Math.min(...all), Math.max(...all)];
    const agree = Number.isFinite(most) && most - least <= OHMS.alike * most;
    return all.length >= OHMS.sisters && agree && one.ohms > OHMS.more * most;
  });

function ofNet({ ref, pin, net, reading }: Placed, placed: readonly Placed[], table: LogTable): Observation {
  const others = placed.filter((one) => one.net === net && one.ref !== ref && Number.isFinite(one.ohms));
  return {
    key: `ohms apart ${net.name} ${ref}.${pin}`.toUpperCase(),
    what: net.name,
    table,
    span: reading.cell.span,
    refs: [ref.toUpperCase()],
    net: net.name,
    finding: {
      kind: "sign",
      sign: "net-open",
      nets: [net.name],
      pins: [{ ref, pin }],
      others: others.map((one) => ({ ref: one.ref, pin: one.pin })),
      of: `the ohms along ${net.name}`,
      says: `${ref} pin ${pin} reads ${reading.value.typed} to ground, and the rest of ${net.name} does not.`,
    },
  };
}

/** What leads from there to where the sisters' do. */
function ofSisters(
  { ref, pin, net, reading }: Placed,
  table: LogTable,
  { board }: LogContext,
): Observation[] {
  const leads = net.pins.filter((one) => /^R\d/i.test(one.ref));
  if (leads.length === 0) return [];
  const of = `${ref} pin ${pin} to ground`;
  return [
    {
      key: `ohms beside ${ref}.${pin}`.toUpperCase(),
      what: of,
      table,
      span: reading.cell.span,
      refs: leads.map((one) => one.ref.toUpperCase()),
      net: net.name,
      finding: {
        kind: "sign",
        sign: "stage",
        refs: [...new Set(leads.map((one) => one.ref))],
        pins: leads.flatMap((lead) => [lead, ...farEnd(lead, net, board?.value)]),
        of,
        says: `${of} reads ${reading.value.typed}, and the same leg of its sisters does not.`,
      },
    },
  ];
}

const farEnd = (lead: PinRef, net: Net, board: Board | undefined): readonly PinRef[] =>
  (board && otherEndOf(lead, net, board))?.pins.filter(({ ref }) => ref === lead.ref) ?? [];
