// A frequency against the clock that the board file gives there.

import { judgeFrequency } from "../compute/circuit/frequency";
import type { Clock } from "../knowledge/types";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import type { Saying } from "../text/saying";
import { amountOf, isOnNetOf, linkTo } from "./board-parts";
import type { LogContext } from "./context";
import { judgeExpected } from "./expected";
import { judgementFrom, unjudged } from "./judgement-from";
import { accuracyGap, measuredOf } from "./measured";
import type { TestPoint } from "./test-point";
import type { Judgement, Reference } from "./types";

const CODE = "outside-expected";

/** Undefined where the board file names no clock here, or what was typed is not one frequency. */
export function judgeClock(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  if (reading.spec.quantity !== "frequency") return undefined;
  const expected = judgeExpected(reading, place, ctx);
  if (expected.verdict !== "unjudged") return expected;
  const clock = ctx.board?.value.clocks.find((at) => isOnNetOf(place, reading.subject.signal?.text, at, ctx));
  const read = clock && measuredOf(reading, "frequency", ctx);
  if (!clock || !read) return undefined;
  const nominal = amountOf(clock.nominal, "frequency");
  const limit = amountOf(clock.tolerance, "ratio");
  const gap = accuracyGap(ctx);
  if (nominal === undefined || limit === undefined || gap !== undefined) {
    const why = gap ?? "The board file's clock here has no nominal frequency and tolerance that can be read.";
    return unjudged(reading, place, `${reading.value.typed} was read. ${why}`);
  }
  const limitSource = clock.source ?? "the board file";
  const ruling = judgeFrequency({
    measured: read.value,
    nominal,
    limit,
    limitSource,
    uncertainty: read.uncertainty,
  });
  if (!ruling.ok) return unjudged(reading, place, ruling.reason);
  const reference: Reference = {
    kind: "board",
    of: `a clock of ${clock.nominal} ± ${clock.tolerance}`,
    low: nominal * (1 - limit),
    high: nominal * (1 + limit),
    unit: "Hz",
    source: limitSource,
    ...linkTo(["clocks", clock.index], ctx),
  };
  const isOut = ruling.verdict === "out-of-limits";
  const says: Saying = { ...ruling.says, cause: isOut ? madeFrom(clock) : ruling.says.cause };
  const formula = `${ruling.formula}, limit ${formatValue(limit, "ppm")}`;
  return judgementFrom(reading, place, { ...ruling, says, formula }, CODE, {
    reference,
    uncertainty: read.uncertainty,
  });
}

const madeFrom = ({ from }: Clock): string | undefined =>
  from === undefined ? undefined : `It is made from ${from}.`;
