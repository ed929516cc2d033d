import type { CellPosition } from "../../log/position";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { fromDigits } from "./digits";

const STATES = [
  ["H", "high"],
  ["L", "low"],
  ["pulsing", "changing"],
  ["floating", "neither level"],
  ["-", "not probed"],
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
  inductance: ["mH", "µH", "H"],
  power: ["W", "mW"],
  temperature: ["°C"],
  ratio: ["%"],
};

/** The units a quantity is usually read in on a bench, the first offered first; none for a quantity without any. */
export const unitsOf = (quantity: string): readonly string[] => UNITS[quantity] ?? [];

/** The number that was typed with each of the units behind it; undefined where no number was typed. */
export function withUnits(typed: string, units: readonly string[]): string[] | undefined {
  const number = /^([<>~≈]?\s*[-+\u2212]?(?:\d+[.,]?\d*|[.,]\d+))\s*[a-zA-ZµμΩ%°]*$/.exec(typed)?.[1];
  return number === undefined ? undefined : units.map((unit) => `${number} ${unit}`);
}

const WORDS: Readonly<Record<string, readonly (readonly [string, string])[]>> = {
  voltage: [["OL", "the meter shows an open circuit"]],
  resistance: [
    ["OL", "the meter shows an open circuit"],
    ["short", "next to no resistance"],
  ],
};

/** Units behind a number already typed; words that stand for a reading where there is none yet. */
export function measuredValues(view: LogView, at: CellPosition): readonly Completion[] {
  const item =
    (kind: Completion["kind"]) =>
    ([label, description]: readonly [string, string]): Completion => ({
      label,
      kind,
      description,
      span: at.edit,
      newText: label,
    });
  if (at.role === "state") return STATES.map(item("value"));
  if (at.role === "result") return (at.table.kind.results ?? RESULTS).map(item("value"));
  const quantity = at.spec?.quantity ?? "";
  const own = at.table.columns[at.column]?.unit ?? at.spec?.unit;
  const units = [...unitsOf(quantity)].sort((a, b) => Number(b === own) - Number(a === own));
  const withUnit = withUnits(at.cell.text, units);
  if (withUnit) {
    return [
      ...fromDigits(view, at),
      ...withUnit.map((label): Completion => ({ label, kind: "unit", span: at.edit, newText: label })),
    ];
  }
  // What the kind has words for is read in them, whatever its meter could show as well.
  const words = at.spec?.role === "reading" ? at.table.kind.results : undefined;
  return [...(words ?? WORDS[quantity] ?? []), ["-", "not measured"] as const].map(item("value"));
}
