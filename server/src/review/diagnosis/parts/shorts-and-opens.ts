// What is a short or an open whatever the window of the part or the pin: next to nothing, or no end to it.

import { partValue } from "../../../compute/part-value";
import type { Judgement } from "../../../judge";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { expectedPartValue } from "../../../judge/passive";
import { boardIndex } from "../../../knowledge/board-index";
import type { Reading } from "../../../log/model";
import { otherEndOf } from "../lines/ends";

/** A capacitor that reads less is shorted, or what lies across it is; common practice, no source. */
export const SHORT_OHMS = 5;
/** A resistor that reads next to nothing, and a small share of its value, has something across it that is shorted. */
const BRIDGED = { ohms: 50, share: 0.05 } as const;
/** Volts across a diode that conducts both ways. */
const SHORT_VOLTS = 0.05;

/** No end to it, or so many times what is marked on the part that a meter at the end of its range says no more. */
export function isOpenBeside({ value, subject, spec }: Reading, { place }: Judgement): boolean {
  // A capacitor that lets no current through is as it should be.
  if (value.kind === "open") return !/^C\d/i.test(place?.part?.ref ?? subject.ref?.text ?? "");
  if (value.kind !== "bound" || !value.op.startsWith(">") || value.quantity.dimension !== spec.quantity)
    return false;
  const nominal = partValue(place?.part, "resistance")?.nominal;
  const least = nominal === undefined ? OPEN_OHMS : OPEN_TIMES * nominal;
  return /^(?:R|F|K|L)/i.test(place?.part?.ref ?? subject.ref?.text ?? "") && value.quantity.value >= least;
}

const OPEN_OHMS = 1e6;
const OPEN_TIMES = 5;

export function isBridged(reading: Reading, { place }: Judgement, ohms: number): boolean {
  const ref = place?.part?.ref ?? reading.subject.ref?.text ?? "";
  const nominal = expectedPartValue(reading, place, "resistance")?.nominal;
  return (
    /^RN?\d/i.test(ref) &&
    reading.subject.pin === undefined &&
    nominal !== undefined &&
    ohms < BRIDGED.ohms &&
    ohms < BRIDGED.share * nominal
  );
}

/** Like pins that read what a junction drops, at least, and so many of them. */
const SOUND_VOLTS = 0.3;
const SISTERS = 3;

/** A resistor to another signal is no excuse for a node that is shorted: then that signal is, and one of the two is wrong. */
export function withoutExcuse(reading: Reading, judgement: Judgement, { board }: LogContext): Judgement {
  const { verdict, side, place } = judgement;
  const extent = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
  if (verdict !== "suspect" || side !== "low" || !place?.net || !board || !extent) return judgement;
  if (extent.high >= SHORT_VOLTS) return judgement;
  const { net } = place;
  // Whatever may excuse it, its sisters in the same table have no need of that.
  const sisters = reading.table.readings.filter(
    (one) =>
      one !== reading &&
      one.subject.pin?.text === reading.subject.pin?.text &&
      one.subject.ref?.text.slice(0, 1) === reading.subject.ref?.text.slice(0, 1) &&
      (extentOf(one.value)?.low ?? 0) > SOUND_VOLTS,
  );
  if (sisters.length >= SISTERS) return { ...judgement, verdict: "out-of-limits" };
  const index = boardIndex(board.value);
  const ends = net.pins.flatMap((pin) =>
    /^RN?\d/i.test(pin.ref) ? [otherEndOf(pin, net, board.value)] : [],
  );
  const isSeries = (end: (typeof ends)[number]): boolean =>
    end !== undefined && !index.isGround(end) && index.railOf(end) === undefined;
  return ends.length > 0 && ends.every(isSeries) ? { ...judgement, verdict: "out-of-limits" } : judgement;
}

/** A diode of its own that drops nothing; what else is on its net is for the pins of the chips there. */
export function isShortedDiode({ value, spec }: Reading, { place }: Judgement): boolean {
  const extent = spec.quantity === "voltage" ? extentOf(value) : undefined;
  return /^D\d/i.test(place?.part?.ref ?? "") && extent !== undefined && extent.high < SHORT_VOLTS;
}

/**
 * Next to nothing between ground and a pin that has no window of its own and nothing that would put it there: whatever
 * stands on it, a short needs no window.
 */
export function isPlainShort(
  { value, spec }: Reading,
  { verdict, place }: Judgement,
  ctx: LogContext,
): boolean {
  const extent = extentOf(value);
  const board = ctx.board?.value;
  if (verdict !== "unjudged" || !place?.net || place.tiedTo || !extent || !board) return false;
  if (place.pin?.direction === "ground" || boardIndex(board).isGround(place.net)) return false;
  const most = spec.quantity === "resistance" ? SHORT_OHMS : spec.quantity === "voltage" ? SHORT_VOLTS : 0;
  return extent.low >= 0 && extent.high < most;
}
