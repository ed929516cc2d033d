// Series resistance and leakage of electrolytic capacitors, by the value and the voltage that is marked on them.

import { defined } from "../base/defined";
import {
  type Electrolytic,
  ESR_LEADS,
  ESR_SOURCE,
  ESR_TIMES,
  electrolytic,
  isOtherKind,
  LEAKAGE_SOURCE,
  LEAKAGE_WIDER,
  leakageLimit,
  typicalEsr,
} from "../compute/circuit/electrolytic";
import { comparisonText } from "../compute/limits/text";
import { readValue } from "../compute/part-value";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import { sourcesOf } from "../text/saying";
import { compareWith, extentOf, straddleAdvice } from "./compare";
import type { LogContext } from "./context";
import { unjudged } from "./judgement-from";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement, Reference } from "./types";
import { uncertaintyOf } from "./uncertainty";

const CODE = "passive-out-of-tolerance";
/** Below this share of a new part's figure a short or a part beside it is read: common practice, no source. */
const TOO_GOOD = 0.1;

interface Marked extends Electrolytic {
  /** As it is marked: "100 uF 25 V". */
  readonly text: string;
}

/** The value of the row itself or of the board, where it may be an aluminium electrolytic; else why not. */
function markedOn(reading: Reading, place: TestPoint | undefined): Marked | string {
  const { expected, part, note } = reading.subject;
  const words = [expected?.text, part?.text, place?.part?.value, note?.text, place?.part?.note];
  const text = words.slice(0, 3).find((typed) => typed && readValue(typed, "capacitance"));
  const value = text === undefined ? undefined : readValue(text, "capacitance");
  if (text === undefined || !value)
    return "Nothing says its value. Write what is marked on it, as in 100 uF 25 V.";
  if (words.some((typed) => typed && isOtherKind(typed)))
    return "There are published figures for aluminium electrolytics only, and this is another kind. Compare a new one.";
  // A voltage may stand in another cell than the value.
  return { ...electrolytic(value.nominal, words.filter(Boolean).join(" ")), text };
}

const nameOf = (reading: Reading, place: TestPoint | undefined): string =>
  place ? testPointName(place) : (reading.subject.ref?.text ?? "This capacitor");

export function judgeEsrOf(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  const extent = extentOf(reading.value);
  if (!extent) return undefined;
  const name = nameOf(reading, place);
  const read = `${name} reads an ESR of ${reading.value.typed}`;
  const marked = markedOn(reading, place);
  if (typeof marked === "string") return unjudged(reading, place, `${read}. ${marked}`);
  const typical = typicalEsr(marked);
  if (typical === undefined)
    return unjudged(
      reading,
      place,
      `${read}. No figures are published for ${marked.text}. Read a new part of the same value and voltage on the same meter.`,
    );
  const usual = ESR_TIMES.usual * typical + ESR_LEADS;
  const worn = ESR_TIMES.worn * typical + ESR_LEADS;
  const reference: Reference = {
    kind: "family",
    of: `a new ${marked.text}`,
    high: usual,
    beyond: { low: 0, high: worn },
    unit: "ohm",
    source: ESR_SOURCE,
  };
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "esr");
  const found = compareWith(reference, extent, uncertainty);
  const base = defined<Omit<Judgement, "verdict" | "says">>({
    reading,
    place,
    reference,
    uncertainty,
    formula: comparisonText(found, "bench"),
  });
  const more =
    marked.rated === undefined ? "No voltage is marked, so the limits are those of a 10 V part." : undefined;
  const about = `a new ${marked.text} has about ${round(typical)}`;
  const source = sourcesOf(reference.source);
  if (found.verdict === "within-limits") {
    if (extent.high < TOO_GOOD * typical && extent.high <= ESR_LEADS && typical > 2 * ESR_LEADS)
      return {
        ...base,
        verdict: "suspect",
        side: "low",
        code: CODE,
        says: {
          fact: `${read}; ${about}.`,
          cause: "Far too little: it is shorted, or another capacitor is beside it.",
          step: "Read its resistance, or lift one end.",
          more,
          source,
        },
      };
    return {
      ...base,
      verdict: "within-limits",
      says: {
        fact: `${read}; the limit is ${round(usual)}.`,
        cause: "Not disproved: a capacitor beside it can hide a worn one.",
        more: [
          `${about.charAt(0).toUpperCase()}${about.slice(1)}; the limit is twice that and the leads.`,
          more,
        ]
          .filter(Boolean)
          .join(" "),
        source,
      },
    };
  }
  if (found.verdict === "suspect")
    return {
      ...base,
      verdict: "suspect",
      side: found.side,
      code: CODE,
      says: {
        fact: `${read}; ${about}, and twice that is the limit.`,
        step: found.isBetween
          ? "Zero the leads, read it again, and compare a new part of the same value and voltage."
          : straddleAdvice(reading.value, uncertainty),
        more,
        source,
      },
    };
  return {
    ...base,
    verdict: "out-of-limits",
    side: found.side,
    code: CODE,
    says: {
      fact: `${read}; ${about}.`,
      cause: "Dried out, or a poor joint.",
      step: "Reflow it and read it again, then renew it the right way round.",
      more,
      source,
    },
  };
}

/** Read at the rated voltage after some minutes, which the row cannot say: the words do. */
export function judgeLeakage(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  const extent = extentOf(reading.value);
  if (!extent) return undefined;
  const read = `${nameOf(reading, place)} leaks ${reading.value.typed}`;
  const marked = markedOn(reading, place);
  if (typeof marked === "string") return unjudged(reading, place, `${read}. ${marked}`);
  const { capacitance, rated } = marked;
  if (rated === undefined)
    return unjudged(
      reading,
      place,
      `${read}. What it may leak depends on its rated voltage. Write that with its value, as in ${marked.text} 25 V.`,
    );
  const most = leakageLimit({ capacitance, rated });
  const reference: Reference = {
    kind: "family",
    of: `the leakage of a ${marked.text}`,
    high: most,
    beyond: { low: 0, high: LEAKAGE_WIDER * most },
    unit: "A",
    source: LEAKAGE_SOURCE,
  };
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "dc-amps");
  const found = compareWith(reference, extent, uncertainty);
  const { verdict, side } = found;
  const base = defined<Omit<Judgement, "verdict" | "says">>({
    reading,
    place,
    reference,
    uncertainty,
    formula: comparisonText(found, "bench"),
  });
  const fact = `${read}; the limit for ${marked.text} is ${formatValue(Number(most.toPrecision(3)), "A")}.`;
  if (verdict === "within-limits")
    return {
      ...base,
      verdict,
      says: { fact, cause: "Not disproved." },
    };
  return {
    ...base,
    verdict,
    side,
    code: CODE,
    says: {
      fact,
      ...(verdict === "suspect"
        ? {
            cause: "Some kinds may leak three times as much, and one that lay for years needs forming.",
            step: "Leave it at its voltage for some minutes and read it again.",
          }
        : {
            cause: "It leaks, or it lay for years and needs forming.",
            step: "Leave it at its voltage for some minutes and read it again. If it stays high, renew it.",
          }),
    },
  };
}

const round = (ohms: number): string => formatValue(Number(ohms.toPrecision(2)), "ohm");
