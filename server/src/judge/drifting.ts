// A reading that was still moving when it was written: "15k rising". Across a rail that is a capacitor charging from the
// meter; on a signal pin somebody has to say what charges.
import type { Reading } from "../log/model";
import type { CellValue } from "../quantity/cell-value";
import { pinRole } from "./pin-role";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement } from "./types";

const PRACTICE = "common practice, no source";

/**
 * Undefined where the value does not move or the board had power: a rail that moves is then held against its limits as
 * it stands. `judgeAs` judges the same place as if the value typed had stayed.
 */
export function judgeDrifting(
  reading: Reading,
  place: TestPoint | undefined,
  judgeAs: (value: CellValue) => Judgement,
): Judgement | undefined {
  const { value, table } = reading;
  if (value.kind !== "bound" || value.drift === undefined) return undefined;
  const { judgedBy } = table.kind;
  if (judgedBy !== "diode" && judgedBy !== "ground") return undefined;
  const { drift, quantity, typed } = value;
  const stood: Judgement = { ...judgeAs({ kind: "quantity", typed, quantity, approx: true }), reading };
  const reported = stood.verdict === "out-of-limits" || stood.verdict === "suspect";
  // It moves further out: where it ends cannot be better.
  if (reported && stood.side === (drift === "rising" ? "high" : "low")) return stood;
  const name = place ? testPointName(place) : (reading.subject.rail?.text ?? "This");
  const read = `${name} reads ${typed}`;
  const base = place ? { reading, place } : { reading };
  if (isAcrossRail(reading, place)) {
    const ordinary =
      drift === "rising"
        ? "The rail's capacitors charge from the meter, which is normal."
        : "The rail's capacitors still held a charge. Discharge them before you read anything.";
    if (reported)
      return {
        ...base,
        verdict: "unjudged",
        says: {
          fact: `${read}. ${ordinary}${drift === "rising" ? " A short would not rise." : ""}`,
          step: "Wait until it settles, and write that.",
          source: PRACTICE,
        },
      };
    return {
      ...stood,
      says: {
        ...stood.says,
        more: [stood.says.more, `It was ${drift}. ${ordinary}`].filter(Boolean).join(" "),
      },
    };
  }
  if (place && pinRole(place) === "signal")
    return {
      ...base,
      verdict: "suspect",
      code: judgedBy === "diode" ? "diode-out-of-window" : "pin-shorted",
      says: {
        fact: `${read}, and a logic signal has no capacitor to ${drift === "rising" ? "charge" : "discharge"}.`,
        cause: "A reset or timing line may have one.",
        step: "See what is on the net, wait until it settles, and write that.",
        source: PRACTICE,
      },
    };
  return {
    ...base,
    verdict: "unjudged",
    says: {
      fact: `${read}: it was still ${drift}, so a capacitor is on it.`,
      step: "Wait until it settles, and write that.",
    },
  };
}

/** A row of a rail, or a pin that stands on one. */
function isAcrossRail({ subject }: Reading, place: TestPoint | undefined): boolean {
  if (!place?.pin && subject.rail) return true;
  const role = place && pinRole(place);
  return role === "supply" || role === "tied-to-rail";
}
