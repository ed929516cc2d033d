// Rails at first power from a supply with a limit: what such a supply says of them is less than what the board's own does.

import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { besides, single } from "../../../judge/measured";
import { railAt } from "../../../judge/rail-name";
import type { Reading } from "../../../log/model";
import type { Observation } from "../observation";

/** Of its limit: a supply that gives so much is at it. */
const AT_LIMIT = 0.95;
/** A rail's input that stands so many times higher would let it come up. */
const FED = 2;

/**
 * More than it should draw, and a voltage that the limit holds down, are a short, whatever makes the rail. A voltage that is
 * low without that was not turned up further, unless what feeds the rail was read there and has enough for it.
 */
export function onLimitedSupply(found: Observation, reading: Reading, ctx: LogContext): Observation {
  const { finding } = found;
  const board = ctx.board?.value;
  const rail = board && railAt(reading.subject, board);
  if (!board || !rail || finding?.kind !== "sign" || finding.state !== "low") return found;
  const typed = reading.value.typed;
  // One fact, by whichever of the two it was noticed.
  const short = (says: string): Observation => ({
    ...found,
    key: `first power ${rail.name} short`.toUpperCase(),
    finding: { ...finding, sign: "rail-short", says },
  });
  if (reading.measure === "load") return short(`${rail.name} draws ${typed}.`);
  const [drawn, limit] = ["load", "limit"].map((measure) => {
    const beside = besides(reading, measure);
    return beside && single(beside.value);
  });
  if (drawn === undefined || limit === undefined || drawn >= AT_LIMIT * limit)
    return short(`${rail.name} comes up to ${typed}.`);
  const own = extentOf(reading.value);
  const isFed = reading.table.readings.some((other) => {
    const input = other.spec.quantity === "voltage" ? railAt(other.subject, board) : undefined;
    const volts = extentOf(other.value);
    return input !== undefined && input.name === rail.input && volts && own && volts.low > FED * own.high;
  });
  if (isFed) return { ...found, finding: { ...finding, sign: "rail-wrong" } };
  const { finding: _, net: _net, ...nothing } = found;
  return nothing;
}
