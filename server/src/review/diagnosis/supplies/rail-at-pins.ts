// A rail that was read at several of its pins under power: where they agree, the rail itself is off, and no joint of one of them.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import type { Judgement } from "../../../judge";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { testPointOf } from "../../../judge/test-point";
import { siValue } from "../../../judge/uncertainty";
import { boardIndex } from "../../../knowledge/board-index";
import type { LogBlock, Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { isPowerOff } from "../words/power-off";

/** Two places of one rail read alike within: volts, and as a share. Common practice, no source. */
const ALIKE = { volts: 0.05, share: 0.02 } as const;
/** Of its voltage: what is under it is nothing at all, as of a rail with the power off. */
const NOTHING = 0.05;

/** As a share of its voltage, what is as it should be. Common practice, no source. */
const RIGHT = 0.05;

interface At {
  readonly ref: string;
  readonly volts: number;
  readonly reading: Reading;
}

/** One observation a rail, and the places of the readings that it stands for. */
export function railsAtPins(
  block: LogBlock,
  judgements: ReadonlyMap<Reading, Judgement>,
  ctx: LogContext,
): { readonly found: readonly Observation[]; readonly spans: ReadonlySet<number> } {
  const board = ctx.board?.value;
  const rails = new Map<string, At[]>();
  const off = new Set<string>();
  for (const table of board ? block.tables : []) {
    if (table.kind.observedAs !== "pin-powered") continue;
    for (const reading of table.readings) {
      const place = testPointOf(reading.subject, ctx);
      const extent = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
      if (!board || !place?.part || !place.net || !extent || extent.low !== extent.high) continue;
      const rail = boardIndex(board).railOf(place.net);
      if (rail === undefined || (reading.apart ?? []).length > 0 || isPowerOff(reading)) continue;
      const { verdict, side } = judgements.get(reading) ?? {};
      if (verdict === "out-of-limits" && side === "low") off.add(rail);
      rails.set(rail, [...(rails.get(rail) ?? []), { ref: place.part.ref, volts: extent.low, reading }]);
    }
  }
  const found: Observation[] = [];
  const spans = new Set<number>();
  for (const [name, reads] of rails) {
    const rail = board?.rails.get(name);
    const nominal = siValue(rail?.nominal ?? "", "V");
    const [first] = reads;
    const point = reads.find(({ ref, volts }) => isRightAt(ref, volts, nominal));
    if (point) found.push(rightAt(name, point));
    if (!off.has(name) || !rail || !first || nominal === undefined) continue;
    const isAlike = reads.every(
      ({ volts }) => Math.abs(volts - first.volts) <= ALIKE.volts + ALIKE.share * Math.abs(first.volts),
    );
    const places = new Set(reads.map(({ ref }) => ref));
    if (!isAlike || places.size < 2 || Math.abs(first.volts) < NOTHING * Math.abs(nominal)) continue;
    for (const { reading } of reads) spans.add(reading.cell.span.start);
    found.push(
      defined({
        key: `rail at its pins ${name}`.toUpperCase(),
        what: name,
        table: first.reading.table,
        span: first.reading.cell.span,
        refs: rail.regulator === undefined ? [] : [rail.regulator.toUpperCase()],
        net: rail.net,
        finding: {
          kind: "sign" as const,
          sign: "rail-wrong" as const,
          rail: name,
          state: "low" as const,
          of: name,
          says: `${name} reads ${first.reading.value.typed} at ${[...places].join(" and at ")}.`,
        } satisfies SignFinding,
      }),
    );
  }
  return { found, spans };
}

/** A test point is where a rail is read, whatever table it stands in. */
const isRightAt = (ref: string, volts: number, nominal: number | undefined): boolean =>
  /^TP\d/i.test(ref) && nominal !== undefined && Math.abs(volts - nominal) <= RIGHT * Math.abs(nominal);

const rightAt = (name: string, { ref, reading }: At): Observation => ({
  key: `rail at ${ref} ${name}`.toUpperCase(),
  what: name,
  table: reading.table,
  span: reading.cell.span,
  refs: [],
  railRight: name,
});
