import type { Err } from "../result";

/** One place of a memory test: what was written there, and what came back. Address and data as numbers. */
export interface MemoryWord {
  readonly address: number;
  readonly wrote: number;
  readonly read: number;
}

/** Data buses of the boards in question are 8 or 16 lines wide. */
export const MOST_DATA_LINES = 16;
export const MOST_ADDRESS_LINES = 24;

export const isWhole = (value: number, bits: number): boolean =>
  Number.isInteger(value) && value >= 0 && value < 2 ** bits;

/** A refusal where an address or a datum cannot be one. */
export function badWords(words: readonly MemoryWord[]): Err | undefined {
  for (const { address, wrote, read } of words) {
    if (!isWhole(address, MOST_ADDRESS_LINES)) return { ok: false, reason: `${address} is not an address.` };
    const datum = [wrote, read].find((value) => !isWhole(value, MOST_DATA_LINES));
    if (datum !== undefined) {
      return { ok: false, reason: `${datum} is not a datum of up to ${MOST_DATA_LINES} bits.` };
    }
  }
  return undefined;
}

/** Numbers of the bits that are set, ascending. */
export const bitsOf = (value: number): readonly number[] =>
  Array.from({ length: 32 }, (_, bit) => bit).filter((bit) => (value >>> bit) & 1);
