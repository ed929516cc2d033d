// Headers and networks, whose pins stand in line: how many there are, and what each reads by what is on its net.

import type { PinWindow } from "../../compute/together/types";
import { boardIndex } from "../../knowledge/board-index";
import type { Board, Net, Part } from "../../knowledge/types";
import type { LogContext } from "../context";
import { GROUND_MAX } from "../diode-window";
import { pinRole } from "../pin-role";
import { pinReference } from "../pin-window";
import { partTestPoint, pinTestPoint, type TestPoint } from "../test-point";

const TWO_ROWS = /\bheader\s+(\d+)\s*x\s*(\d+)\b/i;
const ONE_ROW = /\b(?:SIP|SIL)-?\s?(\d+)\b|\b(\d+)-(?:way|pin)\b|\bheader\s+(\d+)\b/i;

/** How many pins a header or a single in-line network has, by its package or its value; undefined for any other part. */
export function pinsInLine(part: Part | undefined): number | undefined {
  if (!part || part.device !== undefined) return undefined;
  const words = `${part.package ?? ""}; ${part.value ?? ""}`;
  const [, rows, each] = TWO_ROWS.exec(words) ?? [];
  if (rows !== undefined && each !== undefined) return Number(rows) * Number(each);
  if (/\bswitch\b/i.test(words)) return undefined;
  const [, inPackage, ways, header] = ONE_ROW.exec(words) ?? [];
  const pins = inPackage ?? ways ?? header;
  return pins === undefined ? undefined : Number(pins);
}

/** Volts across the diode that a power transistor has from its emitter to its collector. Common practice, no source. */
const BACKWARD = { low: 0.3, high: 0.8 } as const;

/** From ground a Darlington at ground conducts backwards through its own diode, and one at a supply not at all. */
function atCollector({ device, pin, ref }: TestPoint, board: Board): PinWindow | undefined {
  const type = device?.families.find((family) => family.endsWith("-Darlington"));
  const emitter = [...(device?.pins.values() ?? [])].find(({ name }) => /^E(?:mitter)?$/i.test(name));
  if (!type || !emitter || !/^C(?:ollector)?$/i.test(pin?.name ?? "")) return undefined;
  const { isGround, railOf, net } = boardIndex(board);
  const on = net(ref, emitter.number);
  if (!on) return undefined;
  if (type.startsWith("NPN")) return isGround(on) ? { ...BACKWARD, is: "other" } : undefined;
  return railOf(on) === undefined ? undefined : { low: BLOCKS, high: Number.POSITIVE_INFINITY, is: "other" };
}
/** Two junctions in a row; volts. */
const BLOCKS = 0.9;

/** What a pin of such a part reads: ground, or as the pins of chips on its net do; undefined where nobody says. */
export function windowInLine(at: TestPoint, pin: number, ctx: LogContext): PinWindow | undefined {
  const board = ctx.board?.value;
  const place = pinTestPoint(at, String(pin), board);
  if (!board || !place.net) return undefined;
  if (place.tiedTo === "ground") return { low: 0, high: GROUND_MAX, is: "ground" };
  const windows = windowsOnNet(place.net, at.ref, ctx);
  if (windows.length === 0) return undefined;
  return {
    low: Math.min(...windows.map(({ low }) => low)),
    high: Math.max(...windows.map(({ high }) => high)),
    is: place.tiedTo ? "supply" : "other",
  };
}

/** A chip without a usual drop there that has its ground on this one: a junction leads to it from any of its pins; volts. */
const ANY_JUNCTION: PinWindow = { low: 0.3, high: 1.2, is: "other" };

/** What the pins of other chips on the net read. */
export const windowsOnNet = (net: Net, ref: string, ctx: LogContext): readonly PinWindow[] =>
  net.pins.flatMap((other): PinWindow[] => {
    const there = pinTestPoint(
      partTestPoint(other.ref, ctx.board?.value, ctx.library),
      other.pin,
      ctx.board?.value,
    );
    if (there.ref === ref || !there.device || pinRole(there) === "not-connected") return [];
    const driver = ctx.board && atCollector(there, ctx.board.value);
    if (driver) return [driver];
    const { low, high } = pinReference(there, ctx) ?? {};
    if (low !== undefined && high !== undefined) return [{ low, high, is: "other" }];
    const isGrounded = [...there.device.pins.values()].some(({ direction }) => direction === "ground");
    return isGrounded && there.device.kind !== "regulator" ? [ANY_JUNCTION] : [];
  });
