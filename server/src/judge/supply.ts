import type { LogTable, Reading } from "../log/model";
import type { LogContext } from "./context";
import { withHeadroom } from "./headroom";
import { judgeRail } from "./rail";
import { railAt } from "./rail-name";
import { judgeRipple } from "./ripple";
import { withFrequency } from "./ripple-frequency";
import type { Judgement } from "./types";

/**
 * A rail against its own limits, and with what the board file says of its circuit: the ripple that its reservoir
 * leaves, the headroom and heat of the regulator between two rails read under one heading.
 */
export function judgeSupply(reading: Reading, ctx: LogContext, near: readonly LogTable[]): Judgement {
  const base = judgeRail(reading, ctx);
  const rail = ctx.board && railAt(reading.subject, ctx.board.value);
  if (!rail) return base;
  if (reading.measure === "ripple") return withFrequency(judgeRipple(base, rail, ctx), rail);
  return reading.measure === "dc" ? withHeadroom(base, rail, near, ctx) : base;
}
