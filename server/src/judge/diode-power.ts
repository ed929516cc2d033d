// Bridges and regulators on the diode range: what their pins read is mostly what hangs on them, so only what no
// such part and load can explain is judged.

import { boardIndex } from "../knowledge/board-index";
import type { Device } from "../knowledge/types";
import type { LogContext } from "./context";
import { SHORT_BELOW } from "./diode-window";
import type { TestPoint } from "./test-point";
import type { Reference } from "./types";
import { siValue } from "./uncertainty";

/**
 * The window of a bridge's or a regulator's pin with the red lead on ground; undefined for every other part, and
 * for a bridge whose minus terminal is not at ground (it feeds a negative rail: read it the other way round).
 */
export function powerReference(place: TestPoint, ctx: LogContext): Reference | undefined {
  if (!place.device || place.tiedTo === "ground" || place.pin?.direction === "ground") return undefined;
  if (place.device.kind === "regulator") {
    return {
      kind: "physics",
      of: "a regulator's pin that is not shorted",
      low: SHORT_BELOW,
      unit: "V",
      source: "common practice, no source",
    };
  }
  return isBridge(place.device) ? bridgePin(place, ctx) : undefined;
}

/** Whatever its number: four terminals, two of them for the alternating current. */
const isBridge = ({ kind, pins }: Device): boolean => {
  const names = [...pins.values()].map(({ name }) => name);
  return (
    kind === "diode" && names.includes("+") && names.includes("-") && names.some((name) => AC.test(name))
  );
};

const AC = /^(?:AC\d?|~\d?)$/i;

/** From ground, and so from the minus terminal, one diode leads to each AC terminal and two in a row to plus. */
function bridgePin(place: TestPoint, ctx: LogContext): Reference | undefined {
  const { device, pin } = place;
  const forward = device?.limits.get("forward");
  const low = forward && siValue(forward[0], "V");
  const high = forward && siValue(forward[1], "V");
  if (!device || !pin || low === undefined || high === undefined || !minusAtGround(place, ctx))
    return undefined;
  if (AC.test(pin.name)) {
    return { kind: "family", of: "one diode of a bridge", low, high, unit: "V", source: device.source };
  }
  if (pin.name !== "+") return undefined;
  // Whatever hangs on plus can lower it, so only a short accuses the bridge.
  return {
    kind: "physics",
    of: "a bridge's plus terminal that is not shorted",
    low: SHORT_BELOW,
    unit: "V",
    source: "common practice, no source",
  };
}

function minusAtGround({ ref, device }: TestPoint, ctx: LogContext): boolean {
  const minus = [...(device?.pins.values() ?? [])].find(({ name }) => name === "-");
  const index = ctx.board && boardIndex(ctx.board.value);
  const net = minus && index?.net(ref, minus.number);
  return net !== undefined && index?.isGround(net) === true;
}
