// Diodes and transistors on the diode range, a row a leg: what a leg reads hangs on what the board has there, so that
// only a plain short or two open legs say something, and then as a doubt.

import type { Extent } from "../compute/limits/compare";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import { readingsOfAllRows } from "./all-rows";
import { extentOf } from "./compare";
import type { LogContext } from "./context";
import { type TestPoint, testPointOf } from "./test-point";
import type { Judgement, Reference } from "./types";

/** Below this nothing that conducts like a junction is left; volts, common practice, no source. */
const SHORT_BELOW = 0.05;
const SOURCE = "common practice, no source";

/**
 * The fact goes on behind what was read. Undefined for all but the legs of diodes and bipolar transistors that read short or open where they should not.
 */
export function judgeLeg(
  reading: Reading,
  place: TestPoint,
  extent: Extent,
  ctx: LogContext,
): Pick<Judgement, "verdict" | "side" | "says" | "formula" | "reference"> | undefined {
  const { device, pin } = place;
  if (!device || !pin || place.tiedTo || (device.kind !== "diode" && device.kind !== "transistor"))
    return undefined;
  const name = pin.name.toUpperCase();
  const isDiode = device.kind === "diode";
  // Of a bridge or a network a leg says nothing without the others.
  if (isDiode && device.pins.size !== 2) return undefined;
  const number = place.part?.device ?? device.id;
  // An emitter, a source or a cathode often stands on ground; the collector of an NPN hardly ever does.
  const isCollector =
    (name === "C" || name === "COLLECTOR") && device.families.some((id) => id.startsWith("NPN"));
  const mayBeGround = isDiode ? false : name !== "B" && name !== "BASE" && !isCollector;
  if (extent.high <= SHORT_BELOW && !mayBeGround) {
    const reference: Reference = {
      kind: "physics",
      of: "a junction",
      low: SHORT_BELOW,
      unit: "V",
      source: SOURCE,
    };
    return {
      verdict: "suspect",
      side: "low",
      reference,
      formula: `${extent.high} V < ${SHORT_BELOW} V`,
      says: {
        fact: `; a junction drops more than ${formatValue(SHORT_BELOW, "V")}.`,
        ...(isDiode
          ? {
              cause: "It is shorted, or this leg is on ground on this board.",
              step: `Lift one leg of the ${number} and read it both ways.`,
            }
          : {
              cause: `The ${isCollector ? "collector" : "base"} is shorted to the emitter or to ground, or the board ties it there.`,
              step: `Lift the ${isCollector ? "collector" : "base"} of the ${number} and read again.`,
            }),
      },
    };
  }
  if (
    isDiode &&
    extent.low === Number.POSITIVE_INFINITY &&
    name === "A" &&
    otherIsOpen(reading, place, ctx)
  ) {
    return {
      verdict: "suspect",
      side: "high",
      formula: "\u221e both ways",
      says: {
        fact: ", and so does its other leg.",
        cause: `The ${number} or a joint is open.`,
        step: "Lift one leg and read it both ways.",
        source: SOURCE,
      },
    };
  }
  return undefined;
}

/** True where the row of the diode's other leg, in the same table, reads open too. */
function otherIsOpen({ table }: Reading, place: TestPoint, ctx: LogContext): boolean {
  return readingsOfAllRows(table).some((other) => {
    const at = testPointOf(other.subject, ctx);
    return (
      at?.ref === place.ref &&
      at.pin !== undefined &&
      at.pin.number !== place.pin?.number &&
      extentOf(other.value)?.low === Number.POSITIVE_INFINITY
    );
  });
}
