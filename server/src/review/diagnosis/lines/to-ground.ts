// Ohms to ground at nets with a resistor that leads there: nothing beside it raises them. Where every element of a network reads
// too much, what they have in common is its common leg; a single one is open itself.

import { readValue } from "../../../compute/part-value";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { testPointOf } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Part, PinRef } from "../../../knowledge/types";
import type { LogBlock, LogTable, Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { otherEndOf } from "./ends";

/** More than a part of that value reads, by so many times. Common practice, no source. */
const OVER = 1.5;
/** Elements that all read too much before it is what they share. */
const LEAST_SHARED = 2;

interface Pull {
  readonly by: PinRef;
  readonly net: string;
  readonly reading: Reading;
  readonly isOver: boolean;
  /** Read at the resistor itself. */
  readonly isOwn: boolean;
}

export function openToGround(block: LogBlock, ctx: LogContext): Observation[] {
  return block.tables.flatMap((table) => {
    if (table.kind.judgedBy !== "ground" || table.pieces) return [];
    // Where nothing at all conducts it is the lead.
    const isLeadOn = table.readings.some(({ value }) => Number.isFinite(extentOf(value)?.high));
    const pulls = isLeadOn ? pullsRead(table, ctx) : [];
    const refs = [...new Set(pulls.map(({ by }) => by.ref))];
    return refs.flatMap((ref) =>
      told(
        table,
        ref,
        pulls.filter(({ by }) => by.ref === ref),
      ),
    );
  });
}

function pullsRead(table: LogTable, ctx: LogContext): readonly Pull[] {
  const board = ctx.board?.value;
  if (!board) return [];
  return table.readings.flatMap((reading): Pull[] => {
    const extent = reading.spec.quantity === "resistance" ? extentOf(reading.value) : undefined;
    const place = extent && testPointOf(reading.subject, ctx);
    const { net } = place ?? {};
    if (!extent || !net || place?.tiedTo || reading.apart) return [];
    return net.pins.flatMap((by): Pull[] => {
      const ohms = /^RN?\d/i.test(by.ref) ? ohmsOf(board.parts.get(by.ref)) : undefined;
      const end = ohms === undefined ? undefined : otherEndOf(by, net, board);
      if (ohms === undefined || !end || !boardIndex(board).isGround(end)) return [];
      return [{ by, net: net.name, reading, isOver: extent.low > OVER * ohms, isOwn: place?.ref === by.ref }];
    });
  });
}

/** "8 x 10k, SIP-9": of one element. */
const ohmsOf = (part: Part | undefined): number | undefined =>
  readValue(part?.value?.split(/[,;]/, 1)[0] ?? "", "resistance")?.nominal;

function told(table: LogTable, ref: string, pulls: readonly Pull[]): Observation[] {
  const over = pulls.filter(({ isOver }) => isOver);
  const [first] = over;
  if (!first) return [];
  const nets = new Set(over.map(({ net }) => net));
  const base = { table, refs: [ref.toUpperCase()] };
  if (/^RN/i.test(ref) && nets.size >= LEAST_SHARED && over.length === pulls.length)
    return [
      {
        ...base,
        key: `to ground ${ref}`.toUpperCase(),
        what: `${ref} to ground`,
        span: first.reading.cell.span,
        finding: {
          kind: "sign",
          sign: "net-open",
          pins: [{ ref, pin: "1" }],
          of: `the resistance from ${ref} to ground`,
          says: `None of ${nets.size} lines of ${ref} reads what it has to ground; pin 1 is what they share.`,
        },
      },
    ];
  return over
    .filter(({ isOwn }) => isOwn)
    .map(({ reading, by }) => ({
      ...base,
      key: `to ground ${ref}.${by.pin}`.toUpperCase(),
      what: `${ref} pin ${by.pin} to ground`,
      span: reading.cell.span,
      finding: {
        kind: "part",
        ref,
        verdict: "out-of-limits",
        of: `${ref} pin ${by.pin} to ground`,
        says: `${ref} pin ${by.pin} reads ${reading.value.typed} to ground, more than ${ref} has.`,
      },
    }));
}
