// From what was written and what came back to data lines, and from data lines to chips.
import type { Saying } from "../../text/saying";
import { type Result, refused } from "../result";
import { sayHex } from "./hex";
import {
  badWords,
  bitsOf,
  isWhole,
  type MemoryWord,
  MOST_ADDRESS_LINES,
  MOST_DATA_LINES,
} from "./memory-word";

/** A chip of the board's working memory, by the data lines that it serves. */
export interface MemoryChip {
  readonly ref: string;
  /** Data bits of the chip itself: 1 for a 4116, 4 for a 2114, 8 for a 6116. */
  readonly width: 1 | 4 | 8;
  /** The board's data line on each of the chip's own bits; as many as the width. */
  readonly lines: readonly number[];
  /** First and last address it answers to; absent where it is the only bank. */
  readonly range?: { readonly from: number; readonly to: number };
}

export interface BitFailure {
  /** Data line, from 0. */
  readonly line: number;
  readonly failures: number;
  /** What it read wherever it failed: always high, always low, or both. */
  readonly reads: "high" | "low" | "either";
}

export interface ChipFailure {
  readonly ref: string;
  readonly lines: readonly number[];
  /** Places at which one of its lines failed. */
  readonly failures: number;
  readonly says: Saying;
}

export interface BitReport {
  readonly ok: true;
  readonly bits: readonly BitFailure[];
  /** Those with most failures first. */
  readonly chips: readonly ChipFailure[];
  /** Failing data lines that no chip given serves at the failing address. */
  readonly unserved: readonly number[];
  /** Said for each bank of several chips that all fail: look at what they share first. */
  readonly shared: readonly string[];
  /** Words that read back as written; no proof of the chip. */
  readonly agreeing: number;
  readonly source: string;
}

/** Which data lines fail and which chips they belong to. Refuses chips and words that cannot be. */
export function failingBits(chips: readonly MemoryChip[], words: readonly MemoryWord[]): Result<BitReport> {
  const bad = badWords(words) ?? refused(...chips.map(badChip));
  if (bad) return bad;
  const failing = words.filter(({ wrote, read }) => wrote !== read);
  const bits = linesOf(failing);
  const byChip = chips.map((chip) => ({
    chip,
    hits: failing.flatMap((word) => {
      const lines = serves(chip, word) ? wrongLines(word).filter((line) => chip.lines.includes(line)) : [];
      return lines.length > 0 ? [{ word, lines }] : [];
    }),
  }));
  const unserved = failing.flatMap((word) =>
    wrongLines(word).filter((line) => !chips.some((chip) => serves(chip, word) && chip.lines.includes(line))),
  );
  const found = byChip
    .filter(({ hits }) => hits.length > 0)
    .map(({ chip, hits }): ChipFailure => {
      const lines = ascending(hits.flatMap((hit) => hit.lines));
      return { ref: chip.ref, lines, failures: hits.length, says: chipSaying(chip, lines, hits) };
    });
  return {
    ok: true,
    bits,
    chips: found.sort((a, b) => b.failures - a.failures),
    unserved: ascending(unserved),
    shared: sharedCauses(chips, found),
    agreeing: words.length - failing.length,
    source: "exclusive or of written and read; the chips by the board's drawing",
  };
}

const ascending = (numbers: readonly number[]): readonly number[] =>
  [...new Set(numbers)].sort((a, b) => a - b);

const wrongLines = ({ wrote, read }: MemoryWord): readonly number[] => bitsOf(wrote ^ read);

const serves = ({ range }: MemoryChip, { address }: MemoryWord): boolean =>
  range === undefined || (address >= range.from && address <= range.to);

function badChip({ ref, width, lines, range }: MemoryChip): string | undefined {
  if (width !== 1 && width !== 4 && width !== 8) return `${ref} is ${width} bits wide; a chip has 1, 4 or 8.`;
  if (lines.length !== width) {
    return `${ref} is ${width} ${width === 1 ? "bit" : "bits"} wide, but ${lines.length} data lines are given for it.`;
  }
  const line = lines.find((at) => !Number.isInteger(at) || at < 0 || at >= MOST_DATA_LINES);
  if (line !== undefined) return `${ref} is said to serve data line ${line}; they run from 0 to 15.`;
  if (new Set(lines).size !== lines.length) return `${ref} is said to serve one data line twice.`;
  if (range === undefined) return undefined;
  const whole = isWhole(range.from, MOST_ADDRESS_LINES) && isWhole(range.to, MOST_ADDRESS_LINES);
  return whole && range.from <= range.to
    ? undefined
    : `The addresses of ${ref} run from ${range.from} to ${range.to}, which is no range.`;
}

function linesOf(failing: readonly MemoryWord[]): readonly BitFailure[] {
  const lines = ascending(failing.flatMap(wrongLines));
  return lines.map((line) => {
    const on = failing.filter((word) => wrongLines(word).includes(line));
    const high = on.filter(({ read }) => (read >>> line) & 1).length;
    return {
      line,
      failures: on.length,
      reads: high === on.length ? "high" : high === 0 ? "low" : "either",
    };
  });
}

function chipSaying(
  { ref, width }: MemoryChip,
  lines: readonly number[],
  hits: readonly { readonly word: MemoryWord }[],
): Saying {
  const { address, wrote, read } = hits[0]!.word;
  const names = lines.map((line) => `D${line}`).join(", ");
  const places = hits.length === 1 ? "" : `, and ${hits.length - 1} more like it`;
  const whole = width > 1 && lines.length === width;
  return {
    fact: `${ref} fails on ${names}: ${sayHex(wrote, 2)} written at ${sayHex(address, 4)}, ${sayHex(read, 2)} read${places}.`,
    cause: whole ? "All its bits fail: its select, write or supply may be missing." : undefined,
    step: whole
      ? "Check its own select, write and supply pins before you replace it."
      : "Reseat it, check its data lines, then replace it.",
  };
}

/** Several chips of a bank rarely die together; what selects, writes and feeds them all is one part. */
function sharedCauses(chips: readonly MemoryChip[], failing: readonly ChipFailure[]): readonly string[] {
  const banks = new Map<string, MemoryChip[]>();
  for (const chip of chips) {
    const bank = chip.range ? `${chip.range.from} ${chip.range.to}` : "";
    banks.set(bank, [...(banks.get(bank) ?? []), chip]);
  }
  const fails = new Set(failing.map(({ ref }) => ref));
  return [...banks.values()]
    .filter((bank) => bank.length > 1 && bank.every(({ ref }) => fails.has(ref)))
    .map(
      (bank) =>
        `All chips of the bank fail (${bank.map(({ ref }) => ref).join(", ")}). Check what they share first: chip select, write line, supply, address lines and the data buffer (common practice, no source).`,
    );
}
