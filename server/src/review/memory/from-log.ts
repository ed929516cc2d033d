// A log's memory test rows as what failed where: the chip, its data lines, and the words where they were written down.

import { defined } from "../../base/defined";
import type { MemoryChip } from "../../compute/memory/failing-bits";
import { readBits, readHex, sayHex } from "../../compute/memory/hex";
import { bitsOf, type MemoryWord } from "../../compute/memory/memory-word";
import type { LogRow, LogTable, Reading } from "../../log/model";

/** One test of a memory as its row has it. Addresses and data are whole numbers; bits count from 0. */
export interface MemoryRow {
  readonly row: LogRow;
  /** The designator as typed, in capitals. */
  readonly ref?: string;
  readonly address?: number;
  readonly wrote?: number;
  readonly read?: number;
  /** Bits typed as failing. */
  readonly bits?: readonly number[];
  /** By the result's words; undefined where they leave it open. */
  readonly ok?: boolean;
  /** The readings of the row by measure: "address", "wrote", "read", "bits", "result". */
  readonly at: ReadonlyMap<string, Reading>;
}

/** Rows of a memory test; what cannot be read as hexadecimal or as bits is left out of its row. */
export function memoryRows(table: LogTable): readonly MemoryRow[] {
  const byRow = new Map<number, Map<string, Reading>>();
  for (const reading of table.readings) {
    const row = byRow.get(reading.row) ?? new Map<string, Reading>();
    byRow.set(reading.row, row);
    if (reading.value.kind !== "empty") row.set(reading.measure, reading);
  }
  return table.rows.flatMap((row): MemoryRow[] => {
    const at = byRow.get(row.index);
    if (!at || at.size === 0) return [];
    const hex = (measure: string) => readHex(at.get(measure)?.value.typed ?? "");
    const value = at.get("result")?.value;
    return [
      defined({
        row,
        ref: row.cells.ref?.text.toUpperCase(),
        address: hex("address"),
        wrote: hex("wrote"),
        read: hex("read"),
        bits: readBits(at.get("bits")?.value.typed ?? ""),
        ok: value?.kind === "result" ? value.ok : undefined,
        at,
      }),
    ];
  });
}

/** A row in which something came back wrong, brought to data lines and the chips on them. */
export interface FailingRow {
  readonly row: MemoryRow;
  /** Data lines of the board that came back wrong. */
  readonly lines: readonly number[];
  /** Chips that serve them there: one, or several where the log does not say which bank. */
  readonly chips: readonly MemoryChip[];
  /** Lines that no chip known serves there. */
  readonly unserved: readonly number[];
  /** The bits that differ and the bits typed, where they are not the same. */
  readonly contradiction?: string;
}

/**
 * What a row accuses; undefined where nothing failed or too little was written down. Where a chip is named and the
 * figures fit its width they are the chip's own bits, else the board's data lines.
 */
export function failingRow(row: MemoryRow, chips: readonly MemoryChip[]): FailingRow | undefined {
  const { wrote, read, bits, address } = row;
  const wrong = wrote === undefined || read === undefined ? undefined : bitsOf(wrote ^ read);
  const failing = wrong ?? bits ?? [];
  if (failing.length === 0) return undefined;
  const named = chips.find(({ ref }) => ref.toUpperCase() === row.ref);
  const own = named !== undefined && failing.every((bit) => bit < named.width) && isOwn(row, named);
  const lines = own ? failing.map((bit) => named.lines[bit]!) : failing;
  const here = named
    ? [named]
    : chips.filter(
        ({ range }) => !range || address === undefined || (address >= range.from && address <= range.to),
      );
  const serving = here.filter((chip) => chip.lines.some((line) => lines.includes(line)));
  const typed =
    bits && wrong && bits.join() !== wrong.join() ? contradiction(wrote!, read!, wrong, bits) : undefined;
  return defined({
    row,
    lines,
    chips: serving,
    unserved: lines.filter((line) => !serving.some((chip) => chip.lines.includes(line))),
    contradiction: typed,
  });
}

/** Figures no wider than the chip are the chip's own, unless a bit was typed by the number of its data line. */
const isOwn = ({ wrote, read }: MemoryRow, { width }: MemoryChip): boolean =>
  (wrote ?? 0) < 2 ** width && (read ?? 0) < 2 ** width;

const contradiction = (
  wrote: number,
  read: number,
  wrong: readonly number[],
  bits: readonly number[],
): string =>
  `${sayHex(wrote, 1)} and ${sayHex(read, 1)} differ in bit ${wrong.join(", ")}, but bit ${bits.join(", ")} is typed as failing: one of them is a slip.`;

/** The words of rows that name no chip, or the same one, for looking at address lines; each address once. */
export function memoryWords(rows: readonly MemoryRow[]): readonly MemoryWord[] {
  const words = new Map<number, MemoryWord>();
  for (const { address, wrote, read } of rows) {
    if (address === undefined || wrote === undefined || read === undefined || words.has(address)) continue;
    words.set(address, { address, wrote, read });
  }
  return [...words.values()];
}
