// What feeds a chip: the rail on its supply pin, else the rails that could be, told apart by what was read at that pin.
import { memo } from "../base/memo";
import { boardIndex, pinKey } from "../knowledge/board-index";
import type { Board, Device, DevicePin, Rail } from "../knowledge/types";
import type { LogTable, Reading } from "../log/model";
import { tableParts } from "../log/table-pieces";
import { askedOfAllRows } from "./all-rows";
import { extentOf } from "./compare";
import type { LogContext } from "./context";
import { railReference } from "./rail";
import { isNegativeSupply, supplyWindow } from "./supply-window";
import { pinNumber, resolvePin, type TestPoint } from "./test-point";
import { siValue } from "./uncertainty";

export interface Feed {
  /** Volts, with their sign. */
  readonly volts: number;
  /** "+12V", "pin 14 as read": whose word it is. */
  readonly name: string;
  readonly rail?: Rail;
}

/** `several` are the rails that could feed the pin, where nothing tells which does. */
export type Fed =
  | { readonly kind: "known"; readonly feed: Feed }
  | { readonly kind: "several"; readonly feeds: readonly Feed[] }
  | { readonly kind: "contradiction"; readonly reason: string }
  | { readonly kind: "unknown" };

const UNKNOWN: Fed = { kind: "unknown" };

/** @param reading the reading that is judged, whose table may tell what the supply pin read */
export function fedBy(place: TestPoint, supply: DevicePin, ctx: LogContext, reading?: Reading): Fed {
  const { device, family, ref } = place;
  const board = ctx.board?.value;
  if (!device) return UNKNOWN;
  const reason = board && contradictions(board).get(pinKey(ref, supply.number));
  if (reason !== undefined) return { kind: "contradiction", reason };
  const index = board && boardIndex(board);
  const net = index?.net(ref, supply.number);
  if (net && index?.isGround(net)) return { kind: "known", feed: { volts: 0, name: "ground" } };
  const own = net && index?.railOf(net);
  const rails = board ? feedsOf(board) : [];
  const on = own === undefined ? undefined : rails.find(({ name }) => name === own);
  if (on) return { kind: "known", feed: on };
  const window = supplyWindow(supply, device, family);
  const isBelow = isNegativeSupply(supply, device, family);
  // A regulator's input hangs on whatever rectifier the board gives it.
  const could =
    net || device.kind === "regulator"
      ? []
      : rails.filter(({ volts }) =>
          window ? window.low <= volts && volts <= window.high : isBelow === volts < 0,
        );
  const read = reading && readAt(reading.table, ref, supply, place);
  if (read !== undefined) {
    const told = could.find(({ rail }) => holds(rail, read, ctx));
    if (told) return { kind: "known", feed: told };
    const fits = window ? window.low <= read && read <= window.high : isBelow === read < 0;
    if (could.length === 0 && fits)
      return { kind: "known", feed: { volts: read, name: `pin ${supply.number} as read` } };
  }
  const [only] = could;
  if (only && could.length === 1) return { kind: "known", feed: only };
  return could.length > 0 ? { kind: "several", feeds: could } : UNKNOWN;
}

/** Every rail of the board whose voltage is known. */
export const feedsOf = memo((board: Board): readonly (Feed & { readonly rail: Rail })[] =>
  [...board.rails.values()].flatMap((rail) => {
    const volts = siValue(rail.nominal, "V");
    return volts === undefined ? [] : [{ volts, name: rail.name, rail }];
  }),
);

/** True where a reading is one of the rail. */
export function holds(rail: Rail | undefined, volts: number, ctx: LogContext): boolean {
  const reference = rail && railReference(rail, ctx);
  const { low, high } = reference?.beyond ?? reference ?? {};
  return low !== undefined && high !== undefined && low <= volts && volts <= high;
}

/** Pins that the board's nets put on two rails of different voltage, each with the sentence that says so. */
const contradictions = memo((board: Board): ReadonlyMap<string, string> => {
  const byNet = new Map<string, Rail[]>();
  for (const rail of board.rails.values())
    if (rail.net) byNet.set(rail.net, [...(byNet.get(rail.net) ?? []), rail]);
  const on = new Map<string, Rail[]>();
  for (const net of board.nets.values())
    for (const { ref, pin } of net.pins)
      for (const rail of byNet.get(net.name) ?? []) {
        const key = pinKey(ref, pin);
        on.set(key, [...(on.get(key) ?? []), rail]);
      }
  const told = new Map<string, string>();
  for (const [key, rails] of on) {
    const [one, ...others] = rails;
    const other = others.find(({ nominal }) => siValue(nominal, "V") !== siValue(one?.nominal ?? "", "V"));
    if (one && other)
      told.set(
        key,
        `The board file has ${key} on ${one.name} and on ${other.name}. Keep the one that feeds it.`,
      );
  }
  return told;
});

/** Volts read at a chip's supply pin in the same table; undefined where it was not read, or twice with two results. */
function readAt(table: LogTable, ref: string, supply: DevicePin, { device }: TestPoint): number | undefined {
  const key = JSON.stringify([ref, supply.number, device?.id]);
  return askedOfAllRows(table, key, (whole) => {
    const told = suppliesRead(whole);
    // Asked for with each reading of the chip, which a long table has by the thousand.
    if (!told.has(key)) told.set(key, voltsAt(whole, ref, supply, device));
    return told.get(key);
  });
}

const suppliesRead = memo((_table: LogTable) => new Map<string, number | undefined>());

function voltsAt(
  table: LogTable,
  ref: string,
  supply: DevicePin,
  device: Device | undefined,
): number | undefined {
  const name = ref.toUpperCase();
  const values = (byRefInAll(table).get(name) ?? []).flat().flatMap(({ subject, value }) => {
    const typed = subject.pin?.text ?? "";
    const isIt =
      pinNumber(typed) === supply.number || (device && resolvePin(device, typed)?.number === supply.number);
    const extent = isIt ? extentOf(value) : undefined;
    return extent && extent.low === extent.high && Number.isFinite(extent.low) ? [extent.low] : [];
  });
  const [first] = values;
  return values.every((value) => value === first) ? first : undefined;
}

/** By designator in capitals what each part of a table has of it. */
const byRefInAll = memo((table: LogTable): ReadonlyMap<string, readonly (readonly Reading[])[]> => {
  const all = new Map<string, (readonly Reading[])[]>();
  for (const part of tableParts(table))
    for (const [ref, readings] of byRef(part)) {
      const lists = all.get(ref);
      if (lists) lists.push(readings);
      else all.set(ref, [readings]);
    }
  return all;
});

/** Voltages at pins by designator in capitals, of a table or some of its rows. */
const byRef = memo((table: LogTable): ReadonlyMap<string, readonly Reading[]> => {
  const all = new Map<string, Reading[]>();
  for (const reading of table.readings) {
    const ref = reading.subject.ref?.text.toUpperCase();
    if (ref === undefined || reading.spec.quantity !== "voltage" || !reading.subject.pin) continue;
    const list = all.get(ref);
    if (list) list.push(reading);
    else all.set(ref, [reading]);
  }
  return all;
});
