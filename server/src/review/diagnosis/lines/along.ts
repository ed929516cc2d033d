// A net of which one pin reads open on the diode range while another conducts: headers and resistor networks are read as
// well, which have no drop of their own, and the open lies between the two.

import { defined } from "../../../base/defined";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { isolationOf } from "../../../judge/nets/isolation";
import { pinName, testPointOf } from "../../../judge/test-point";
import type { PinRef } from "../../../knowledge/types";
import type { LogTable, Reading } from "../../../log/model";
import type { Observation } from "../observation";

/** What conducts drops less than this, volts; common practice, no source. */
const CONDUCTS = 1.2;

interface Read extends PinRef {
  readonly reading: Reading;
  readonly open: boolean;
}

/** One observation a net, and the places of the pins whose own reading it stands for. */
export function alongNets(
  table: LogTable,
  ctx: LogContext,
): { readonly found: readonly Observation[]; readonly spans: ReadonlySet<number> } {
  const nets = new Map<string, Read[]>();
  if (table.kind.alongNets === "drops") {
    for (const reading of table.readings) {
      const place = testPointOf(reading.subject, ctx);
      const pin = place && pinName(place);
      const extent = extentOf(reading.value);
      if (!place?.part || !place.net || place.tiedTo || pin === undefined || !extent) continue;
      if (reading.measure !== "drop" || isolationOf(reading, place, ctx.board?.value)) continue;
      const open = extent.low === Number.POSITIVE_INFINITY;
      if (!open && !(extent.low > 0.15 && extent.high < CONDUCTS)) continue;
      const list = nets.get(place.net.name) ?? [];
      nets.set(place.net.name, list);
      list.push({ ref: place.part.ref, pin, reading, open });
    }
  }
  const found: Observation[] = [];
  const spans = new Set<number>();
  for (const [net, reads] of nets) {
    const isBoth = ({ ref, pin, open: was }: Read): boolean =>
      reads.some((other) => other.ref === ref && other.pin === pin && other.open !== was);
    // A pin that reads one thing and then the other comes and goes, or one of the two is a slip.
    if (reads.some(isBoth)) continue;
    const open = reads.filter((one) => one.open);
    const others = reads.filter((one) => !one.open);
    const [first] = open;
    if (!first || others.length === 0) continue;
    for (const { reading } of open) spans.add(reading.cell.span.start);
    const names = (list: readonly Read[]): string =>
      list.map(({ ref, pin }) => `${ref} pin ${pin}`).join(", ");
    const pinsOf = (list: readonly Read[]): PinRef[] => list.map(({ ref, pin }) => ({ ref, pin }));
    found.push(
      defined({
        key: `along ${net}`,
        what: net,
        table,
        span: first.reading.cell.span,
        refs: open.map(({ ref }) => ref.toUpperCase()),
        net,
        finding: {
          kind: "sign" as const,
          sign: "net-open" as const,
          nets: [net],
          pins: pinsOf(open),
          others: pinsOf(others),
          of: net,
          says: `${names(open)} ${open.length === 1 ? "reads" : "read"} open on ${net}, and ${names(others)} ${others.length === 1 ? "does" : "do"} not.`,
        },
      }),
    );
  }
  return { found, spans };
}
