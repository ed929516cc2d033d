// How long a capacitor keeps memory or a rail alive, and what charging it takes from the supply.
import { formatValue } from "../../quantity/format-value";
import { computed, finite, notNegative, positive, type Result, refused } from "../result";
import { rcTime } from "./rc";

const CHARGE = "charge = capacitance × voltage = current × time";
const OHM = "Ohm's law";

/** A memory capacitor in place of a leaking battery, with the resistor that keeps its inrush off the regulator. */
export const MEMORY_CAPACITOR = {
  capacitance: 1,
  voltage: 5,
  seriesResistance: 62,
  source: "common practice, no source",
} as const;

export interface HoldUpInput {
  /** Farads, above zero. */
  readonly capacitance: number;
  /** Voltage at the start and the lowest that still serves, in V; the second is the smaller. */
  readonly from: number;
  readonly to: number;
}

const span = ({ capacitance, from, to }: HoldUpInput): readonly (string | undefined)[] => [
  positive("capacitance", capacitance, "F"),
  finite("starting voltage", from, "V"),
  notNegative("lowest voltage", to, "V"),
  to > from
    ? `The lowest voltage (${formatValue(to, "V")}) is above the starting voltage (${formatValue(from, "V")}).`
    : undefined,
];

/** Time in s at a constant `current` in A: C × (from - to) / I. Refuses a current of zero: it would last for ever. */
export function holdUpAtCurrent(input: HoldUpInput & { readonly current: number }): Result {
  const { capacitance, from, to, current } = input;
  return (
    refused(...span(input), positive("current", current, "A")) ??
    computed(
      (capacitance * (from - to)) / current,
      "s",
      `${formatValue(capacitance, "F")} × (${formatValue(from, "V")} - ${formatValue(to, "V")}) / ${formatValue(current, "A")}`,
      CHARGE,
    )
  );
}

/** Time in s into a `resistance` in ohm: RC ln(from / to). Refuses an end at zero, which it never reaches. */
export function holdUpIntoResistance(input: HoldUpInput & { readonly resistance: number }): Result {
  const { capacitance, from, to, resistance } = input;
  const bad = refused(...span(input), positive("lowest voltage", to, "V"));
  return bad ?? rcTime({ resistance, capacitance, from, to: 0, threshold: to });
}

/** Constant current in A that would empty the capacitor so in the measured `time` in s: what the memory draws. */
export function impliedCurrent(input: HoldUpInput & { readonly time: number }): Result {
  const { capacitance, from, to, time } = input;
  return (
    refused(...span(input), positive("time", time, "s")) ??
    computed(
      (capacitance * (from - to)) / time,
      "A",
      `${formatValue(capacitance, "F")} × (${formatValue(from, "V")} - ${formatValue(to, "V")}) / ${formatValue(time, "s")}`,
      CHARGE,
    )
  );
}

export interface ChargeInput {
  /** The rail in V and the resistor between it and the capacitor in ohm. */
  readonly supply: number;
  readonly resistance: number;
}

/** Charging current in A through the series resistor with the capacitor at `voltage` (0 V: the inrush). */
export function chargeCurrent(input: ChargeInput & { readonly voltage?: number }): Result {
  const { supply, resistance, voltage = 0 } = input;
  return (
    refused(
      finite("supply voltage", supply, "V"),
      finite("capacitor voltage", voltage, "V"),
      positive("series resistance", resistance, "ohm"),
    ) ??
    computed(
      (supply - voltage) / resistance,
      "A",
      `(${formatValue(supply, "V")} - ${formatValue(voltage, "V")}) / ${formatValue(resistance, "ohm")}`,
      OHM,
    )
  );
}

/** Time in s until the capacitor, from `from` (0 V), stands at `voltage`. Refuses the supply itself: never reached. */
export function chargeTime(
  input: ChargeInput & { readonly capacitance: number; readonly voltage: number; readonly from?: number },
): Result {
  const { supply, resistance, capacitance, voltage, from = 0 } = input;
  return rcTime({ resistance, capacitance, from, to: supply, threshold: voltage });
}
