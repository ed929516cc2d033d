import { unitsOf, withUnits } from "../../shared/cell-values";
import { scalarTextAt } from "../place";
import type { Value, ValueQuery } from "./provider";

/** The number typed with each unit it may have, the likeliest first; nothing while there is no number. */
export function quantities(wanted: readonly string[], query: ValueQuery): readonly Value[] {
  const kinds = wanted.includes("any") ? kindsHere(query) : wanted;
  const units = kinds.flatMap(unitsOf);
  // Ripple is millivolts, a supply is volts.
  const usual = query.path.at(-1) === "ripple" ? "mV" : undefined;
  const ordered = [...units].sort((a, b) => Number(b === usual) - Number(a === usual));
  return (withUnits(query.typed, ordered) ?? []).map((label) => ({ label, kind: "unit" }));
}

const BY_FUNCTION: Readonly<Record<string, string>> = {
  "dc-volts": "voltage",
  "ac-volts": "voltage",
  diode: "voltage",
  ohms: "resistance",
  esr: "resistance",
  capacitance: "capacitance",
  frequency: "frequency",
  "dc-amps": "current",
};

const ALL = ["voltage", "resistance", "current", "capacitance", "frequency", "time"];

/** What is measured there: by the meter's function, or by the procedure an expected reading belongs to. */
function kindsHere({ file, path }: ValueQuery): readonly string[] {
  const own = path.slice(0, -1);
  const byFunction = BY_FUNCTION[scalarTextAt(file, [...own, "function"]) ?? ""];
  if (byFunction !== undefined) return [byFunction];
  const procedure = file.knowledge.library.procedure(scalarTextAt(file, [...own, "procedure"]) ?? "");
  const measured = procedure?.columns.flatMap((column) => column.quantity ?? []) ?? [];
  return measured.length > 0 ? [...new Set(measured)] : ALL;
}
