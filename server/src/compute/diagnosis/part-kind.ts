import type { Device, Part } from "../../knowledge/types";

export const PART_KINDS = [
  "processor",
  "memory",
  "interface",
  "logic",
  "analog",
  "regulator",
  "transistor",
  "diode",
  "electrolytic",
  "capacitor",
  "resistor",
  "resistor-network",
  "crystal",
  "battery",
  "connector",
  "switch",
  "lamp",
  "fuse",
  "test-point",
  "other",
] as const;
/** What sort of part a suspect is, which says how often such parts fail and how. */
export type PartKind = (typeof PART_KINDS)[number];

const BY_PREFIX: Readonly<Record<string, PartKind>> = {
  R: "resistor",
  RV: "resistor",
  RN: "resistor-network",
  RP: "resistor-network",
  SIP: "resistor-network",
  D: "diode",
  CR: "diode",
  Q: "transistor",
  TR: "transistor",
  BT: "battery",
  Y: "crystal",
  X: "crystal",
  J: "connector",
  P: "connector",
  CN: "connector",
  SW: "switch",
  S: "switch",
  DS: "lamp",
  LED: "lamp",
  LP: "lamp",
  F: "fuse",
  TP: "test-point",
};

/** What a part is, by its device where the library knows it, else by its designator and value. */
export function partKind(part: Pick<Part, "ref" | "value">, device: Device | undefined): PartKind {
  const prefix = /^[A-Z]+/.exec(part.ref.toUpperCase())?.[0] ?? "";
  if (prefix === "C") return isElectrolytic(part.value ?? "") ? "electrolytic" : "capacitor";
  const known = device?.kind;
  if (known && known !== "passive" && known !== "other") return known;
  const byPrefix = BY_PREFIX[prefix];
  if (byPrefix) return byPrefix;
  return prefix === "U" || prefix === "IC" ? "logic" : "other";
}

/** One microfarad or more, which on boards of this age is wet or tantalum: common practice, no source. */
function isElectrolytic(value: string): boolean {
  if (/electrolytic|tantalum/i.test(value)) return true;
  const micro = /(\d+(?:[.,]\d+)?)\s*[uµμ]/i.exec(value);
  if (micro) return Number((micro[1] ?? "0").replace(",", ".")) >= 1;
  return /^\s*\d+(?:[.,]\d+)?\s*F\b/.test(value);
}
