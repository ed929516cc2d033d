// What every computation returns: what it gives, or the reason why there is nothing.
import { formatValue } from "../quantity/format-value";

/** Something that could be worked out. */
export interface Ok<T> {
  readonly ok: true;
  readonly value: T;
}

/** A number in the SI base unit named, with the formula as it was worked and whose rule it is. */
export interface Computed extends Ok<number> {
  readonly unit: string;
  /** One line with the numbers in it: "0.5 A / (2 × 60 Hz × 4700 µF) = 887 mV". */
  readonly formula: string;
  readonly source: string;
}

/** Input that no value follows from; the reason is a full sentence for the person who typed it. */
export interface Err {
  readonly ok: false;
  readonly reason: string;
}

/** What a computation gives: a number with its formula unless another result is named, or a refusal. */
export type Result<T = Computed> = T | Err;

/** A result that is no single number, such as a list or a plan. */
export const ok = <T>(value: T): Ok<T> => ({ ok: true, value });

/** A value with its formula, or a refusal where the arithmetic left the range of numbers. */
export function computed(value: number, unit: string, formula: string, source: string): Result {
  if (!Number.isFinite(value)) return err(`${formula} is beyond what can be computed.`);
  return { ok: true, value, unit, formula: `${formula} = ${formatValue(value, unit)}`, source };
}

/** @param reason a full sentence */
export const err = (reason: string): Err => ({ ok: false, reason });

/** The first complaint among several, as a refusal; undefined where there is none. */
export function refused(...complaints: readonly (string | undefined)[]): Err | undefined {
  const reason = complaints.find((complaint) => complaint !== undefined);
  return reason === undefined ? undefined : err(reason);
}

const as = (value: number, unit: string): string =>
  Number.isNaN(value) ? "not a number" : formatValue(value, unit);

/** A complaint unless the value is a finite number. */
export const finite = (what: string, value: number, unit: string): string | undefined =>
  Number.isFinite(value) ? undefined : `The ${what} must be a finite number, but it is ${as(value, unit)}.`;

/** A complaint unless the value is finite and above zero. */
export const positive = (what: string, value: number, unit: string): string | undefined =>
  Number.isFinite(value) && value > 0
    ? undefined
    : `The ${what} must be above zero, but it is ${as(value, unit)}.`;

/** A complaint unless the value is finite and not below zero. */
export const notNegative = (what: string, value: number, unit: string): string | undefined =>
  Number.isFinite(value) && value >= 0
    ? undefined
    : `The ${what} must be zero or more, but it is ${as(value, unit)}.`;

/** A complaint unless the value is zero or more; an open circuit's infinity is allowed. */
export const readable = (what: string, value: number, unit: string): string | undefined =>
  value >= 0 ? undefined : `The ${what} must be zero or more, but it is ${as(value, unit)}.`;

/** A complaint unless the value is a share between zero and one, one itself left out. */
export const share = (what: string, value: number): string | undefined =>
  value >= 0 && value < 1
    ? undefined
    : `The ${what} must be at least 0 % and below 100 %, but it is ${as(value, "%")}.`;

/** A complaint unless the value lies strictly between zero and one, as a probability that leaves something open. */
export const fraction = (what: string, value: number): string | undefined =>
  value > 0 && value < 1 ? undefined : `The ${what} must be between 0 and 1, not ${value}.`;
