// Which data lines each memory chip of a board serves: as the board file lists them, else from the nets of its data bus.
import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import type { Library } from "../../knowledge/library";
import type { Board, Net } from "../../knowledge/types";
import type { MemoryChip } from "./failing-bits";

/** "D3", "DB3", "DATA3". */
const DATA_NET = /^D(?:B|ATA)?_?(\d{1,2})$/i;
const ADDRESS_NET = /^A(?:B|DDR)?_?(\d{1,2})$/i;

/** Read-write memories only: what a ROM set names holds a program. Chips of odd widths are left out. */
export const memoryChips = memo((board: Board, library: Library): readonly MemoryChip[] => {
  const listed = board.memory.flatMap(({ ref, data, range }) => chipOf(ref, data, range));
  const named = new Set(board.memory.map(({ ref }) => ref));
  const programs = new Set([...board.romSets.values()].flatMap(({ images }) => images.map(({ ref }) => ref)));
  const traced = [...board.parts.values()].flatMap((part) => {
    const device = part.device === undefined ? undefined : library.device(part.device)?.device;
    if (device?.kind !== "memory" || named.has(part.ref) || programs.has(part.ref)) return [];
    return chipOf(part.ref, linesOf(board, part.ref, DATA_NET));
  });
  return [...listed, ...traced];
});

function chipOf(ref: string, lines: readonly number[], range?: MemoryChip["range"]): readonly MemoryChip[] {
  const width = lines.length;
  return width === 1 || width === 4 || width === 8 ? [defined({ ref, width, lines, range })] : [];
}

/** How many address lines reach the chip; 0 where the board file does not say. */
export const addressLinesOf = (board: Board, ref: string): number => linesOf(board, ref, ADDRESS_NET).length;

/** The net of an address line, by its name. */
export const addressNet = (board: Board, line: number): Net | undefined =>
  [...board.nets.values()].find(({ name }) => Number(ADDRESS_NET.exec(name)?.[1] ?? -1) === line);

function linesOf(board: Board, ref: string, pattern: RegExp): readonly number[] {
  const lines = new Set<number>();
  for (const { name, pins } of board.nets.values()) {
    const line = pattern.exec(name)?.[1];
    if (line !== undefined && pins.some((pin) => pin.ref === ref)) lines.add(Number(line));
  }
  return [...lines].sort((a, b) => a - b);
}
