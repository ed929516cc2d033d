import { formatValue } from "../../quantity/format-value";
import { computed, positive, type Result, refused } from "../result";

/** Resistance in ohm of resistors side by side; an open one (infinity) counts for nothing. Refuses an empty list. */
export function parallelResistance(resistances: readonly number[]): Result {
  const bad = refused(
    resistances.length === 0 ? "There is no resistor to compute with." : undefined,
    ...resistances.map((value) =>
      value === Number.POSITIVE_INFINITY ? undefined : positive("resistance", value, "ohm"),
    ),
  );
  if (bad) return bad;
  const conductance = resistances.reduce((sum, value) => sum + 1 / value, 0);
  return computed(
    1 / conductance,
    "ohm",
    resistances.map((value) => formatValue(value, "ohm")).join(" ∥ "),
    "conductances of parallel resistors add",
  );
}

/** Capacitance in F of capacitors side by side. Refuses an empty list. */
export function parallelCapacitance(capacitances: readonly number[]): Result {
  const bad = refused(
    capacitances.length === 0 ? "There is no capacitor to compute with." : undefined,
    ...capacitances.map((value) => positive("capacitance", value, "F")),
  );
  return (
    bad ??
    computed(
      capacitances.reduce((sum, value) => sum + value, 0),
      "F",
      capacitances.map((value) => formatValue(value, "F")).join(" + "),
      "capacitances of parallel capacitors add",
    )
  );
}
