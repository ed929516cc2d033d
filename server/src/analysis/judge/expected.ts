import type { Reading } from "../../log/model";
import type { LogContext } from "../context";
import type { Place } from "../place";
import { compare, extentOf, straddleAdvice, windowText } from "./compare";
import { placeName } from "./diode";
import { boardReference } from "./reference";
import type { Judgement } from "./types";
import { uncertaintyOf } from "./uncertainty";

/** Any procedure without a judge of its own: only the board file's expected reading can judge it. */
export function judgeExpected(reading: Reading, place: Place | undefined, ctx: LogContext): Judgement {
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
