// What the supplies were read at, for tables that stand elsewhere in the log: a rail that is off its voltage is so there as well.

import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { railAt } from "../../../judge/rail-name";
import { siValue } from "../../../judge/uncertainty";
import type { LogDocument } from "../../../log/document";
import type { LogBlock, LogTable } from "../../../log/model";
import { isPowerOff } from "../words/power-off";

/** As a share of its voltage; what is nearer makes no difference to what hangs on it. Common practice, no source. */
const OFF = 0.04;

/** Volts by net, of rails that are off their voltage. */
export type RailVolts = Readonly<Record<string, number>>;

/** By block: what the rails were read at last, with as many repairs done as at the block's first table. */
export function railsRead(
  doc: LogDocument,
  ctx: LogContext,
  orderOf: (table: LogTable) => number,
): (block: LogBlock) => RailVolts | undefined {
  const byOrder = new Map<number, Record<string, number>>();
  for (const { block } of doc.blocks)
    for (const table of block.tables) {
      if (table.kind.observedAs !== "rail") continue;
      for (const [net, volts] of ofTable(table, ctx)) {
        const order = orderOf(table);
        const known = byOrder.get(order) ?? {};
        byOrder.set(order, known);
        if (volts === undefined) delete known[net];
        else known[net] = volts;
      }
    }
  return ({ tables: [first] }) => first && byOrder.get(orderOf(first));
}

/** Undefined where a rail is as it should be. */
function ofTable(table: LogTable, { board }: LogContext): [net: string, volts: number | undefined][] {
  return table.readings.flatMap((reading): [string, number | undefined][] => {
    if (reading.spec.quantity !== "voltage" || reading.measure === "ripple" || !board) return [];
    if ((reading.apart ?? []).length > 0 || isPowerOff(reading)) return [];
    const rail = railAt(reading.subject, board.value);
    const extent = extentOf(reading.value);
    const nominal = siValue(rail?.nominal ?? "", "V");
    if (!rail?.net || nominal === undefined || !extent || extent.low !== extent.high) return [];
    const off = Math.abs(extent.low - nominal) > OFF * Math.abs(nominal);
    return [[rail.net, off ? extent.low : undefined]];
  });
}
