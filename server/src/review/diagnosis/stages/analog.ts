// Voltages around comparators and optocouplers that cannot go together while the part is sound.

import { boardIndex } from "../../../knowledge/board-index";
import type { Device } from "../../../knowledge/types";
import type { Observation } from "../observation";
import { STAGE, stageSeen, type Voltages, voltsAt } from "./around";

/** Volts; common practice, no source. */
const ANALOG = {
  /** Between the inputs of a comparator: more than any offset. */
  told: 0.05,
  /** An output that pulls stands below the first, one that lets go above the second. */
  pulls: 0.8,
  free: 1.5,
  /** Across a light-emitting diode: conducting, and more than any drops. */
  lit: 0.9,
  dark: 0.7,
  open: 2.2,
} as const;

/** Pins of one section of a comparator with an output that only pulls. */
export interface Comparator {
  readonly plus: string;
  readonly minus: string;
  readonly out: string;
}

export function comparatorsOf({ kind, pins }: Device): Comparator[] {
  if (kind !== "analog") return [];
  const all = [...pins.values()];
  return all.flatMap(({ number, name, direction, unit }) => {
    if (direction !== "open-collector" || !/OUT$/i.test(name)) return [];
    const at = (sign: string) =>
      all.find((pin) => pin.unit === unit && new RegExp(`IN\\${sign}$`, "i").test(pin.name))?.number;
    const [plus, minus] = [at("+"), at("-")];
    return plus === undefined || minus === undefined ? [] : [{ plus, minus, out: number }];
  });
}

/** What its inputs tell the output to do; undefined where they were not read, or stand at one voltage. */
export function toldTo(
  ref: string,
  { plus, minus }: Comparator,
  around: Voltages,
): "pull" | "let go" | undefined {
  const index = boardIndex(around.board);
  const [vp, vn] = [plus, minus].map((pin) => {
    const net = index.net(ref, pin);
    return net && (around.volts.has(net.name) || index.isGround(net)) ? voltsAt(net, around) : undefined;
  });
  if (vp === undefined || vn === undefined || Math.abs(vp - vn) < ANALOG.told) return undefined;
  return vp < vn ? "pull" : "let go";
}

/** One that is told to pull and does not; one that is told to let go may be held by others. */
export function comparatorStage(ref: string, device: Device, around: Voltages): Observation[] {
  const index = boardIndex(around.board);
  return comparatorsOf(device).flatMap((section): Observation[] => {
    const net = index.net(ref, section.out);
    const read = net && around.volts.get(net.name);
    if (!read || read.volts < ANALOG.free || toldTo(ref, section, around) !== "pull") return [];
    const what = `${ref} has its inputs so that pin ${section.out} should be pulled low, and it reads ${read.reading.value.typed}.`;
    return [stageSeen(read, ref, [ref], what)];
  });
}

/** Pins of one section of an optocoupler with a transistor, or an output that only pulls. */
export interface Coupler {
  readonly anode: string;
  readonly cathode: string;
  readonly out: string;
  readonly emitter?: string;
}

export function couplersOf({ families, pins }: Device): Coupler[] {
  if (!families.includes("optocoupler")) return [];
  const all = [...pins.values()];
  return all.flatMap(({ number, name }) => {
    const unit = /^(\d?)(?:C|VO|OUT)$/i.exec(name)?.[1];
    if (unit === undefined) return [];
    const at = (own: string) => all.find((pin) => pin.name.toUpperCase() === `${unit}${own}`)?.number;
    const [anode, cathode, emitter] = [at("A"), at("K"), at("E") ?? at("GND")];
    if (anode === undefined || cathode === undefined) return [];
    return [{ anode, cathode, out: number, ...(emitter === undefined ? {} : { emitter }) }];
  });
}

/** What lies across its diode, where both ends are known; undefined otherwise. */
export function acrossDiode(ref: string, { anode, cathode }: Coupler, around: Voltages): number | undefined {
  const index = boardIndex(around.board);
  const [va, vk] = [anode, cathode].map((pin) => {
    const net = index.net(ref, pin);
    return net && (around.volts.has(net.name) || index.isGround(net)) ? voltsAt(net, around, ref) : undefined;
  });
  return va === undefined ? undefined : va - (vk ?? 0);
}

/** True where the diode of the section was seen to be dark. */
export const isDark = (ref: string, section: Coupler, around: Voltages): boolean => {
  const across = acrossDiode(ref, section, around);
  return across !== undefined && across < ANALOG.dark;
};

/** A diode that takes more than it could drop, and one that is lit while its other side does not pull. */
export function couplerStage(ref: string, device: Device, around: Voltages): Observation[] {
  const index = boardIndex(around.board);
  return couplersOf(device).flatMap((section): Observation[] => {
    const net = index.net(ref, section.out);
    const anode = index.net(ref, section.anode);
    const at = anode && around.volts.get(anode.name);
    const across = acrossDiode(ref, section, around);
    if (!at || across === undefined) return [];
    if (across > ANALOG.open)
      return [
        stageSeen(at, ref, [ref], `${ref} has ${across.toFixed(1)} V across its diode, more than one drops.`),
      ];
    const out = net && around.volts.get(net.name);
    const emitter = section.emitter === undefined ? undefined : index.net(ref, section.emitter);
    const ve = emitter ? (voltsAt(emitter, around) ?? 0) : 0;
    if (across >= ANALOG.lit && out && out.volts - ve > ANALOG.free)
      return [stageSeen(out, ref, [ref], `The diode of ${ref} is lit, and its other side does not pull.`)];
    // What should light it is there, and does not come through.
    const drive = anode.pins.flatMap(({ ref: by }) => {
      if (!/^R\d/i.test(by)) return [];
      const end = [...around.board.nets.values()].find(
        (other) => other !== anode && other.pins.some((pin) => pin.ref === by),
      );
      const volts = end && around.volts.has(end.name) ? voltsAt(end, around) : undefined;
      return volts !== undefined && volts - at.volts > STAGE.drive ? [by] : [];
    })[0];
    if (drive !== undefined && across < ANALOG.dark / 2)
      return [
        stageSeen(at, drive, [drive, ref], `What drives ${ref} through ${drive} does not reach its diode.`),
      ];
    return [];
  });
}
