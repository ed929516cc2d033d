import { type AddressTest, addressFaults, MOST_TESTED_LINES } from "../compute/memory/address-lines";
import { addressLinesOf, addressNet, memoryChips } from "../compute/memory/chips";
import type { MemoryChip } from "../compute/memory/failing-bits";
import { sayHex } from "../compute/memory/hex";
import { netText } from "../compute/nets/net-text";
import type { Board } from "../knowledge/types";
import type { LogTable } from "../log/model";
import { patternIn } from "../review/memory/address-from-log";
import {
  type FailingRow,
  failingRow,
  type MemoryRow,
  memoryRows,
  memoryWords,
} from "../review/memory/from-log";
import type { Saying } from "../text/saying";
import { blockCheck, type Draft } from "./check";
import { exampleLog } from "./example-board";

export default blockCheck({
  code: "memory-chip-suspect",
  title: "A memory chip or an address line that the failing bits point to",
  severity: "warning",
  scope: "block",
  why: "The bits that come back wrong name the data lines, and those name the chip. Errors that repeat at a distance in the address are an address line instead, which no new chip will cure.",
  remedy:
    "Reseat the chip and look at its data lines before replacing it. Where all chips of a bank fail, look first at what they share: select, write line, supply and buffer.",
  examples: {
    bad: [
      exampleLog(`## Memory test

| Address | Wrote | Read | Result |
|---------|-------|------|--------|
| 0000    | 55    | 55   | pass   |
| 0001    | AA    | 8A   | fail   |
                    ^^ memory-chip-suspect: U33 fails on D5: AA written at 0001, 8A read
`),
      exampleLog(`## Memory test

| Ref | Failing bits | Result |
|-----|--------------|--------|
| U32 | 1, 3         | fail   |
        ^^^^ memory-chip-suspect: U32 fails on D1, D3
| U33 | 4, 9         | fail   |
        ^^^^ memory-chip-suspect: D9 is not on U33
`),
      exampleLog(`## Memory test

| Address | Result |
|---------|--------|
| 0000    | pass   |
| 0100    | fail   |
  ^^^^ memory-chip-suspect: All 8 failing addresses have A8 high
| 0121    | fail   |
| 0342    | fail   |
| 0163    | fail   |
| 0384    | fail   |
| 01A9    | fail   |
| 03C6    | fail   |
| 01F7    | fail   |
| 02FF    | pass   |
`),
    ],
    good: [
      exampleLog(`## Memory test

| Ref | Address | Wrote | Read | Result |
|-----|---------|-------|------|--------|
| U32 | 0000    | 5     | 5    | pass   |
| U33 | 03FF    | A     | A    | pass   |
`),
    ],
  },
  *run(input) {
    const board = input.ctx.board?.value;
    if (!board) return;
    const chips = memoryChips(board, input.ctx.library);
    for (const table of input.block.tables) {
      if (table.kind.holds === "memory") yield* inTable(table, chips, board);
    }
  },
  noFix: "What was read is what was read; the fault is on the board.",
});

function* inTable(table: LogTable, chips: readonly MemoryChip[], board: Board): Iterable<Draft> {
  const rows = memoryRows(table);
  const failing = rows.flatMap((row) => failingRow(row, chips) ?? []);
  const line = addressLine(rows, chips, board);
  if (line) {
    const span = spanOf(failing[0] ?? { row: rows[0]! });
    if (span) yield { span, severity: "information", ...line };
  } else {
    const pattern = patternIn(table, chips);
    const [first] = pattern?.rows ?? [];
    const cell = first?.at.get("address")?.cell;
    if (pattern && cell)
      yield {
        span: cell.span,
        severity: "information",
        ...pattern.says,
        more: [pattern.says.more, netsOf(board, pattern.lines)].filter(Boolean).join(" "),
      };
  }
  const said = new Set<string>();
  // Counted once: a table of thousands of rows would else be gone through for each of them.
  const alike = new Map<string, number>();
  for (const found of failing) alike.set(likeness(found), (alike.get(likeness(found)) ?? 0) + 1);
  for (const found of failing) {
    const span = spanOf(found);
    if (!span) continue;
    if (found.contradiction !== undefined) yield { span, fact: found.contradiction };
    const key = `${found.chips.map(({ ref }) => ref).join()} ${found.lines.join()}`;
    // The first of the rows that say the same stands for all.
    const says = said.has(key) ? undefined : sayingOf(found, alike.get(likeness(found)) ?? 1);
    if (says === undefined) continue;
    said.add(key);
    yield { span, ...says };
  }
}

const spanOf = ({ row }: { readonly row: MemoryRow }) =>
  (row.at.get("read") ?? row.at.get("bits") ?? row.at.get("result"))?.cell.span;

/** Rows of one likeness say the same of the same chip. */
const likeness = ({ chips, lines }: FailingRow): string => `${chips[0]?.ref ?? ""} ${lines.join()}`;

function sayingOf(found: FailingRow, like: number): Saying | undefined {
  const { row, chips, unserved } = found;
  const names = (lines: readonly number[]) => lines.map((line) => `D${line}`).join(", ");
  if (chips.length === 0) {
    if (row.ref === undefined || unserved.length === 0) return undefined;
    return {
      fact: `${names(unserved)} came back wrong, and no known memory chip at ${row.ref} serves ${unserved.length === 1 ? "it" : "them"}.`,
      step: "Check the data buffer and the bus, or add the chip to `memory` in the board file.",
    };
  }
  const more = like > 1 ? `, and ${like - 1} more ${like === 2 ? "row" : "rows"} like it` : "";
  const at = row.address === undefined ? "" : ` at ${sayHex(row.address, 4)}`;
  const saw =
    row.wrote === undefined || row.read === undefined
      ? ""
      : `: ${sayHex(row.wrote, 1)} written${at}, ${sayHex(row.read, 1)} read`;
  const parts = chips.map((chip) => {
    const lines = found.lines.filter((line) => chip.lines.includes(line));
    return {
      text: `${chip.ref} fails on ${names(lines)}`,
      every: chip.width > 1 && lines.length === chip.width,
    };
  });
  const which =
    parts.length > 1
      ? "More than one chip is there: write the address or the designator to tell them apart."
      : undefined;
  const strange =
    unserved.length > 0
      ? `${names(unserved)} is not on ${chips.map(({ ref }) => ref).join(" or ")}.`
      : undefined;
  const whole = parts.some(({ every }) => every);
  return {
    fact: `${parts.map(({ text }) => text).join("; ")}${saw}${more}.`,
    cause: [
      whole ? "All bits of a chip fail: its select, write or supply may be missing." : undefined,
      which,
      strange,
    ]
      .filter(Boolean)
      .join(" "),
    step: whole
      ? "Check its select, write and supply pins first."
      : "Reseat it, check the data lines, then replace it.",
  };
}

/** "A9 is net A9 (U1.18, U7.15)." for each line the board file has a net for. */
function netsOf(board: Board, lines: readonly number[]): string | undefined {
  const nets = lines.flatMap((line) => {
    const net = addressNet(board, line);
    return net ? [`A${line} is ${netText(net)}`] : [];
  });
  return nets.length > 0 ? `${nets.join("; ")}.` : undefined;
}

/** Two places that read each other's data are the least that speaks for an address line and not for chance. */
const FEWEST = 2;

function addressLine(
  rows: readonly MemoryRow[],
  chips: readonly MemoryChip[],
  board: Board,
): Saying | undefined {
  const words = memoryWords(rows);
  const most = Math.max(0, ...words.map(({ address }) => address));
  const wired = Math.max(0, ...chips.map(({ ref }) => addressLinesOf(board, ref)));
  const lines = Math.min(MOST_TESTED_LINES, wired || Math.max(1, most.toString(2).length));
  const test: AddressTest = { lines, words };
  const report = words.length < 2 ? undefined : addressFaults(test);
  if (!report?.ok) return undefined;
  const [best] = report.suspects;
  return best && best.explains >= FEWEST ? report.says : undefined;
}
