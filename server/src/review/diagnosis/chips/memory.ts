// A memory test as the diagnosis takes it: bits that fail at many addresses, chips that fail whole, places that are one
// place because an address line is; and chips that passed where they stand.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import { memoryChips } from "../../../compute/memory/chips";
import type { MemoryChip } from "../../../compute/memory/failing-bits";
import { joinedDataLines } from "../../../compute/memory/joined-lines";
import type { LogContext } from "../../../judge/context";
import { partTestPoint } from "../../../judge/test-point";
import type { Board } from "../../../knowledge/types";
import type { LogTable, Reading } from "../../../log/model";
import { type FailingRow, failingRow, type MemoryRow, memoryRows, memoryWords } from "../../memory/from-log";
import type { Observation } from "../observation";
import { addressGroup, addressLine } from "./addresses";

export function memoryObservations(table: LogTable, ctx: LogContext): Observation[] {
  const board = ctx.board?.value;
  if (!board) return [];
  const chips = memoryChips(board, ctx.library);
  const rows = memoryRows(table);
  const failing = rows.flatMap((row) => failingRow(row, chips) ?? []);
  const [at] = rows.flatMap((row) => [...row.at.values()].slice(0, 1));
  if (!at) return [];
  const joined = joinedLines(rows, chips, board);
  if (joined) return [{ ...joined, ...placeAt(at) }];
  const line = addressLine(table, rows, chips, board);
  if (line) return [{ ...line, ...placeAt(at) }];
  const group = addressGroup(rows, chips, board);
  if (group) return [{ ...group, ...placeAt(at) }];
  return [
    ...(wholeBank(failing, table, at) ?? byBits(failing, table, board)),
    ...byName(rows, failing, table, board, ctx),
  ];
}

/** Two data lines that come back alike, whatever was written. */
function joinedLines(
  rows: readonly MemoryRow[],
  chips: readonly MemoryChip[],
  board: Board,
): Omit<Observation, "table" | "span"> | undefined {
  const lines = joinedDataLines(memoryWords(rows));
  if (!lines) return undefined;
  const wanted = new Set(lines.map((line) => `D${line}`));
  const nets = [...board.nets.values()].flatMap(({ name, pins }) =>
    isData(name, wanted) && pins.some(({ ref }) => chips.some((chip) => chip.ref === ref)) ? [name] : [],
  );
  if (nets.length !== 2) return undefined;
  const of = nets.join(" and ");
  return {
    key: "memory joined lines",
    what: of,
    refs: [],
    finding: {
      kind: "sign",
      sign: "lines-joined",
      nets,
      of: `the memory test at ${of}`,
      says: `${of} always read the same, and were written otherwise.`,
    } satisfies SignFinding,
  };
}

/** Chips at least that make a bank, of which each fails wherever one does. */
const BANK_CHIPS = 4;

/** Chips of few bits that fail together at every place: what they share. */
function wholeBank(failing: readonly FailingRow[], table: LogTable, at: Reading): Observation[] | undefined {
  const refs = [...new Set(failing.flatMap(({ chips }) => chips.map(({ ref }) => ref)))];
  const isAll = failing.every(
    ({ chips, lines }) =>
      chips.length === refs.length && chips.every((chip) => chip.lines.every((line) => lines.includes(line))),
  );
  if (refs.length < BANK_CHIPS || failing.length < 2 || !isAll) return undefined;
  const whose = refs.join(", ");
  return [
    {
      ...observation(table, "bank"),
      ...placeAt(at),
      refs: refs.map((ref) => ref.toUpperCase()),
      finding: {
        kind: "sign",
        sign: "memory-bank",
        refs,
        of: `the memory test of ${whose}`,
        says: `${whose} fail together at every bit of ${failing.length} addresses.`,
      },
    },
  ];
}

const placeAt = (reading: Reading) => ({ table: reading.table, span: reading.cell.span });

/** Bits by chip, with how many addresses show each. */
function byBits(failing: readonly FailingRow[], table: LogTable, board: Board): Observation[] {
  const byChip = new Map<
    string,
    { readonly rows: FailingRow[]; readonly bits: Set<number>; chip: MemoryChip }
  >();
  for (const row of failing) {
    for (const chip of row.chips) {
      const known = byChip.get(chip.ref) ?? { rows: [], bits: new Set<number>(), chip };
      byChip.set(chip.ref, known);
      known.rows.push(row);
      for (const bit of row.lines) if (chip.lines.includes(bit)) known.bits.add(bit);
    }
  }
  return [...byChip].flatMap(([ref, { rows, bits, chip }]): Observation[] => {
    const [at] = [...(rows[0]?.row.at.values() ?? [])];
    if (!at) return [];
    const lines = [...bits].sort((a, b) => a - b);
    const isSilent = readsOnes(rows, chip);
    const isWhole = isSilent || (lines.length === chip.lines.length && chip.lines.length > 1);
    const times = new Set(rows.map(({ row }) => row.address ?? row.row.index)).size;
    const nets = isWhole ? [] : netsOfBits(chip, lines, board);
    const where = isSilent
      ? "every bit that should be 0, as a bus that nothing drives"
      : isWhole
        ? "every bit"
        : lines.map((bit) => `D${bit}`).join(", ");
    return [
      {
        ...observation(table, ref),
        ...placeAt(at),
        finding: defined<SignFinding>({
          kind: "sign",
          sign: times > 1 || isSilent ? (isWhole ? "memory-chip" : "memory-bits") : "memory-bit-once",
          refs: [ref],
          nets: nets.length > 0 ? nets : undefined,
          of: `${ref}'s memory test`,
          says: `${ref} fails its memory test at ${where}, ${times === 1 ? "at one address" : `at ${times} addresses`}.`,
        }),
      },
    ];
  });
}

/** Whatever was written all ones come back: it is not its cells, it does not answer. */
function readsOnes(rows: readonly FailingRow[], { lines }: MemoryChip): boolean {
  return (
    lines.length > 1 &&
    rows.every(({ row: { wrote, read }, lines: failing }) => {
      if (wrote === undefined || read === undefined) return false;
      // A row may give the chip's own few bits, or the whole bus.
      const from = Math.max(wrote, read) < 2 ** lines.length ? Math.min(...lines) : 0;
      const bit = (value: number, line: number): number => Math.floor(value / 2 ** (line - from)) % 2;
      const zeros = lines.filter((line) => bit(wrote, line) === 0);
      const isAllOnes = lines.every((line) => bit(read, line) === 1);
      return isAllOnes && zeros.length > 1 && zeros.every((line) => failing.includes(line));
    })
  );
}

/** Nets of the chip's pins whose names end with the number of its own bit. */
function netsOfBits(chip: MemoryChip, lines: readonly number[], board: Board): readonly string[] {
  const wanted = new Set(lines.map((line) => `D${line}`));
  return [...board.nets.values()].flatMap(({ name, pins }) =>
    pins.some(({ ref }) => ref.toUpperCase() === chip.ref.toUpperCase()) && isData(name, wanted)
      ? [name]
      : [],
  );
}

const isData = (name: string, wanted: ReadonlySet<string>): boolean =>
  wanted.has(name.toUpperCase().replace(/^(?:[A-Z]*_)?(?:DATA|BD|DB|D)_?(\d+).*$/, "D$1"));

const observation = (table: LogTable, ref: string) => ({
  key: `${table.procedure.id} ${ref}`.toUpperCase(),
  what: `${ref}'s memory test`,
  refs: [ref.toUpperCase()],
});

/** Chips that the rows name without figures: failed, or passed. */
function byName(
  rows: readonly MemoryRow[],
  failing: readonly FailingRow[],
  table: LogTable,
  board: Board,
  ctx: LogContext,
): Observation[] {
  const told = new Set(failing.flatMap(({ chips }) => chips.map(({ ref }) => ref.toUpperCase())));
  const found = new Map<string, Observation>();
  for (const { ref: typed, ok, at } of rows) {
    const [reading] = at.values();
    if (typed === undefined || !reading || ok === undefined) continue;
    const ref = partTestPoint(typed, board, ctx.library).part?.ref;
    if (ref === undefined || told.has(ref.toUpperCase()) || found.get(ref)?.finding) continue;
    found.set(ref, {
      ...observation(table, ref),
      ...placeAt(reading),
      ...(ok
        ? { against: [{ ref, by: "memory-pass" as const }] }
        : {
            finding: {
              kind: "sign" as const,
              sign: "memory-chip" as const,
              refs: [ref],
              of: `${ref}'s memory test`,
              says: `${ref} fails its memory test.`,
            },
          }),
    });
  }
  return [...found.values()];
}
