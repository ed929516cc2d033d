// Voltages around a timer that stands still: what its two thresholds make of its output, and which part of its time keeps the node
// where it is. One that runs shows a meter something in between, and says nothing here.

import { boardIndex } from "../../../knowledge/board-index";
import type { Device, Net } from "../../../knowledge/types";
import { otherEndOf } from "../lines/ends";
import type { Observation } from "../observation";
import { stageSeen, type Voltages, voltsAt } from "./around";

/** Thresholds as shares of the supply by the data sheets of the 555; the rest in volts, common practice, no source. */
const TIMER = {
  threshold: 2 / 3,
  trigger: 1 / 3,
  /** From a threshold before it is passed for certain, as a share of the supply. */
  clear: 0.06,
  reset: 0.7,
  high: 2,
  low: 0.8,
  /** What an open transistor leaves at the resistor that pulls it, and what one that pulls leaves. */
  full: 0.4,
  pulled: 0.4,
} as const;

/** At most one observation a section. */
export function timerStage(ref: string, device: Device, around: Voltages): Observation[] {
  const { board, volts } = around;
  const index = boardIndex(board);
  const pins = [...device.pins.values()];
  const supply = pins.find(({ direction }) => direction === "supply")?.number;
  const full = voltsAt(supply === undefined ? undefined : index.net(ref, supply), around);
  const units = pins.filter(({ name }) => /^\d?THR/i.test(name)).map(({ unit }) => unit);
  if (full === undefined) return [];
  return units.flatMap((unit): Observation[] => {
    const netOf = (name: RegExp): Net | undefined => {
      const pin = pins.find((one) => one.unit === unit && name.test(one.name));
      return pin && index.net(ref, pin.number);
    };
    const read = (net: Net | undefined): number | undefined =>
      net && (volts.has(net.name) || index.railOf(net) !== undefined || index.isGround(net))
        ? voltsAt(net, around)
        : undefined;
    const [trig, thr, out, dis] = [/^\d?TRIG/i, /^\d?THR/i, /^\d?OUT/i, /^\d?DIS/i].map(netOf);
    const [vt, vh, vo, vd] = [trig, thr, out, dis].map(read);
    const vr = read(netOf(/^\d?RES/i));
    const at = volts.get(out?.name ?? "") ?? volts.get(trig?.name ?? "") ?? volts.get(thr?.name ?? "");
    if (!at || (vr !== undefined && vr < TIMER.reset)) return [];
    const isSet = vt !== undefined && vt < (TIMER.trigger - TIMER.clear) * full;
    const isOver =
      vh !== undefined &&
      vh > (TIMER.threshold + TIMER.clear) * full &&
      vt !== undefined &&
      vt > (TIMER.trigger + TIMER.clear) * full;
    const told = (refs: readonly string[], says: string): Observation[] =>
      refs[0] === undefined ? [] : [stageSeen(at, refs[0], refs, says)];
    if (isSet && vo !== undefined && vo < TIMER.low)
      return told([ref], `${ref} is triggered, and its output stands low.`);
    if (isOver && vo !== undefined && vo > TIMER.high)
      return told([ref], `${ref} is past its threshold, and its output stands high.`);
    const isLow = vo !== undefined && vo < TIMER.low;
    if (isOver && isLow && vd !== undefined && vd > TIMER.high)
      return told([ref], `${ref} is past its threshold, and its discharge pin does not pull.`);
    // Only where the node that is set by time is both.
    if (!trig || trig !== thr || !dis || vd === undefined) return [];
    const between = around.board.nets
      .get(dis.name)
      ?.pins.flatMap((pin) =>
        /^R\d/i.test(pin.ref) && otherEndOf(pin, dis, board) === trig ? [pin.ref] : [],
      );
    const up = dis.pins.flatMap((pin) => {
      const end = /^R\d/i.test(pin.ref) ? otherEndOf(pin, dis, board) : undefined;
      return end && index.railOf(end) !== undefined ? [pin.ref] : [];
    });
    const stores = trig.pins.flatMap(({ ref: by }) => (/^C\d/i.test(by) ? [by] : []));
    if (isOver && isLow && vd < TIMER.pulled)
      return told(between ?? [], `${ref} pulls its discharge pin, and the node behind it stays up.`);
    if (!isSet || (vo !== undefined && vo < TIMER.high)) return [];
    if (vd > full - TIMER.full)
      return told(between ?? [], `The discharge pin of ${ref} is up, and the node that it charges is not.`);
    if (vd < TIMER.pulled) return told(up, `${ref} has let go of its discharge pin, and nothing lifts that.`);
    return told(stores, `${ref} charges the node that sets its time, and that does not rise.`);
  });
}
