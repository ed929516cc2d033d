// A pin that was read by itself, as the diagnosis takes it.

import { defined } from "../../../base/defined";
import type { Judgement } from "../../../judge";
import { isOnNetOf } from "../../../judge/board-parts";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { isolationOf } from "../../../judge/nets/isolation";
import { pinName, type TestPoint, testPointName } from "../../../judge/test-point";
import type { Disconnection } from "../../../log/disconnections";
import type { Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { isolatedPin } from "./isolated";
import { stateAt } from "./levels";

/** It stands at one level where one of the board's clocks should run. */
function isStillClock(reading: Reading, place: TestPoint, ctx: LogContext): boolean {
  const state = stateAt(reading, place);
  const signal = reading.subject.signal?.text;
  return (
    (state === "low" || state === "high") &&
    (ctx.board?.value.clocks ?? []).some((at) => isOnNetOf(place, signal, at, ctx))
  );
}

/** A chip that is not fed does nothing right: its supply or ground pin stands for its joints, and for the chip. */
export function atPowerPin(reading: Reading, judgement: Judgement): Observation | undefined {
  const { place } = judgement;
  const { pin, part } = place ?? {};
  if (!place || !part || !pin) return undefined;
  // Far from its rail it is no marginal supply.
  const verdict = isStarved(reading, judgement) ? "out-of-limits" : judgement.verdict;
  if (verdict !== "out-of-limits" && verdict !== "within-limits") return undefined;
  if (pin.direction !== "ground" && pin.direction !== "supply") return undefined;
  const { ref } = part;
  return {
    ...(verdict === "within-limits"
      ? { within: [{ ref, pin: pin.number }] }
      : {
          finding: defined({
            kind: "pin" as const,
            ref,
            pin: pin.number,
            verdict: "out-of-limits" as const,
            direction: pin.direction === "ground" ? ("high" as const) : undefined,
            powered: true,
          }),
        }),
    key: `power ${ref}.${pin.number}`.toUpperCase(),
    what: testPointName(place),
    table: reading.table,
    span: reading.cell.span,
    refs: [ref.toUpperCase()],
  };
}

/** Of the least that its supply may be, what a supply pin that is joined to its rail reads under power. */
const STARVED = 0.8;

function isStarved({ value, spec }: Reading, { reference, verdict, place }: Judgement): boolean {
  const extent = spec.quantity === "voltage" ? extentOf(value) : undefined;
  const { low } = reference ?? {};
  return (
    verdict === "suspect" &&
    place?.pin?.direction === "supply" &&
    extent !== undefined &&
    low !== undefined &&
    low > 0 &&
    extent.high < STARVED * low
  );
}

/** A drop below this is a short, which no slip reads; a probe that does not touch reads open. Volts, common practice, no source. */
const SHORT = 0.15;
/** Share of the limit within which a reading lies just outside it. */
const JUST = 0.12;

/** More volts than a meter gives on its diode range, common practice, no source. */
const RANGE = 3.5;

function howFar({ value, spec }: Reading, { reference }: Judgement): "far" | "just" | "point" | undefined {
  const extent = extentOf(value);
  if (!extent || spec.quantity !== "voltage") return undefined;
  if (extent.high < SHORT) return "far";
  const { low, high } = reference ?? {};
  // No diode range reads so much, and with the point one place further on it would be right.
  const shifted = extent.low / 10;
  if (extent.low > RANGE && extent.low === extent.high && shifted > (low ?? 0) && shifted < (high ?? 0))
    return "point";
  const isJust =
    (low !== undefined && extent.low < low && extent.low > low * (1 - JUST)) ||
    (high !== undefined && extent.high > high && extent.high < high * (1 + JUST));
  return isJust ? "just" : undefined;
}

type Told = Pick<Observation, "finding" | "within">;

export function pinObservations(
  reading: Reading,
  judgement: Judgement,
  unpowered: boolean,
  ctx: LogContext,
  before: readonly Disconnection[],
): Observation | undefined {
  const place = judgement.place;
  const pin = place && pinName(place);
  if (!place?.part || pin === undefined) return undefined;
  const { ref } = place.part;
  const { verdict } = judgement;
  // A supply pin's level is its rail's, which has a table of its own.
  if (!unpowered && place.tiedTo) return undefined;
  const direction = unpowered ? judgement.side : undefined;
  const isolation = isolationOf(reading, place, ctx.board?.value, before);
  if (isolation) {
    // A level is right for a line of its family, and no clock's.
    const stands = !unpowered && verdict === "within-limits" && isStillClock(reading, place, ctx);
    const told = stands ? { ...judgement, verdict: "suspect" as const } : judgement;
    return isolatedPin(told, isolation, unpowered, direction);
  }
  const told: Told =
    verdict === "within-limits"
      ? { within: unpowered ? [{ ref, pin }] : [] }
      : {
          finding: defined({
            kind: "pin",
            ref,
            pin,
            // A powered reading out of limits may come from anywhere before this pin.
            verdict: unpowered && verdict === "out-of-limits" ? "out-of-limits" : "suspect",
            direction,
            powered: unpowered ? undefined : true,
            how: unpowered && verdict === "out-of-limits" ? howFar(reading, judgement) : undefined,
          }),
        };
  return defined({
    ...told,
    key: `${reading.table.procedure.id} ${ref}.${pin} ${reading.measure}`.toUpperCase(),
    what: testPointName(place),
    table: reading.table,
    span: reading.cell.span,
    refs: [ref.toUpperCase()],
    net: direction !== "high" && place.net && !place.tiedTo ? place.net.name : undefined,
  });
}
