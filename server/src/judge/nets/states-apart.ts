// Logic states of one net, read in one table: one node stands at one level.
import type { Net } from "../../knowledge/types";
import type { LogTable, Reading } from "../../log/model";
import type { LogContext } from "../context";
import { testPointOf } from "../test-point";

export interface StateAt {
  readonly ref: string;
  readonly pin: string;
  readonly reading: Reading;
}

export interface StatesApart {
  readonly net: Net;
  readonly low: StateAt;
  readonly high: StateAt;
}

/**
 * Nets of which one pin was read steadily low and another steadily high. Grounds and rails are judged by what they are;
 * with something lifted off a net it is no longer one node.
 */
export function statesApart(table: LogTable, ctx: LogContext): StatesApart[] {
  if (table.kind.alongNets !== "states") return [];
  const nets = new Map<string, { net: Net; low?: StateAt; high?: StateAt }>();
  for (const reading of table.readings) {
    const place = testPointOf(reading.subject, ctx);
    if (reading.value.kind !== "state" || !place?.net || !place.pin || place.tiedTo || reading.apart)
      continue;
    const { state } = reading.value;
    if (state !== "low" && state !== "high") continue;
    const seen = nets.get(place.net.name) ?? { net: place.net };
    nets.set(place.net.name, seen);
    seen[state] ??= { ref: place.ref, pin: place.pin.number, reading };
  }
  return [...nets.values()].flatMap(({ net, low, high }) =>
    low && high && (low.ref !== high.ref || low.pin !== high.pin) ? [{ net, low, high }] : [],
  );
}
