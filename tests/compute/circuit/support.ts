import { expect } from "vitest";
import type { Computed, Result } from "../../../server/src/compute/result";
import type { Verdict } from "../../../server/src/compute/verdict";

/** Expects a value, `relative` apart at most, with a formula and a source beside it. */
export function close<T extends Computed>(outcome: Result<T>, value: number, relative = 1e-6): T {
  if (!outcome.ok) throw new Error(`refused: ${outcome.reason}`);
  expect(Math.abs(outcome.value - value), `${outcome.value} against ${value}`).toBeLessThanOrEqual(
    Math.abs(value) * relative,
  );
  expect(outcome.formula).toMatch(/ = \S/);
  expect(outcome.formula).not.toMatch(/NaN|undefined|not a number/);
  expect(outcome.source).toMatch(/\S/);
  return outcome;
}

/** Expects a refusal and gives its reason: a sentence for a person. */
export function reason(outcome: Result<unknown & { readonly ok: true }>): string {
  if (outcome.ok) throw new Error(`not refused: ${JSON.stringify(outcome)}`);
  expect(outcome.reason).toMatch(/^[A-Z0-9-].*\.$/);
  expect(outcome.reason).not.toMatch(/NaN|undefined/);
  return outcome.reason;
}

interface Ruled {
  readonly ok: true;
  readonly verdict: Verdict;
}

/** Expects a verdict, and that no sentence calls the part good. */
export function ruling<T extends Ruled>(outcome: Result<T>, verdict: Verdict): T {
  if (!outcome.ok) throw new Error(`refused: ${outcome.reason}`);
  expect(outcome.verdict, JSON.stringify(outcome)).toBe(verdict);
  expect(JSON.stringify(outcome)).not.toMatch(/\b(good|passed|passes|fine)\b|NaN|[^"]undefined/i);
  return outcome;
}
