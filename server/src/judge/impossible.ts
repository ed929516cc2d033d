// What cannot be a reading at all, whatever the board: a unit of another kind, a pin the chip does not have, a
// value the meter cannot have shown.
import type { Reading } from "../log/model";
import { DIMENSION_NAMES } from "../quantity/format";
import { formatValue } from "../quantity/format-value";
import type { Quantity } from "../quantity/quantity";
import type { LogContext } from "./context";
import { signalOf } from "./pin-signal";
import { mayBeNegative } from "./power-pin";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement } from "./types";
import { testVoltage } from "./uncertainty";

export function judgeImpossible(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  const found = wrongUnit(reading) ?? outsidePackage(reading, place) ?? cannotBe(reading, place, ctx);
  return found && place ? { ...found, place } : found;
}

const numbers = (reading: Reading): Quantity[] => {
  const { value } = reading;
  if (value.kind === "quantity" || value.kind === "bound") return [value.quantity];
  if (value.kind === "range") return [value.low, value.high];
  return [];
};

function wrongUnit(reading: Reading): Judgement | undefined {
  const wanted = reading.spec.quantity;
  const odd = wanted === undefined ? undefined : numbers(reading).find((q) => q.dimension !== wanted);
  if (!odd || wanted === undefined) return undefined;
  const typed = reading.value.typed;
  return {
    reading,
    verdict: "impossible",
    code: "wrong-unit",
    says: {
      fact: `"${typed}" is ${DIMENSION_NAMES[odd.dimension]}, but the column "${headerOf(reading)}" holds ${DIMENSION_NAMES[wanted as Quantity["dimension"]] ?? wanted}${reading.spec.unit ? ` in ${reading.spec.unit}` : ""}.`,
      step: "Check the unit, or move the value to its own table.",
    },
  };
}

function headerOf(reading: Reading): string {
  const at = reading.table.source.rows[reading.row]?.cells.indexOf(reading.cell) ?? -1;
  return reading.table.columns[at]?.header.text ?? reading.spec.headers[0] ?? "Reading";
}

function outsidePackage(reading: Reading, place: TestPoint | undefined): Judgement | undefined {
  const device = place?.device;
  // A device whose pins nobody has listed says nothing of which it has.
  if (!device || device.pins.size === 0 || place.pinTyped === undefined || place.pin) return undefined;
  return {
    reading,
    verdict: "impossible",
    says: {
      fact: `${place.ref} is a ${place.part?.device ?? device.id} in a ${device.package.name} and has no pin ${place.pinTyped}.`,
    },
  };
}

function cannotBe(reading: Reading, place: TestPoint | undefined, ctx: LogContext): Judgement | undefined {
  const quantities = numbers(reading);
  const name = place ? testPointName(place) : (reading.subject.rail?.text ?? "This");
  const negative =
    reading.spec.signed || (reading.measure === "level" && isNegativeSupply(place, ctx))
      ? undefined
      : quantities.find((q) => q.value < 0);
  if (negative) {
    return {
      reading,
      verdict: "impossible",
      code: "impossible-value",
      says: {
        fact: `${name} reads ${reading.value.typed}; ${reading.measure === "drop" ? "a drop on the diode range" : `${DIMENSION_NAMES[negative.dimension]} measured this way`} cannot be below 0.`,
        step: "Check the sign, or whether the leads were swapped.",
      },
      formula: `${formatValue(negative.value, negative.unit)} < 0`,
    };
  }
  const fn = reading.table.procedure.meter?.function;
  if (fn !== "diode") return undefined;
  const known = testVoltage(ctx.meter, fn);
  const limit = known ?? ANY_TEST_VOLTAGE;
  const above = quantities.find((q) => q.dimension === "voltage" && q.value > limit);
  if (!above || reading.value.kind === "bound") return undefined;
  const drives =
    known === undefined
      ? `any meter's diode-test voltage (${formatValue(limit, "V")})`
      : `the meter's ${formatValue(limit, "V")} diode-test voltage`;
  return {
    reading,
    verdict: "impossible",
    code: "impossible-value",
    says: {
      fact: `${name} reads ${reading.value.typed}; this is above ${drives}.`,
      step: "Check the decimal point, or the range.",
      source: known === undefined ? "common practice, no source" : ctx.meter?.title,
    },
    formula: `${formatValue(above.value, "V")} > ${formatValue(limit, "V")} test voltage`,
  };
}

/**
 * VBB of a memory, the input and output of a negative regulator, any pin where the board has a rail below ground or the part
 * a supply below it: a standing voltage there may be below zero. Of a part that nobody knows nothing is impossible.
 */
function isNegativeSupply(place: TestPoint | undefined, ctx: LogContext): boolean {
  const { pin, device } = place ?? {};
  if (!device || mayBeNegative(place, ctx)) return true;
  if (!pin) return false;
  const output = device.limits.get("output")?.[0] ?? "";
  return (
    (device.kind === "regulator" && /^[-\u2212]/.test(output.trim())) || signalOf(device, pin) === "line"
  );
}

/** Above this no diode range shows a drop, whatever the meter: common practice, no source. */
const ANY_TEST_VOLTAGE = 20;
