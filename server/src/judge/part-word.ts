// What a technician calls a part, and how it is got off its net to be read alone. The only place for either.

import { type PartKind, partKind } from "../compute/diagnosis/part-kind";
import type { TestPoint } from "./test-point";

const WORDS: Partial<Record<PartKind, string>> = {
  regulator: "regulator",
  transistor: "transistor",
  diode: "diode",
  electrolytic: "capacitor",
  capacitor: "capacitor",
  resistor: "resistor",
  "resistor-network": "resistor network",
  crystal: "crystal",
  battery: "battery",
  connector: "connector",
  switch: "switch",
  lamp: "lamp",
  fuse: "fuse",
};

/** Of a bridge each leg is of two diodes, so it is named as a whole. */
const BRIDGE_LEGS = 4;

/** "chip", "transistor", "bridge": in lower case, without an article. What nobody has said is a chip by its designator, else a part. */
export function partWord({ ref, part, device }: Pick<TestPoint, "ref" | "part" | "device">): string {
  if (/^BR\d/i.test(ref) || (device?.kind === "diode" && device.pins.size === BRIDGE_LEGS)) return "bridge";
  const kind = partKind(part ?? { ref }, device);
  return WORDS[kind] ?? (kind === "other" ? "part" : "chip");
}

/** The step that tells the part from what else is on its net, as a full sentence. */
export function tellWhich(place: Pick<TestPoint, "ref" | "part" | "device">): string {
  const word = partWord(place);
  if (word === "chip") return "Lift the pin or pull the chip to tell which.";
  if (word === "connector") return "Unplug it to tell which.";
  if (word === "part") return "Lift its pin to tell which.";
  return "Lift this leg to tell which.";
}
