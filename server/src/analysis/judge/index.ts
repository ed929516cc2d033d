import type { LogBlock, LogTable, Reading } from "../../log/model";
import { DIMENSION_NAMES } from "../../quantity/format";
import type { Quantity } from "../../quantity/quantity";
import type { LogContext } from "../context";
import { type Place, placeOf } from "../place";
import { compare, extentOf, straddleAdvice, windowText } from "./compare";
import { judgeDiode, placeName } from "./diode";
import { judgeRail } from "./rail";
import { boardReference } from "./reference";
import { say } from "./say";
import type { Judgement } from "./types";
import { testVoltage, uncertaintyOf } from "./uncertainty";

export type { Judgement, Reference, Verdict } from "./types";

const judged = new WeakMap<LogBlock, { ctx: LogContext; all: ReadonlyMap<Reading, Judgement> }>();

/** Every reading of a block with its judgement; computed once for a block and a context. */
export function judgeBlock(block: LogBlock, ctx: LogContext): ReadonlyMap<Reading, Judgement> {
  const known = judged.get(block);
  if (known?.ctx === ctx) return known.all;
  const all = new Map<Reading, Judgement>();
  for (const table of block.tables)
    for (const reading of table.readings) all.set(reading, judge(reading, ctx));
  judged.set(block, { ctx, all });
  return all;
}

/**
 * One reading's verdict. What cannot be a reading comes first, then what the place says, then the reference;
 * where there is none the verdict is `unjudged` with the reason.
 */
export function judge(reading: Reading, ctx: LogContext): Judgement {
  const { value } = reading;
  if (value.kind === "empty") return { reading, verdict: "not-measured", sentence: "Not measured." };
  if (value.kind === "unreadable") {
    const hint = value.suggestion === undefined ? "" : ` Did you mean ${value.suggestion}?`;
    return {
      reading,
      verdict: "unjudged",
      code: "unreadable-value",
      sentence: `"${value.typed}" cannot be read: ${value.reason}.${hint}`,
    };
  }
  const place = placeOf(reading.subject, ctx);
  const impossible = wrongUnit(reading) ?? outsidePackage(reading, place) ?? cannotBe(reading, place, ctx);
  if (impossible) return place ? { ...impossible, place } : impossible;
  if (reading.table.procedure.id === "diode-check" && place) return judgeDiode(reading, place, ctx);
  if (isOfRail(reading)) return judgeRail(reading, ctx);
  return judgeExpected(reading, place, ctx);
}

/** A voltage, ripple or current read of a rail under power. */
const isOfRail = ({ table, spec, subject }: Reading): boolean =>
  (table.procedure.id === "supply-rails" || (table.procedure.id === "soak" && subject.rail !== undefined)) &&
  (spec.quantity === "voltage" || spec.quantity === "current");

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
    sentence:
      `"${typed}" is ${DIMENSION_NAMES[odd.dimension]}, but the ${reading.table.procedure.title.toLowerCase()} column ` +
      `"${headerOf(reading)}" holds ${DIMENSION_NAMES[wanted as Quantity["dimension"]] ?? wanted}` +
      `${reading.spec.unit ? ` in ${reading.spec.unit}` : ""}. Check the unit, or move the value to its own table.`,
  };
}

function headerOf(reading: Reading): string {
  const at = reading.table.source.rows[reading.row]?.cells.indexOf(reading.cell) ?? -1;
  return reading.table.columns[at]?.header.text ?? reading.spec.headers[0] ?? "Reading";
}

function outsidePackage(reading: Reading, place: Place | undefined): Judgement | undefined {
  const device = place?.device;
  if (!device || place.pinTyped === undefined || place.pin) return undefined;
  return {
    reading,
    verdict: "impossible",
    sentence: `${place.ref} is a ${place.part?.device ?? device.id} in a ${device.package.name}: it has no pin ${place.pinTyped}, so this cannot be a reading of it.`,
  };
}

function cannotBe(reading: Reading, place: Place | undefined, ctx: LogContext): Judgement | undefined {
  const quantities = numbers(reading);
  const name = place ? placeName(place) : (reading.subject.rail?.text ?? "This");
  const negative = reading.spec.signed ? undefined : quantities.find((q) => q.value < 0);
  if (negative) {
    return {
      reading,
      verdict: "impossible",
      code: "impossible-value",
      sentence: `${name} reads ${reading.value.typed}: ${reading.measure === "drop" ? "a drop on the diode range" : `${DIMENSION_NAMES[negative.dimension]} measured this way`} cannot be below zero. Check the sign, or whether the leads were swapped.`,
      formula: `${say(negative.value, negative.unit)} < 0`,
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
      ? `no meter drives its diode range with more than ${say(limit, "V")} (common practice, no source)`
      : `${ctx.meter?.title ?? "the meter"} drives its diode range with ${say(limit, "V")}`;
  return {
    reading,
    verdict: "impossible",
    code: "impossible-value",
    sentence: `${name} reads ${reading.value.typed}, but ${drives}: it cannot show more. ${aboveAdvice(above, limit)}`,
    formula: `${say(above.value, "V")} > ${say(limit, "V")} test voltage`,
  };
}

/** Above this no diode range shows a drop, whatever the meter: common practice, no source. */
const ANY_TEST_VOLTAGE = 20;

/** Many meters show a drop in whole millivolts, and so it is copied down. */
function aboveAdvice({ typed, value }: Quantity, limit: number): string {
  return /^\d{2,4}$/.test(typed) && value / 1000 <= limit
    ? `If millivolts were meant, write "${typed} mV", or "(mV)" in the column's header.`
    : "Check the decimal point, or the range.";
}

/** Any procedure without a judge of its own: only the board file's expected reading can judge it. */
function judgeExpected(reading: Reading, place: Place | undefined, ctx: LogContext): Judgement {
  const extent = extentOf(reading.value);
  const unit = reading.spec.unit ?? "";
  const reference = extent && boardReference(reading, place, unit, ctx);
  const base = place ? { reading, place } : { reading };
  if (!extent || !reference) {
    return {
      ...base,
      verdict: "unjudged",
      sentence: "The board file expects no particular reading here, so there is nothing to hold it against.",
    };
  }
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, reading.table.procedure.meter?.function);
  const result = compare(extent, reference, uncertainty);
  const name = place ? placeName(place) : (reading.subject.rail?.text ?? "This");
  const within = result.verdict === "within-limits";
  return {
    ...base,
    verdict: result.verdict,
    ...(within ? {} : { code: "outside-expected" }),
    reference,
    uncertainty,
    formula: result.formula,
    sentence: within
      ? `${name} reads ${reading.value.typed}: within ${windowText(reference)}, ${reference.of} (${reference.source}).`
      : `${name} reads ${reading.value.typed}; ${reference.of} is ${windowText(reference)} (${reference.source}). ${result.verdict === "suspect" ? straddleAdvice(reading.value, uncertainty) : "Measure again, then follow the net to what differs."}`,
  };
}

export const judgementsOf = (table: LogTable, all: ReadonlyMap<Reading, Judgement>): Judgement[] =>
  table.readings.flatMap((reading) => all.get(reading) ?? []);
