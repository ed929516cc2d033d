import type { Reading } from "../../log/model";
import type { LogContext } from "../context";
import type { Place } from "../place";
import { judgeDiode } from "./diode";
import { judgeGround } from "./ground";
import { judgeJunction } from "./junction";
import { judgeLevel } from "./level";
import { judgePassive } from "./passive";
import { judgeRail } from "./rail";
import type { Judgement } from "./types";

/** Judges one reading, or gives undefined where it has nothing to say and the board's expectation decides. */
export type Judge = (reading: Reading, place: Place | undefined, ctx: LogContext) => Judgement | undefined;

/** The judge of each procedure's readings, by procedure id; the others are held against the board file alone. */
export const JUDGES: Readonly<Record<string, Judge>> = {
  "diode-check": (reading, place, ctx) => place && judgeDiode(reading, place, ctx),
  "transistor-junctions": judgeJunction,
  resistance: judgePassive,
  "capacitance-esr": judgePassive,
  "resistance-to-ground": judgeGround,
  "logic-levels": judgeLevel,
  "supply-rails": (reading, _place, ctx) => (isOfRail(reading) ? judgeRail(reading, ctx) : undefined),
  soak: (reading, _place, ctx) =>
    reading.subject.rail && isOfRail(reading) ? judgeRail(reading, ctx) : undefined,
};

/** A voltage, ripple or current, as against the time column of a soak. */
const isOfRail = ({ spec }: Reading): boolean => spec.quantity === "voltage" || spec.quantity === "current";
