import type { Ok, Result } from "../../server/src/compute/result";

/** The value of what had to be computable; a refusal fails the test with its own reason. */
export function valueIn<T>(result: Result<Ok<T>>): T {
  if (!result.ok) throw new Error(`refused: ${result.reason}`);
  return result.value;
}

/** The reason of what had to be refused. */
export function refusalIn(result: Result<Ok<unknown>>): string {
  if (result.ok) throw new Error(`not refused: ${JSON.stringify(result.value)}`);
  return result.reason;
}

/** |a - b| as a share of b; 0 where both are the same, infinities and zeros included. */
export const relative = (a: number, b: number): number => (a === b ? 0 : Math.abs(a - b) / Math.abs(b));
