import { type AddressTest, addressFaults, MOST_TESTED_LINES } from "../compute/memory/address-lines";
import { addressLinesOf, addressNet, memoryChips } from "../compute/memory/chips";
import type { MemoryChip } from "../compute/memory/failing-bits";
import { sayHex } from "../compute/memory/hex";
import { netText } from "../compute/nets/net-text";
import type { Board } from "../knowledge/types";
import type { LogTable } from "../log/model";
import { patternIn } from "../review/memory/address-from-log";
import { type FailingRow, failingRow, type MemoryRow, memoryRows, wordsOf } from "../review/memory/from-log";
import { blockCheck, type Draft } from "./check";
import { exampleLog } from "./example-board";

export default blockCheck({
  code: "memory-chip-suspect",
  title: "A memory chip or an address line that the failing bits point to",
  severity: "warning",
  scope: "block",
  why: "The bits that come back wrong name the data lines, and those name the chip. Errors that repeat at a distance in the address are an address line instead, which no chip will mend.",
  remedy:
    "Reseat the chip and look at its data lines before replacing it. Where all chips of a bank fail, look first at what they share: select, write line, supply and buffer.",
  examples: {
    bad: [
      exampleLog(`## Memory test

| Address | Wrote | Read | Result |
|---------|-------|------|--------|
| 0000    | 55    | 55   | pass   |
| 0001    | AA    | 8A   | fail   |
                    ^^ memory-chip-suspect: U33 serves D5
`),
      exampleLog(`## Memory test

| Ref | Failing bits | Result |
|-----|--------------|--------|
| U32 | 1, 3         | fail   |
        ^^^^ memory-chip-suspect: U32 serves D1, D3
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
    if (span) yield { span, severity: "information", message: line };
  } else {
    const pattern = patternIn(table, chips);
    const [first] = pattern?.rows ?? [];
    const cell = first?.at.get("address")?.cell;
    if (pattern && cell)
      yield {
        span: cell.span,
        severity: "information",
        message: `${pattern.sentence}${netsOf(board, pattern.lines)}`,
      };
  }
  const said = new Set<string>();
  for (const found of failing) {
    const span = spanOf(found);
    if (!span) continue;
    if (found.contradiction !== undefined) yield { span, message: found.contradiction };
    const message = sentenceOf(found, failing);
    const key = `${found.chips.map(({ ref }) => ref).join()} ${found.lines.join()}`;
    // The first of the rows that say the same stands for all.
    if (message === undefined || said.has(key)) continue;
    said.add(key);
    yield { span, message };
  }
}

const spanOf = ({ row }: { readonly row: MemoryRow }) =>
  (row.at.get("read") ?? row.at.get("bits") ?? row.at.get("result"))?.cell.span;

function sentenceOf(found: FailingRow, all: readonly FailingRow[]): string | undefined {
  const { row, chips, unserved } = found;
  const names = (lines: readonly number[]) => lines.map((line) => `D${line}`).join(", ");
  if (chips.length === 0) {
    if (row.ref === undefined || unserved.length === 0) return undefined;
    return `${names(unserved)} came back wrong, and no memory chip the board file knows at ${row.ref} serves ${unserved.length === 1 ? "it" : "them"}. Look at the data buffer and the bus, or add the chip to \`memory\` in the board file.`;
  }
  const like = all.filter(
    (other) => other.chips[0] === chips[0] && other.lines.join() === found.lines.join(),
  );
  const more =
    like.length > 1 ? `, and so in ${like.length - 1} more ${like.length === 2 ? "row" : "rows"}` : "";
  const at = row.address === undefined ? "" : ` at ${sayHex(row.address, 4)}`;
  const saw =
    row.wrote === undefined || row.read === undefined
      ? ""
      : `:${at} ${sayHex(row.wrote, 1)} was written and ${sayHex(row.read, 1)} read`;
  const parts = chips.map((chip) => {
    const lines = found.lines.filter((line) => chip.lines.includes(line));
    const every =
      chip.width > 1 && lines.length === chip.width
        ? " All its bits fail: look at its select, write and supply pins first."
        : "";
    return { text: `${chip.ref} serves ${names(lines)}, which came back wrong`, every };
  });
  const which =
    parts.length > 1 ? " More than one chip is there: the address or the designator tells them apart." : "";
  const strange =
    unserved.length > 0 ? ` ${names(unserved)} is not on ${chips.map(({ ref }) => ref).join(" or ")}.` : "";
  return `${parts.map(({ text }) => text).join("; ")}${saw}${more}. Reseat, look at the data lines, then replace.${parts.map(({ every }) => every).join("")}${which}${strange}`;
}

/** " A9 is net A9 (U1.18, U7.15)." for each line the board file has a net for. */
function netsOf(board: Board, lines: readonly number[]): string {
  const nets = lines.flatMap((line) => {
    const net = addressNet(board, line);
    return net ? [`A${line} is ${netText(net)}`] : [];
  });
  return nets.length > 0 ? ` ${nets.join("; ")}.` : "";
}

/** Two places that read each other's data are the least that speaks for an address line and not for chance. */
const FEWEST = 2;

function addressLine(
  rows: readonly MemoryRow[],
  chips: readonly MemoryChip[],
  board: Board,
): string | undefined {
  const words = wordsOf(rows);
  const most = Math.max(0, ...words.map(({ address }) => address));
  const wired = Math.max(0, ...chips.map(({ ref }) => addressLinesOf(board, ref)));
  const lines = Math.min(MOST_TESTED_LINES, wired || Math.max(1, most.toString(2).length));
  const test: AddressTest = { lines, words };
  const report = words.length < 2 ? undefined : addressFaults(test);
  if (!report?.ok) return undefined;
  const [best] = report.suspects;
  return best && best.explains >= FEWEST ? report.sentence : undefined;
}
