import type { Procedure } from "../../knowledge/types";
import { parseQuantity } from "../../quantity/quantity";
import { DIODE_LIMIT, type WholeDigits } from "../../quantity/whole-digits";

/** How digits are read in the readings of a procedure; undefined where they are not volts on the diode range. */
export function digitsOf({ meter }: Procedure): WholeDigits | undefined {
  if (meter?.function !== "diode") return undefined;
  const read = meter.testVoltage === undefined ? undefined : parseQuantity(meter.testVoltage, { unit: "V" });
  return { limit: read?.ok ? read.quantity.value : DIODE_LIMIT };
}
