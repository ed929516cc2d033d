// Places of a memory test that are one place: the address line, or the lines of one multiplexer, that have no say.

import { addressFaults } from "../../../compute/memory/address-lines";
import type { MemoryChip } from "../../../compute/memory/failing-bits";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board } from "../../../knowledge/types";
import type { LogTable } from "../../../log/model";
import { patternIn } from "../../memory/address-from-log";
import { failingRow, type MemoryRow, memoryWords } from "../../memory/from-log";
import type { Observation } from "../observation";

/** Lines of the largest memory that is read pass by pass here. */
const MOST_LINES = 12;

/** One address line that explains the places that fail: two addresses that are one, or all that have it high. */
export function addressLine(
  table: LogTable,
  rows: readonly MemoryRow[],
  chips: readonly MemoryChip[],
  board: Board,
): Omit<Observation, "table" | "span"> | undefined {
  const words = memoryWords(rows);
  const wrong = words.filter(({ wrote, read }) => wrote !== read);
  const failed = rows.filter((row) => failingRow(row, chips) !== undefined);
  const of = [...new Set(failed.flatMap((row) => failingRow(row, chips)?.chips ?? []))];
  const report = wrong.length >= 2 ? addressFaults({ lines: MOST_LINES, words }) : undefined;
  const all = report?.ok ? report.suspects : [];
  const most = Math.max(0, ...all.map(({ explains }) => explains));
  const equal = all.filter(({ explains }) => explains === most);
  // Of a line that stands still and of pairs that are joined the one line is the likelier.
  const stuck = equal.filter(({ fault }) => fault.kind === "stuck");
  const [best, second] = stuck.length === 1 ? stuck : equal;
  const sure = best && best.explains >= 2 && !second ? best : undefined;
  // The same bit wrong everywhere is that bit, whatever the addresses are.
  const same = new Set(wrong.map(({ wrote, read }) => wrote ^ read));
  const pattern = sure || (wrong.length >= 2 && same.size === 1) ? undefined : patternIn(table, chips);
  const byData = addressAsData(rows);
  const partnered = lineToPartner(rows);
  const numbers =
    sure?.fault.kind === "stuck"
      ? [sure.fault.line]
      : sure
        ? [...(sure.fault as { lines: readonly number[] }).lines]
        : byData.length === 1
          ? byData
          : partnered.length === 1
            ? partnered
            : pattern?.lines.length === 1 && pattern.rows.length > 3
              ? pattern.lines
              : [];
  const nets = numbers.flatMap((number) => addressNet(number, of.length > 0 ? of : chips, board) ?? []);
  if (nets.length === 0) return undefined;
  const refs = of.map(({ ref }) => ref);
  const named = numbers.map((number) => `A${number}`).join(" and ");
  return {
    key: `${table.procedure.id} address`.toUpperCase(),
    what: `address line ${named}`,
    refs: [],
    finding: {
      kind: "sign",
      sign: "address-line",
      nets,
      refs,
      of: `the memory test at ${named}`,
      says: `The places that fail are those that ${named} tells apart.`,
    },
  };
}

/**
 * Several lines that have no say: what each failing place holds was written last to a partner that differs in these
 * alone. A multiplexer or a strobe that does not get through does that, and no chip.
 */
export function addressGroup(
  rows: readonly MemoryRow[],
  chips: readonly MemoryChip[],
  board: Board,
): Omit<Observation, "table" | "span"> | undefined {
  const words = memoryWords(rows);
  const wrong = words.filter(({ wrote, read }) => wrote !== read);
  const single = linesToPartners(rows);
  const lines = single.length > 1 ? single : linesOfAliases(words, wrong);
  const nets = lines.flatMap((line) => addressNet(line, chips, board) ?? []);
  if (lines.length < 2 || nets.length < lines.length) return undefined;
  const named = lines.map((line) => `A${line}`).join(", ");
  return {
    key: "memory address group",
    what: `address lines ${named}`,
    refs: [],
    finding: {
      kind: "sign",
      sign: "address-group",
      nets,
      refs: chips.map(({ ref }) => ref),
      of: `the memory test at ${named}`,
      says: `${named} have no say in where a word lands.`,
    },
  };
}

/** All lines by which failing places differ from the one place each that was given what they hold. */
function linesOfAliases(words: readonly Word[], wrong: readonly Word[]): readonly number[] {
  if (wrong.length < LEAST_ALIASES) return [];
  let mask = 0;
  for (const { address, read } of wrong) {
    const partners = words.filter(
      (one) => one.address !== address && one.wrote === read && one.read === read,
    );
    const [partner, second] = partners;
    if (!partner || second) return [];
    mask |= address ^ partner.address;
  }
  return Array.from({ length: 16 }, (_, line) => line).filter((line) => (mask >> line) & 1);
}

type Word = ReturnType<typeof memoryWords>[number];

/** Failing places that hold what was written to another, at least. */
const LEAST_ALIASES = 3;

/**
 * Each place was written with its own address, and holds that of another: the line that differs. The bit of the data may
 * be it as well, and what else was read tells them apart.
 */
function addressAsData(rows: readonly MemoryRow[]): readonly number[] {
  const wrong = rows.flatMap(({ address, wrote, read }) =>
    address !== undefined && wrote !== undefined && read !== undefined && wrote !== read
      ? [{ address, wrote, read }]
      : [],
  );
  // Of its address the lower byte, or the upper one.
  for (const first of [0, 8]) {
    // A place that was overwritten from the other one may hold anything.
    const lines = wrong
      .filter(({ address, wrote }) => wrote === (address >> first) % 256)
      .map(({ wrote, read }) => Math.log2(wrote ^ read))
      .filter(Number.isInteger);
    const [line] = lines;
    if (line !== undefined && lines.length >= 3 && lines.every((one) => one === line)) return [first + line];
  }
  return [];
}

const HEX = /\b(?:0x|\$)?([0-9a-f]{3,5})h?\b/gi;

/** "A to 0440, then read 0400". */
const WRITTEN_THERE = /\b(?:to|at|into|in)\s+(?:0x|\$)?[0-9a-f]{3,5}h?\b.*\bread\b/i;

/**
 * By which bits each failing place differs from the one whose word it holds, which the row's note names or which alone was given
 * that word; empty where that is not known of each.
 */
function partnerMasks(rows: readonly MemoryRow[]): readonly number[] {
  const wrong = rows.filter(
    ({ address, wrote, read }) =>
      address !== undefined && wrote !== undefined && read !== undefined && wrote !== read,
  );
  const masks = wrong.flatMap(({ address = 0, read, row }) => {
    const words = `${row.cells.note?.text ?? ""}; ${row.cells.item?.text ?? ""}`;
    const named = [...words.matchAll(HEX)]
      .map(([, digits = ""]) => Number.parseInt(digits, 16))
      .filter((other) => other !== address);
    const given = new Set(
      rows.flatMap((one) =>
        one.address !== undefined && one.address !== address && one.wrote === read ? one.address : [],
      ),
    );
    const [partner] = named.length === 1 ? named : given.size === 1 ? [...given] : [];
    if (partner === undefined) return [];
    // Named in so many words, and given what is read here.
    const isTold = WRITTEN_THERE.test(words) || (named.length === 1 && given.has(partner));
    return [{ mask: address ^ partner, isTold }];
  });
  // Written to one place and read from another is no chance even once.
  const least = masks.every(({ isTold }) => isTold) ? 1 : LEAST_PARTNERS;
  return masks.length >= least && masks.length === wrong.length ? masks.map(({ mask }) => mask) : [];
}

/** The one line by which they differ, where it is the same of all. */
function lineToPartner(rows: readonly MemoryRow[]): readonly number[] {
  const masks = partnerMasks(rows);
  const line = Math.log2(masks[0] ?? 0);
  return masks.every((one) => one === masks[0]) && Number.isInteger(line) ? [line] : [];
}

/** Single lines, each of which alone has no say. */
function linesToPartners(rows: readonly MemoryRow[]): readonly number[] {
  const lines = partnerMasks(rows).map((mask) => Math.log2(mask));
  return lines.every(Number.isInteger) ? [...new Set(lines)] : [];
}

const LEAST_PARTNERS = 2;

/** The net that the chips have on the pin of that address line. */
function addressNet(line: number, chips: readonly MemoryChip[], board: Board): string | undefined {
  const index = boardIndex(board);
  const plain = [...board.nets.keys()].find((name) =>
    new RegExp(`^(?:BA|AB|ADDR_?|A)_?${line}$`, "i").test(name),
  );
  if (plain !== undefined) return plain;
  for (const { ref } of chips) {
    for (const net of board.nets.values()) {
      if (
        new RegExp(`A_?${line}$`, "i").test(net.name) &&
        net.pins.some((pin) => pin.ref === index.part(ref)?.ref)
      )
        return net.name;
    }
  }
  return undefined;
}
