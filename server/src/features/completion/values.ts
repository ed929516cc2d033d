import type { CellPosition } from "../../log/position";
import type { Completion } from "../types";
import type { LogView } from "../view";

const STATES = [
  ["H", "high"],
  ["L", "low"],
  ["pulsing", "changing"],
  ["floating", "neither level"],
] as const;

const RESULTS = [
  ["ok", "works as it should"],
  ["dead", "no response"],
  ["stuck", "always on"],
  ["intermittent", "comes and goes"],
  ["-", "not tried"],
] as const;

/** Units offered behind a number, by what the column measures; the column's own unit comes first. */
const UNITS: Readonly<Record<string, readonly string[]>> = {
  voltage: ["V", "mV"],
  resistance: ["Ω", "kΩ", "MΩ"],
  capacitance: ["µF", "nF", "pF", "mF", "F"],
  frequency: ["Hz", "kHz", "MHz"],
  time: ["ms", "µs", "s"],
  current: ["mA", "A", "µA"],
};

const WORDS: Readonly<Record<string, readonly (readonly [string, string])[]>> = {
  voltage: [["OL", "the meter shows an open circuit"]],
  resistance: [
    ["OL", "the meter shows an open circuit"],
    ["short", "next to no resistance"],
  ],
};

/** Units behind a number already typed; words that stand for a reading where there is none yet. */
export function measuredValues(_view: LogView, at: CellPosition): readonly Completion[] {
  const item =
    (kind: Completion["kind"]) =>
    ([label, description]: readonly [string, string]): Completion => ({
      label,
      kind,
      description,
      span: at.span,
      newText: label,
    });
  if (at.role === "state") return STATES.map(item("value"));
  if (at.role === "result") return RESULTS.map(item("value"));
  const quantity = at.spec?.quantity ?? "";
  const number = /^([<>~≈]?\s*[-+\u2212]?(?:\d+[.,]?\d*|[.,]\d+))\s*[a-zA-ZµμΩ]*$/.exec(at.cell.text)?.[1];
  if (number !== undefined) {
    const own = at.table.columns[at.column]?.unit ?? at.spec?.unit;
    const units = [...(UNITS[quantity] ?? [])].sort((a, b) => Number(b === own) - Number(a === own));
    return units.map((unit) => ({
      label: `${number} ${unit}`,
      kind: "unit",
      span: at.span,
      newText: `${number} ${unit}`,
    }));
  }
  return [...(WORDS[quantity] ?? []), ["-", "not measured"] as const].map(item("value"));
}
