// What the failing addresses have in common, where only they were noted: a hint where to look, not a verdict.
import type { Saying } from "../../text/saying";
import { type Result, refused } from "../result";
import { isWhole, MOST_ADDRESS_LINES } from "./memory-word";

/**
 * Eight addresses agree on a line by chance once in 2^7 = 128 times (computed for even chances), so fewer say
 * nothing.
 */
export const FEWEST_ADDRESSES = 8;

export interface CommonLine {
  readonly line: number;
  readonly level: "high" | "low";
}

export interface AddressPattern {
  readonly ok: true;
  /** Address lines that stand alike in all failing addresses though the test exercised both levels. */
  readonly common: readonly CommonLine[];
  readonly says: Saying;
}

/** Lines all failing addresses agree on, within the range that was tested. Refuses addresses outside the range. */
export function addressPattern(
  failing: readonly number[],
  tested: { readonly from: number; readonly to: number },
): Result<AddressPattern> {
  const { from, to } = tested;
  const outside = failing.find(
    (address) => !isWhole(address, MOST_ADDRESS_LINES) || address < from || address > to,
  );
  const bad = refused(
    isWhole(from, MOST_ADDRESS_LINES) && isWhole(to, MOST_ADDRESS_LINES) && from <= to
      ? undefined
      : `The test runs from ${from} to ${to}, which is no range.`,
    outside === undefined ? undefined : `Address ${outside} is outside the test, ${from} to ${to}.`,
  );
  if (bad) return bad;
  const places = [...new Set(failing)];
  if (places.length < FEWEST_ADDRESSES) {
    return {
      ok: true,
      common: [],
      says: {
        fact: `${places.length} failing addresses are too few to see a pattern; it takes ${FEWEST_ADDRESSES}.`,
      },
    };
  }
  const common = Array.from({ length: MOST_ADDRESS_LINES }, (_, line) => line).flatMap(
    (line): readonly CommonLine[] => {
      if (!bothLevels(from, to, line)) return [];
      const high = places.filter((address) => (address >>> line) & 1).length;
      if (high !== 0 && high !== places.length) return [];
      return [{ line, level: high === 0 ? "low" : "high" }];
    },
  );
  const names = common.map(({ line, level }) => `A${line} ${level}`).join(", ");
  return {
    ok: true,
    common,
    says:
      common.length === 0
        ? {
            fact: `The ${places.length} failing addresses agree on no address line.`,
            cause: "It is more likely a chip or a data line.",
          }
        : {
            fact: `All ${places.length} failing addresses have ${names}.`,
            step: "Check the select or the part of the chip that these lines choose, and the lines themselves.",
          },
  };
}

/** Whether the line takes both levels from one end of the range to the other. */
const bothLevels = (from: number, to: number, line: number): boolean =>
  Math.floor(from / 2 ** line) !== Math.floor(to / 2 ** line);
