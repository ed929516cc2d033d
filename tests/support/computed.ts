import type { Computed } from "../../server/src/analysis/measurement/outcome";

/** The value of what had to be computable; a refusal fails the test with its own message. */
export function valueIn<T>(result: Computed<T>): T {
  if (!result.ok) throw new Error(`refused: ${result.message}`);
  return result.value;
}

/** The message of what had to be refused. */
export function refusalIn(result: Computed<unknown>): string {
  if (result.ok) throw new Error(`not refused: ${JSON.stringify(result.value)}`);
  return result.message;
}

/** |a - b| as a share of b; 0 where both are the same, infinities and zeros included. */
export const relative = (a: number, b: number): number => (a === b ? 0 : Math.abs(a - b) / Math.abs(b));
