// A rail that was fed for the first time from a limited supply: the limit, what was drawn, and whether the supply stayed up.

import type { LogTable, Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import { amountOf } from "./board-parts";
import type { LogContext } from "./context";
import { unjudged } from "./judgement-from";
import { besides, single } from "./measured";
import { railAt } from "./rail-name";
import { judgeSupply } from "./supply";
import type { TestPoint } from "./test-point";
import type { Judgement } from "./types";

/** A limit that lets through this many times the usual load protects little; common practice, no source. */
const LIMIT_TIMES = 3;

export function judgeFirstPower(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
  near: readonly LogTable[],
): Judgement | undefined {
  const rail = ctx.board && railAt(reading.subject, ctx.board.value);
  const name = rail?.name ?? reading.subject.rail?.text ?? "This rail";
  if (reading.measure === "limit") return ofLimit(reading, name, rail && amountOf(rail.load, "current"));
  if (reading.spec.role !== "result") return judgeSupply(reading, ctx, near);
  const { value } = reading;
  if (value.kind !== "result" || value.ok === undefined) return undefined;
  const limit = besides(reading, "limit");
  const at = limit && limit.value.kind !== "empty" ? ` at a limit of ${limit.value.typed}` : "";
  if (value.ok)
    return {
      reading,
      verdict: "within-limits",
      says: { fact: `${name} stayed up${at}.`, cause: "A dead short is disproved, and no more." },
    };
  return {
    ...(place ? { reading, place } : { reading }),
    verdict: "out-of-limits",
    side: "high",
    code: "rail-out-of-tolerance",
    says: {
      fact: `${name} did not stay up${at}: ${value.typed}.`,
      cause: "A short on it, or a limit too low for the board or its reservoir.",
      step: "Leave it off. Read its resistance to ground, and look for what got hot.",
    },
  };
}

function ofLimit(reading: Reading, name: string, load: number | undefined): Judgement {
  const limit = single(reading.value);
  if (limit === undefined || load === undefined || limit <= LIMIT_TIMES * load)
    return unjudged(reading, undefined, `The supply of ${name} was limited to ${reading.value.typed}.`);
  return {
    reading,
    verdict: "suspect",
    side: "high",
    code: "rail-out-of-tolerance",
    says: {
      fact: `The limit of ${reading.value.typed} is more than ${LIMIT_TIMES} times the ${formatValue(load, "A")} that ${name} usually carries.`,
      cause: "A short can burn tracks before such a limit acts.",
      step: "Set it just above the usual current for the first power.",
    },
  };
}
