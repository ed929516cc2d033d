// Voltages around what a circuit measures itself by: a reference diode off its voltage.

import { partTestPoint } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Device, Net } from "../../../knowledge/types";
import type { Observation } from "../observation";
import { netsWith, STAGE, stageSeen, type Voltages, voltsAt } from "./around";

/** Volts that a reference diode is made for, by its device or by what is written on it. */
function zenerVolts(ref: string, device: Device, board: Board): number | undefined {
  const part = boardIndex(board).part(ref);
  const words = `${device.title} ${part?.value ?? ""} ${part?.note ?? ""}`;
  if (!/zener|reference/i.test(words)) return undefined;
  const found = /(\d{1,3}(?:\.\d)?)\s*V\b/.exec(words)?.[1];
  return found === undefined ? undefined : Number(found);
}

/** A reference that stands off its voltage, though what feeds it has more than enough, or though it should hold it down. */
export function zenerStage(ref: string, device: Device, around: Voltages): Observation[] | undefined {
  const { board, volts } = around;
  const nominal = zenerVolts(ref, device, board);
  const pin = (name: RegExp): Net | undefined => {
    const own = [...device.pins.values()].find((one) => name.test(one.name));
    return own && boardIndex(board).net(ref, own.number);
  };
  const [anode, cathode] = [pin(/^A$|anode/i), pin(/^[KC]$|cathode/i)];
  const [va, vk] = [voltsAt(anode, around, ref), voltsAt(cathode, around, ref)];
  const at = volts.get(cathode?.name ?? "");
  if (nominal === undefined || !cathode || !at || va === undefined || vk === undefined) return undefined;
  const over = vk - va;
  if (over > nominal * STAGE.zener[1])
    return [
      stageSeen(at, ref, [ref], `${ref} is made for ${nominal} V and has ${over.toFixed(1)} V across it.`),
    ];
  const feeds = cathode.pins.flatMap((one) => {
    const other = /^R\d/i.test(one.ref) ? netsWith(one.ref, board).find((net) => net !== cathode) : undefined;
    const fed = other && voltsAt(other, around);
    return fed === undefined ? [] : [{ by: one.ref, fed }];
  });
  const [feed] = feeds;
  if (!feed || over > nominal * STAGE.zener[0]) return undefined;
  // Of a regulator that is at work what feeds the reference is low for its sake: then it is what it carries that tells.
  const isCarrying =
    over > STAGE.across && vk - va < feed.fed - va - STAGE.across && takesAll(cathode, around);
  if (feed.fed - va < nominal * STAGE.feeds && !isCarrying) return undefined;
  const loads = cathode.pins.flatMap((one) => (/^C\d/i.test(one.ref) ? one.ref : []));
  const what = `${ref} is made for ${nominal} V and has ${over.toFixed(1)} V across it, fed from ${feed.fed} V through ${feed.by}.`;
  const seen = stageSeen(at, ref, [ref, ...new Set([...(isCarrying ? [] : [feed.by]), ...loads])], what);
  return isCarrying && seen.finding?.kind === "sign"
    ? [{ ...seen, finding: { ...seen.finding, sign: "reference-off" } }]
    : [seen];
}

/** What comes into the node can only leave it through the diode: all else there feeds it, or passes no direct current. */
function takesAll(node: Net, around: Voltages): boolean {
  const { board, ctx } = around;
  const own = voltsAt(node, around) ?? 0;
  return node.pins.every(({ ref, pin }) => {
    if (/^(?:D|C|TP)\d/i.test(ref)) return true;
    if (/^R\d/i.test(ref)) {
      const end = netsWith(ref, board).find((net) => net !== node);
      const there = end && voltsAt(end, around);
      return there !== undefined && there >= own;
    }
    const { device } = partTestPoint(ref, board, ctx.library);
    const isNpn = device?.families.some((family) => /^npn/i.test(family)) === true;
    return isNpn && /^E$/i.test(device?.pins.get(pin)?.name ?? "");
  });
}
