import { defined } from "../base/defined";
import type { Extent } from "../compute/limits/compare";
import { comparisonText } from "../compute/limits/text";
import type { Reading } from "../log/model";
import { compareWith, doubtAdvice, extentOf, limitWords } from "./compare";
import { hasBoardFile, type LogContext } from "./context";
import { boardReference, shopReference } from "./reference";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement, Reference } from "./types";
import { uncertaintyOf } from "./uncertainty";

/** Any procedure without a judge of its own: only the board file's expected reading can judge it. */
export function judgeExpected(reading: Reading, place: TestPoint | undefined, ctx: LogContext): Judgement {
  const extent = extentOf(reading.value);
  const unit = reading.spec.unit ?? "";
  const reference = extent && boardReference(reading, place, unit, ctx);
  const base = place ? { reading, place } : { reading };
  if (!extent || !reference) {
    return {
      ...base,
      verdict: "unjudged",
      says: { fact: whyNothing(reading, place, ctx) },
    };
  }
  return judgeAgainst(reference, extent, reading, place, ctx);
}

/** Held against the boards this shop returned; undefined where there were too few of them. */
export function judgeByShop(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  const extent = extentOf(reading.value);
  const reference = extent && shopReference(reading, place, ctx);
  return extent && reference && judgeAgainst(reference, extent, reading, place, ctx);
}

function judgeAgainst(
  reference: Reference,
  extent: Extent,
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement {
  const base = place ? { reading, place } : { reading };
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, reading.table.procedure.meter?.function);
  const result = compareWith(reference, extent, uncertainty);
  const name = place ? testPointName(place) : (reading.subject.rail?.text ?? "This");
  const within = result.verdict === "within-limits";
  return defined({
    ...base,
    verdict: result.verdict,
    side: result.side,
    code: within ? undefined : "outside-expected",
    reference,
    uncertainty,
    formula: comparisonText(result, "bench"),
    says: {
      fact: `${name} reads ${reading.value.typed}; ${limitWords(reference)}.`,
      ...(within
        ? {}
        : result.verdict === "suspect"
          ? doubtAdvice(result, reference, reading.value, uncertainty)
          : { step: "Read it again, then check the part and what else is on its net." }),
    },
  });
}

function whyNothing(
  { table, subject, spec }: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): string {
  // What another judge has no word for either.
  if (spec.role !== "reading") return "This is a word, not a figure, so there are no limits for it.";
  const needsRef = table.procedure.columns.some((column) => column.role === "ref" && column.required);
  if (needsRef && !place && !subject.rail)
    return "This row does not say which part it is. Add a Ref column, or name one part in the heading.";
  if (!hasBoardFile(ctx)) return "Nothing says what to expect here, so it is not judged.";
  return "The board file gives no expected reading here, so it is not judged.";
}
