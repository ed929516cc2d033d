// What each pair of leads of a transistor shows on the diode range. A pair is named red lead first, as the columns
// of the table are: "be" is red on base, black on emitter.

import { defined } from "../../base/defined";

/** Every way in which two of a transistor's three leads can be probed. */
export const JUNCTION_PAIRS = ["be", "bc", "ce", "eb", "cb", "ec"] as const;
/** Two leads of a transistor, the one on the red lead first. */
export type JunctionPair = (typeof JUNCTION_PAIRS)[number];

/** Ids of the built-in families that have junctions to read. */
export const JUNCTION_TYPES = ["NPN", "PNP", "NPN-Darlington", "PNP-Darlington", "N-MOSFET", "SCR"] as const;
/** Kinds of parts with three leads whose pairs are known; the names are family ids of the library. */
export type JunctionType = (typeof JUNCTION_TYPES)[number];

/** True for a family id that has a table of pairs. */
export const isJunctionType = (family: string): family is JunctionType =>
  JUNCTION_TYPES.some((type) => type === family);

/** Drop windows of a device, volts, by the names its file gives them. */
export type JunctionWindow = "base-emitter" | "base-collector" | "body-diode" | "gate-cathode";

/** `drop`: a junction conducts; `open`: overload; `either`: a resistor or diode inside decides, not judged. */
export type PairExpectation =
  | { readonly kind: "drop"; readonly window: JunctionWindow; readonly note?: string }
  | { readonly kind: "open"; readonly note?: string }
  | { readonly kind: "either"; readonly note: string };

const drop = (window: JunctionWindow, note?: string): PairExpectation =>
  defined({
    kind: "drop",
    window,
    note,
  });
const OPEN: PairExpectation = { kind: "open" };
const either = (note: string): PairExpectation => ({ kind: "either", note });

const BUILT_IN_RESISTORS = either("many Darlingtons have resistors from base to emitter inside");
const BUILT_IN_DIODE = either("many Darlingtons have a diode from emitter to collector inside");
const CHARGED_GATE: PairExpectation = {
  kind: "open",
  note: "The gate may still hold charge from an earlier reading: short gate to source and read again.",
};

/**
 * The six pairs by type. For a MOSFET base, collector and emitter stand for gate, drain and source, for a thyristor
 * for gate, anode and cathode. Common practice, no source.
 */
export const EXPECTED: Readonly<Record<JunctionType, Readonly<Record<JunctionPair, PairExpectation>>>> = {
  NPN: { be: drop("base-emitter"), bc: drop("base-collector"), ce: OPEN, eb: OPEN, cb: OPEN, ec: OPEN },
  PNP: { be: OPEN, bc: OPEN, ce: OPEN, eb: drop("base-emitter"), cb: drop("base-collector"), ec: OPEN },
  "NPN-Darlington": {
    be: drop("base-emitter"),
    bc: drop("base-collector"),
    ce: OPEN,
    eb: BUILT_IN_RESISTORS,
    cb: OPEN,
    ec: BUILT_IN_DIODE,
  },
  "PNP-Darlington": {
    be: BUILT_IN_RESISTORS,
    bc: OPEN,
    ce: BUILT_IN_DIODE,
    eb: drop("base-emitter"),
    cb: drop("base-collector"),
    ec: OPEN,
  },
  "N-MOSFET": {
    be: OPEN,
    bc: OPEN,
    ce: CHARGED_GATE,
    eb: OPEN,
    cb: OPEN,
    ec: drop("body-diode", "The gate may still hold charge: short gate to source and read again."),
  },
  SCR: {
    be: drop("gate-cathode"),
    bc: OPEN,
    ce: OPEN,
    eb: either("many thyristors have a resistor from gate to cathode inside"),
    cb: OPEN,
    ec: OPEN,
  },
};

/** Windows where the device's file gives none, volts: common practice, no source. */
export const USUAL_WINDOWS: Readonly<Record<JunctionWindow, readonly [low: number, high: number]>> = {
  "base-emitter": [0.5, 0.8],
  "base-collector": [0.5, 0.8],
  "body-diode": [0.35, 0.8],
  "gate-cathode": [0.4, 0.9],
};

/** Two junctions, or one and a little where the built-in resistors carry the meter's current. As above. */
export const DARLINGTON_BASE_EMITTER: readonly [low: number, high: number] = [0.6, 1.4];

/** Names of the leads for messages: { b: "gate", c: "drain", e: "source" }. */
export function leadNames(type: JunctionType): Readonly<Record<"b" | "c" | "e", string>> {
  if (type === "N-MOSFET") return { b: "gate", c: "drain", e: "source" };
  if (type === "SCR") return { b: "gate", c: "anode", e: "cathode" };
  return { b: "base", c: "collector", e: "emitter" };
}
