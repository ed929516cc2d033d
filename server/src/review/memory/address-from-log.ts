// The failing addresses of a memory test table, where they were noted without the data: what they have in common.

import { addressPattern } from "../../compute/memory/address-pattern";
import type { MemoryChip } from "../../compute/memory/failing-bits";
import { sayHex } from "../../compute/memory/hex";
import type { LogTable } from "../../log/model";
import type { Saying } from "../../text/saying";
import { type MemoryRow, memoryRows } from "./from-log";

export interface LoggedPattern {
  /** The rows that fail, in the order of the table. */
  readonly rows: readonly MemoryRow[];
  /** Address lines, lowest first. */
  readonly lines: readonly number[];
  readonly says: Saying;
}

/** True, false, or undefined where the row leaves it open. */
const failed = ({ wrote, read, bits, ok }: MemoryRow): boolean | undefined =>
  wrote !== undefined && read !== undefined
    ? wrote !== read
    : bits !== undefined && bits.length > 0
      ? true
      : ok === undefined
        ? undefined
        : !ok;

/**
 * What the failing addresses of a table agree on, within the range its chips answer to, else the range noted. Undefined
 * where there are too few, where they agree on nothing, or where an address that passed agrees as well.
 */
export function patternIn(table: LogTable, chips: readonly MemoryChip[]): LoggedPattern | undefined {
  const rows = memoryRows(table).filter(({ address }) => address !== undefined);
  const failing = rows.filter((row) => failed(row));
  const places = failing.flatMap(({ address }) => address ?? []);
  if (places.length === 0) return undefined;
  const named = new Set(failing.flatMap(({ ref }) => ref ?? []));
  const ranges = chips.flatMap(({ ref, range }) =>
    range && (named.size === 0 || named.has(ref.toUpperCase())) ? [range] : [],
  );
  const noted = rows.flatMap(({ address }) => address ?? []);
  const from = Math.min(...ranges.map((range) => range.from), ...noted);
  const to = Math.max(...ranges.map((range) => range.to), ...noted);
  const pattern = addressPattern(places, { from, to });
  if (!pattern.ok || pattern.common.length === 0) return undefined;
  const fits = (address: number): boolean =>
    pattern.common.every(({ line, level }) => ((address >>> line) & 1) === (level === "high" ? 1 : 0));
  const passed = rows.filter((row) => failed(row) === false).flatMap(({ address }) => address ?? []);
  if (passed.some(fits)) return undefined;
  const others =
    passed.length > 0 ? `None of the ${passed.length} addresses that passed is like that.` : undefined;
  return {
    rows: failing,
    lines: pattern.common.map(({ line }) => line),
    says: { ...pattern.says, cause: others, more: `Tested: ${sayHex(from, 4)} to ${sayHex(to, 4)}.` },
  };
}
