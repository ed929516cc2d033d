// Two data lines that are one: whatever is written, both come back alike, as the low one of the two has it or the high one.
import type { MemoryWord } from "./memory-word";

/** Words that came back wrong, at least. */
const LEAST_WRONG = 2;
/** Data lines looked at. */
const MOST_LINES = 16;

/** Whether such a pair of lines explains the word. */
type Explains = (word: MemoryWord) => boolean;

const both =
  (a: number, b: number, wins: 0 | 1): Explains =>
  ({ wrote, read }) => {
    const bit = (word: number, line: number): number => Math.floor(word / 2 ** line) % 2;
    const [one, other] = [bit(wrote, a), bit(wrote, b)];
    const is = wins === 0 ? Math.min(one, other) : Math.max(one, other);
    const meant = wrote + (is - one) * 2 ** a + (is - other) * 2 ** b;
    return read === meant;
  };

/**
 * The two data lines, counted from 0, that explain every word of a memory test, right ones and wrong ones; undefined where
 * none do, more than one pair does, or both did not come back wrong.
 */
export function joinedDataLines(words: readonly MemoryWord[]): readonly [number, number] | undefined {
  const wrong = words.filter(({ wrote, read }) => wrote !== read);
  if (wrong.length < LEAST_WRONG) return undefined;
  const off = wrong.reduce((bits, { wrote, read }) => bits | (wrote ^ read), 0);
  const lines = Array.from({ length: MOST_LINES }, (_, line) => line).filter((line) => (off >> line) & 1);
  const [a, b, more] = lines;
  if (a === undefined || b === undefined || more !== undefined) return undefined;
  return ([0, 1] as const).some((wins) => words.every(both(a, b, wins))) ? [a, b] : undefined;
}
