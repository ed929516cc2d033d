// The observation model: how likely a faulty part is to make a pin read wrong. It is deliberately plain, and
// every figure in it is common practice, no source: they order candidates, they do not measure anything.
import type { PartModel } from "./board-model";
import type { PartKind } from "./part-kind";
import type { DeviationSide } from "./types";

/** Pins a faulty part is expected to show wrong on an unpowered check. Common practice, no source. */
const EXPECTED_WRONG_PINS = 2.5;
/** Share of faults that no unpowered reading shows, whatever is read. Common practice, no source. */
export const HIDDEN_SHARE = 0.3;
/** Share of a chip's faults that its gates would show, all of them being read. Common practice, no source. */
export const GATE_SHARE = 0.6;
/** A reading out of limits on a pin where nothing is wrong. Common practice, no source. */
export const FALSE_ALARM = 0.003;
/** What is left for a part to be the cause where the physics speaks against it. */
const AGAINST_PHYSICS = 0.03;

/** Share of a part's wrong pins that pull their net down; the rest read high or open. Common practice, no source. */
const LOW_SHARE: Readonly<Partial<Record<PartKind, number>>> = {
  electrolytic: 0.9,
  capacitor: 0.8,
  diode: 0.6,
  transistor: 0.5,
  resistor: 0.1,
  "resistor-network": 0.1,
  connector: 0.1,
  switch: 0.3,
  "test-point": 0.1,
  crystal: 0.1,
  // Relays, transformers, fuses: what has no junction hardly ever conducts to ground.
  fuse: 0.05,
  other: 0.1,
};
const USUAL_LOW_SHARE = 0.4;

/** Share of the wrong pins of such a part that pull their net down, 0 to 1. */
export const lowShare = (kind: PartKind): number => LOW_SHARE[kind] ?? USUAL_LOW_SHARE;

/** Probability that one given signal pin reads wrong, the part being faulty in a way that can be seen. */
export function wrongPinShare({ signalPins }: PartModel): number {
  return Math.min(0.6, Math.max(0.05, EXPECTED_WRONG_PINS / Math.max(1, signalPins.length)));
}

/**
 * Probability that a fault of `part` makes a pin of a net read wrong in one direction. `own`: the pin is the
 * part's own. A part that pulls down does so on every pin of the net; one that reads high or open shows it only on
 * its own pin, because whatever else is on the net conducts for the others.
 */
export function pinEffect(part: PartModel, own: boolean, direction: DeviationSide | undefined): number {
  const share = wrongPinShare(part);
  const low = share * lowShare(part.kind);
  const high = own ? share - low : share * AGAINST_PHYSICS;
  if (direction === "low") return low;
  if (direction === "high") return high;
  return low + high;
}

/** What a low net that read within limits at another of its pins still has of reading low: a slip before. */
export const LOW_AFTER_WITHIN = 0.02;

/**
 * Probability that a fault of a net's copper shows on one pin of it: a short to a neighbour on all, an open joint on
 * its own pin only, and a broken track on none, as each end still has a clamp. Common practice, no source.
 */
export const trackEffect = (pins: number, direction: DeviationSide | undefined): number => {
  const [low, high] = [0.15, 0.3 / Math.max(1, pins)];
  return direction === "low" ? low : direction === "high" ? high : low + high;
};
