// A diode by itself, read both ways on the diode range.

import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import type { Saying } from "../text/saying";
import { compareWith, extentOf, windowText } from "./compare";
import type { LogContext } from "./context";
import { judgementFrom, unjudged } from "./judgement-from";
import type { TestPoint } from "./test-point";
import type { Judgement, Reference } from "./types";
import { siValue, uncertaintyOf } from "./uncertainty";

const SOURCE = "common practice, no source";
/** Below this nothing that conducts like a junction is left, and above it nothing conducts the wrong way; volts. */
const SHORT_BELOW = 0.05;
const BLOCKS_FROM = 1;

/** Forward it drops what its kind drops, the other way it blocks; what lies beside it on the board may conduct too. */
export function judgeTwoLead(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  const device =
    place?.device ?? (reading.subject.part && ctx.library.device(reading.subject.part.text)?.device);
  const extent = extentOf(reading.value);
  if (!extent) return undefined;
  if (device && (device.kind !== "diode" || device.pins.size !== 2)) return undefined;
  const typed = reading.value.typed;
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "diode");
  const number = place?.part?.device ?? reading.subject.part?.text ?? device?.id;
  const what = number ? `a ${number}` : "a diode";
  const rule = (
    verdict: "out-of-limits" | "suspect" | "within-limits",
    side: "low" | "high" | undefined,
    { fact, ...advice }: Saying,
    reference: Reference,
  ) =>
    judgementFrom(
      reading,
      place,
      {
        ok: true,
        verdict,
        side,
        says: { ...advice, fact: `${typed}${fact}` },
        formula: windowText(reference),
        source: reference.source,
      },
      "junction-disproved",
      { reference, uncertainty },
    );
  const junction: Reference = {
    kind: "physics",
    of: "a junction",
    low: SHORT_BELOW,
    unit: "V",
    source: SOURCE,
  };
  if (extent.high < SHORT_BELOW)
    return rule(
      "out-of-limits",
      "low",
      {
        fact: `; ${what} drops more than ${formatValue(SHORT_BELOW, "V")} one way and blocks the other.`,
        cause: "It is shorted, or a part beside it is.",
        step: "Lift one leg and read it both ways.",
      },
      junction,
    );
  if (reading.measure === "reverse") {
    const blocks: Reference = {
      kind: "physics",
      of: "a diode the wrong way round",
      low: BLOCKS_FROM,
      unit: "V",
      source: SOURCE,
    };
    return extent.low >= BLOCKS_FROM
      ? rule("within-limits", undefined, { fact: ", as it should in reverse." }, blocks)
      : rule(
          "suspect",
          "low",
          {
            fact: ` in reverse; ${what} blocks, so ${formatValue(BLOCKS_FROM, "V")} or more.`,
            cause: "It leaks, or something beside it conducts.",
            step: "Lift one leg and read it again.",
          },
          blocks,
        );
  }
  const limits = device?.limits.get("forward");
  const low = limits && siValue(limits[0], "V");
  const high = limits && siValue(limits[1], "V");
  if (!device || low === undefined || high === undefined)
    return unjudged(reading, place, "Nothing says which diode this is. Write its number beside it.");
  const window: Reference = { kind: "family", of: what, low, high, unit: "V", source: device.source };
  const { verdict, side } = compareWith(window, extent, uncertainty);
  if (verdict === "within-limits")
    return rule("within-limits", undefined, { fact: `; ${what} drops ${windowText(window)}.` }, window);
  const fact = `; ${what} drops ${windowText(window)}.`;
  const says: Saying =
    extent.low === Number.POSITIVE_INFINITY
      ? { fact, cause: "It is open, or the leads were the wrong way round.", step: "Read it both ways." }
      : side === "low"
        ? {
            fact,
            cause: "It leaks, or something beside it conducts.",
            step: "Lift one leg and read it again.",
          }
        : { fact, cause: "It is failing or a joint is poor.", step: "Lift one leg and read it again." };
  // What lies beside it lowers a reading, and nothing raises one.
  return rule(side === "low" || verdict === "suspect" ? "suspect" : "out-of-limits", side, says, window);
}
