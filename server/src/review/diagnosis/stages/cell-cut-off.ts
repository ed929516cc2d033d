// Voltages with the power off around a cell: what it has does not arrive behind the resistor or diode that a memory is fed through.

import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { railAt } from "../../../judge/rail-name";
import { testPointOf } from "../../../judge/test-point";
import type { Board, Net } from "../../../knowledge/types";
import type { LogBlock } from "../../../log/model";
import { otherEndOf } from "../lines/ends";
import type { Observation } from "../observation";
import type { Volt } from "../supplies/off-supply";
import { isPowerOff } from "../words/power-off";
import { stageSeen } from "./around";

/** Of a cell's volts what arrives behind a resistor that feeds a memory from it; common practice, no source. */
const ARRIVES = 0.5;

/** With the power off the cell stands at one end of its resistor or diode, and hardly anything at the other. */
export function cellCutOff(block: LogBlock, ctx: LogContext): Observation[] {
  return ctx.board ? cutOffIn(block, ctx, ctx.board.value) : [];
}

function cutOffIn(block: LogBlock, ctx: LogContext, board: Board): Observation[] {
  const volts = new Map<string, Volt>();
  for (const table of block.tables)
    for (const reading of table.readings) {
      const extent = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
      const net =
        extent && isPowerOff(reading)
          ? (testPointOf(reading.subject, ctx)?.net ??
            board.nets.get(railAt(reading.subject, board)?.net ?? ""))
          : undefined;
      if (net && extent) volts.set(net.name, { volts: extent.low, reading } as Volt);
    }
  return [...board.nets.values()].flatMap((net): Observation[] => {
    const cell = volts.get(net.name);
    if (!cell || cell.volts < 1 || !net.pins.some(({ ref }) => /^(?:BT|BAT|B)\d/i.test(ref))) return [];
    const seen = new Set<Net>();
    return behindOf(net);

    /** Along what still has the cell's volts, up to where they end. */
    function behindOf(from: Net): Observation[] {
      seen.add(from);
      return from.pins.flatMap((at) => {
        const end = /^[RD]\d/i.test(at.ref) ? otherEndOf(at, from, board) : undefined;
        const behind = end && volts.get(end.name);
        if (!cell || !end || !behind || seen.has(end)) return [];
        if (behind.volts > ARRIVES * cell.volts) return behindOf(end);
        const before = volts.get(from.name) ?? cell;
        const says = `With the power off ${from.name} has ${before.reading.value.typed}, and ${behind.reading.value.typed} is left behind ${at.ref}.`;
        const pins = [at, ...end.pins.filter(({ ref }) => ref === at.ref)];
        return [
          { ...stageSeen(behind, at.ref, [at.ref], says, pins), key: `cut off ${at.ref}`.toUpperCase() },
        ];
      });
    }
  });
}
