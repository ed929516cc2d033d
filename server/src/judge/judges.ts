import type { JudgedBy } from "../log/kinds/kind";
import type { LogTable, Reading } from "../log/model";
import { judgeCharge, judgeHoldUp } from "./backup";
import { judgeChipTest } from "./chip-test";
import { judgeClock } from "./clock";
import { judgeCode } from "./code";
import { judgeCoilReading } from "./coil";
import { judgeCoilDiode } from "./coil-diode";
import type { LogContext } from "./context";
import { judgeDiode } from "./diode";
import { judgeEnds } from "./ends";
import { judgeExpected } from "./expected";
import { judgeFirstPower } from "./first-power";
import { judgeGround } from "./ground";
import { judgeJunction } from "./junction";
import { judgeLevel } from "./level";
import { besides } from "./measured";
import { judgePassive } from "./passive";
import { judgePinToGround } from "./pin-to-ground";
import { judgePower } from "./power-pin";
import { judgeRail } from "./rail";
import { railAt } from "./rail-name";
import { judgeReset } from "./reset";
import { withFrequency } from "./ripple-frequency";
import { judgeState } from "./state";
import { judgeStress } from "./stress";
import { judgeSupply } from "./supply";
import { judgeSwap } from "./swap";
import type { TestPoint } from "./test-point";
import { judgeTrial } from "./trial";
import type { Judgement } from "./types";

/**
 * Judges one reading, or gives undefined where it has nothing to say and the board's expectation decides. `near` are
 * the tables of its block, for what is judged by two readings together.
 */
export type Judge = (
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
  near: readonly LogTable[],
) => Judgement | undefined;

/** The judge of each kind of table; whatever one has nothing to say of is held against what is expected there. */
export const JUDGES: Readonly<Record<JudgedBy, Judge>> = {
  clock: judgeClock,
  code: judgeCode,
  coil: (reading, place, ctx) => judgeCoilDiode(reading, place) ?? judgeCoilReading(reading, place, ctx),
  diode: (reading, place, ctx) => place && judgeDiode(reading, place, ctx),
  ends: judgeEnds,
  expected: judgeExpected,
  "limited-supply": judgeFirstPower,
  ground: (reading, place, ctx) => judgeGround(reading, place, ctx) ?? judgePinToGround(reading, place, ctx),
  junction: judgeJunction,
  level: judgeLevel,
  passive: judgePassive,
  reset: (reading, place, ctx) => judgeHoldUp(reading, place, ctx) ?? judgeReset(reading, place, ctx),
  soak: (reading, _place, ctx) =>
    reading.subject.rail && isOfRail(reading) ? judgeRail(reading, ctx) : undefined,
  state: judgeState,
  stress: judgeStress,
  supply: (reading, place, ctx, near) =>
    judgeCharge(reading, place, ctx) ??
    judgeRippleAlone(reading, ctx) ??
    (isOfRail(reading)
      ? (judgePinOfSupply(reading, place, ctx) ?? judgeSupply(reading, ctx, near))
      : undefined),
  swap: judgeSwap,
  tester: judgeChipTest,
  trial: judgeTrial,
};

/** A row that names no rail but a pin: that of a regulator, say. */
const judgePinOfSupply = (
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined =>
  place?.pin && !reading.subject.rail && !(ctx.board && railAt(reading.subject, ctx.board.value))
    ? judgePower(reading, place, ctx)
    : undefined;

/** The frequency of a ripple whose size nobody wrote down. */
function judgeRippleAlone(reading: Reading, ctx: LogContext): Judgement | undefined {
  const rail = reading.measure === "frequency" && ctx.board && railAt(reading.subject, ctx.board.value);
  const size = rail ? besides(reading, "ripple") : undefined;
  if (!rail || (size && size.value.kind !== "empty")) return undefined;
  const untold: Judgement = {
    reading,
    verdict: "unjudged",
    says: { fact: `${rail.name} ripple is at ${reading.value.typed}. Write its size too: that decides.` },
  };
  return withFrequency(untold, rail);
}

/** A voltage, ripple or current, as against the time column of a soak. */
const isOfRail = ({ spec }: Reading): boolean => spec.quantity === "voltage" || spec.quantity === "current";
