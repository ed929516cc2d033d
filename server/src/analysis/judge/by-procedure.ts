import type { LogTable, Reading } from "../../log/model";
import type { LogContext } from "../context";
import type { Place } from "../place";
import { judgeCharge, judgeHoldUp } from "./backup";
import { judgeClock } from "./clock";
import { judgeCoilReading } from "./coil";
import { judgeDiode } from "./diode";
import { judgeGround } from "./ground";
import { judgeJunction } from "./junction";
import { judgeLevel } from "./level";
import { judgePassive } from "./passive";
import { judgeRail } from "./rail";
import { judgeReset } from "./reset";
import { judgeSupply } from "./supply";
import type { Judgement } from "./types";

/**
 * Judges one reading, or gives undefined where it has nothing to say and the board's expectation decides. `near` are
 * the tables of its block, for what is judged by two readings together.
 */
export type Judge = (
  reading: Reading,
  place: Place | undefined,
  ctx: LogContext,
  near: readonly LogTable[],
) => Judgement | undefined;

/** The judge of each procedure's readings, by procedure id; the others are held against the board file alone. */
export const JUDGES: Readonly<Record<string, Judge>> = {
  "diode-check": (reading, place, ctx) => place && judgeDiode(reading, place, ctx),
  "transistor-junctions": judgeJunction,
  resistance: judgePassive,
  "capacitance-esr": judgePassive,
  "resistance-to-ground": judgeGround,
  "logic-levels": judgeLevel,
  "supply-rails": (reading, place, ctx, near) =>
    judgeCharge(reading, place, ctx) ?? (isOfRail(reading) ? judgeSupply(reading, ctx, near) : undefined),
  soak: (reading, _place, ctx) =>
    reading.subject.rail && isOfRail(reading) ? judgeRail(reading, ctx) : undefined,
  frequency: judgeClock,
  "reset-timing": (reading, place, ctx) =>
    judgeHoldUp(reading, place, ctx) ?? judgeReset(reading, place, ctx),
  "coil-resistance": judgeCoilReading,
};

/** A voltage, ripple or current, as against the time column of a soak. */
const isOfRail = ({ spec }: Reading): boolean => spec.quantity === "voltage" || spec.quantity === "current";
