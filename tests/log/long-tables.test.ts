// Long tables are read, judged and checked some rows at a time, and what is known of rows that stayed is kept. Whatever is typed,
// the findings are those of the same log opened just now with its tables read as a whole.
import fc from "fast-check";
import { describe, expect, test, vi } from "vitest";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { tablesOf } from "../../server/src/log/document";
import { Service } from "../../server/src/service";
import { createBlockCache, parseBlocks } from "../../server/src/syntax/blocks";
import { parseMarkdown } from "../../server/src/syntax/markdown";
import { joinedTree, wholeTree } from "../syntax/trees";

const cut = vi.hoisted(() => ({ isWhole: false }));
vi.mock("../../server/src/syntax/row-chunks", async (original) => {
  const own = await original<typeof import("../../server/src/syntax/row-chunks")>();
  return {
    ...own,
    chunksIn: (...args: Parameters<typeof own.chunksIn>) => (cut.isWhole ? undefined : own.chunksIn(...args)),
  };
});

const URI = "mem:/log.md";
const DEVICES = ["7404", "7400", "74LS244", "6116", "7474"];
const BOARD = `mendlog-board: 1
id: whole
title: Whole board
source: invented
rails:
  - { name: "+5V", nominal: 5 V, tolerance: 5% }
parts:
${Array.from({ length: 24 }, (_, i) => `  U${i + 1}: { device: "${DEVICES[i % DEVICES.length]}" }\n`).join("")}nets:
${Array.from({ length: 12 }, (_, i) => `  N${i}: [U${i + 1}.2, U${i + 7}.1, U${i + 13}.3]\n`).join("")}`;

async function begun(): Promise<Service> {
  const files = new Map([
    ["mem:/example.board.yaml", EXAMPLE_BOARD],
    ["mem:/whole.board.yaml", BOARD],
  ]);
  const service = new Service({ read: async (uri) => files.get(uri), list: async () => [...files.keys()] });
  await service.load();
  return service;
}

/** Numbers from 0 up to and without the one asked for, the same for the same seed. */
function numbers(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

type Next = (below: number) => number;
const among = <T>(next: Next, all: readonly T[]): T => all[next(all.length)]!;

const DROPS = [
  "0.55",
  "0.56",
  "0.571",
  "0.6",
  "OL",
  "0.02",
  "558",
  "0.9",
  "1.42",
  "",
  "-",
  "574 mV",
  "0.5x",
  "0.12",
];
const LEVELS = ["0.2 V", "4.1 V", "1.4 V", "5.0", "0", "3.3 V", "", "4.4 V"];
const OHMS = ["12 k", "OL", "0.3", "2 ohm", "45k", "", "1.2M", "beep"];
const NOTES = [
  "",
  "",
  "",
  "",
  "",
  "",
  "again",
  "U3 out",
  "pin lifted",
  "to ground",
  "`x`",
  "read twice \\| again",
];
const RAILS = ["+5V", "+12V", "5 V", ""];

/** A heading, the columns, and what stands in a row of a part and a pin. */
const KINDS: readonly (readonly [string, string, (next: Next, ref: string, pin: number) => string[]])[] = [
  ["Diode check", "Ref|Pin|Reading|Note", (n, ref, pin) => [ref, `${pin}`, among(n, DROPS), among(n, NOTES)]],
  ["Diode check after repair", "Ref|Pin|Reading", (n, ref, pin) => [ref, `${pin}`, among(n, DROPS)]],
  ["Logic levels", "Ref|Pin|Level|Note", (n, ref, pin) => [ref, `${pin}`, among(n, LEVELS), among(n, NOTES)]],
  ["Logic states", "Ref|Pin|State", (n, ref, pin) => [ref, `${pin}`, among(n, ["H", "L", "P", "?", ""])]],
  ["Resistance to ground", "Ref|Pin|Reading", (n, ref, pin) => [ref, `${pin}`, among(n, OHMS)]],
  ["Resistance", "Ref|Reading|Note", (n) => [`R${n(30)}`, among(n, OHMS), among(n, NOTES)]],
  ["Parts on board", "Ref|Part|Value", (n, ref) => [ref, among(n, [...DEVICES, ""]), ""]],
  [
    "Continuity",
    "From|To|Reading",
    (n, ref, pin) => [`${ref}.${pin}`, `U${1 + n(24)}.${1 + n(14)}`, among(n, OHMS)],
  ],
  ["Supply rails", "Rail|Reading|Note", (n) => [among(n, RAILS), among(n, LEVELS), among(n, NOTES)]],
  ["Bench sheet", "Ref|Pin|Drop|Volts", (n, ref, pin) => [ref, `${pin}`, among(n, DROPS), among(n, LEVELS)]],
  ["Diode check U5 (7404)", "Pin|Reading|Note", (n, _, pin) => [`${pin}`, among(n, DROPS), among(n, NOTES)]],
  ["Logic levels U3", "Pin|Level", (n, _, pin) => [`${pin}`, among(n, LEVELS)]],
  ["Diode check, U2 out", "Ref|Pin|Reading", (n, ref, pin) => [ref, `${pin}`, among(n, DROPS)]],
  ["Diode check U4 and U7, both 7400", "Ref|Pin|Reading", (n, ref, pin) => [ref, `${pin}`, among(n, DROPS)]],
  [
    "Diode check",
    "Pin|U1|U2 (7400)|U3 again|Note",
    (n, _, pin) => [`${pin}`, ...[0, 1, 2].map(() => among(n, DROPS)), among(n, NOTES)],
  ],
  ["Logic levels", "Pin|U1|U22|U60", (n, _, pin) => [`${pin}`, ...[0, 1, 2].map(() => among(n, LEVELS))]],
  [
    "Logic states",
    "Pin|U4|U2 (7400)",
    (n, _, pin) => [`${pin}`, ...[0, 1].map(() => among(n, ["H", "L", "P", "?", ""]))],
  ],
  ["Resistance to ground", "Pin|U1|U2|U3", (n, _, pin) => [`${pin}`, ...[0, 1, 2].map(() => among(n, OHMS))]],
  [
    "Diode check U9",
    "Pin|Reading|Pin|Reading",
    (n, _, pin) => [`${pin}`, among(n, DROPS), `${15 - pin}`, among(n, DROPS)],
  ],
  ["Diode check", "Ref|1|2|3|4|7|14", (n, ref) => [ref, ...[0, 1, 2, 3, 4, 5].map(() => among(n, DROPS))]],
  [
    "Supply rails",
    "When|+5V|+12V|-5V",
    (n) => [`after ${n(90)} min`, ...[0, 1, 2].map(() => among(n, LEVELS))],
  ],
  [
    "Supply rails",
    "What|+5V|+12V",
    (n) => [
      among(n, ["loaded", "no load", "ripple, mV", "expected", ""]),
      among(n, LEVELS),
      among(n, LEVELS),
    ],
  ],
  [
    "Diode check U5 (7404)",
    "When|1|2|7|14",
    (n) => [`read ${n(90)}`, ...[0, 1, 2, 3].map(() => among(n, DROPS))],
  ],
  [
    "Diode check",
    "Ref|Part|1|2|7|8|20",
    (n, ref) => [ref, among(n, [...DEVICES, ""]), ...[0, 1, 2, 3, 4].map(() => among(n, DROPS))],
  ],
  ["Resistance to ground", "Ref|1|2|7|14", (n, ref) => [ref, ...[0, 1, 2, 3].map(() => among(n, OHMS))]],
  [
    "Work",
    "Ref|Action|Part",
    (n, ref) => [ref, among(n, ["replaced", "reflowed", "to be replaced"]), among(n, DEVICES)],
  ],
  [
    "Swap test",
    "Ref|Part|Result",
    (n, ref) => [ref, among(n, DEVICES), among(n, ["same", "better", "fixed"])],
  ],
  [
    "Inspection",
    "Ref|Result|Note",
    (n, ref) => [ref, among(n, ["good", "cracked", "burnt"]), among(n, NOTES)],
  ],
];

function tableOfRows(next: Next, count: number): string {
  const [heading, columns, cells] = among(next, KINDS);
  const names = columns.split("|");
  const way = next(3);
  let ref = "U1";
  const rows = Array.from({ length: count }, (_, i) => {
    const pin = 1 + (i % 14);
    // Spread over the table, a chip after the other with its rows below its first, or anyhow.
    if (way === 0) ref = `U${1 + (i % 24)}`;
    else if (way === 2 || pin === 1) ref = `U${1 + next(27)}`;
    return cells(next, way === 1 && pin > 1 && next(4) > 0 ? "" : ref, pin);
  });
  const all = [names, names.map(() => "---"), ...rows];
  return `## ${heading}\n\n${all.map((row) => `| ${row.join(" | ")} |\n`).join("")}\n`;
}

function logOf(next: Next): string {
  let text = `---\nmendlog: 1\nboard: ${among(next, ["example", "whole", "unknown"])}\n---\n\n# Log\n\n`;
  for (let i = 1 + next(3); i > 0; i--) {
    text += tableOfRows(next, next(4) > 0 ? 100 + next(80) : next(20));
    if (next(3) === 0) text += `## Work\n\n| Ref | Action |\n|---|---|\n| U${1 + next(9)} | replaced |\n\n`;
  }
  return next(5) > 0 ? text : text.replaceAll("\n", "\r\n");
}

/** A character typed or taken out, rows that come, go, change places or are copied, a column more, another board. */
function edited(text: string, next: Next): string {
  const lines = text.split("\n");
  const at = next(lines.length);
  const line = lines[at] ?? "";
  const column = next(line.length + 1);
  switch (next(10)) {
    case 0:
      lines.splice(at, 1);
      break;
    case 1:
      lines.splice(at, 0, line);
      break;
    case 2: {
      const other = next(lines.length);
      [lines[at], lines[other]] = [lines[other] ?? "", line];
      break;
    }
    case 3:
      lines[at] = line.slice(0, column) + line.slice(column + 1);
      break;
    case 4:
      lines.splice(at, next(40));
      break;
    case 5: {
      const from = next(lines.length);
      lines.splice(at, 0, ...lines.slice(from, from + next(60)));
      break;
    }
    case 6:
      return text.replace(/^(\|.*\|)(\r?)$/gm, "$1 x |$2");
    case 7:
      return text.replace(
        /^board: \S*/m,
        `board: ${among(next, ["example", "whole", "wholer", "unknown", ""])}`,
      );
    default:
      lines[at] =
        line.slice(0, column) +
        among(next, ["1", "5", "x", " ", "|", "`", ".", "U7", "OL"]) +
        line.slice(column);
  }
  return lines.join("\n");
}

const times = Number(process.env.MENDLOG_FUZZ ?? 1);

describe("a long table", () => {
  test("has the findings of one that is read as a whole, whatever was typed before", async () => {
    const held = await begun();
    await fc.assert(
      fc.asyncProperty(
        fc.integer({ min: 1, max: 2 ** 31 }),
        fc.integer({ min: 1, max: 8 }),
        async (seed, edits) => {
          const next = numbers(seed);
          let text = logOf(next);
          for (let i = 0; i <= edits; i++) {
            if (i > 0) text = edited(text, next);
            held.open(URI, text);
            const found = held.findings(URI);
            cut.isWhole = true;
            try {
              const fresh = await begun();
              fresh.open(URI, text);
              expect(found).toEqual(fresh.findings(URI));
            } finally {
              cut.isWhole = false;
            }
          }
          held.close(URI);
        },
      ),
      { numRuns: 5 * times },
    );
  });

  test("has the tree that the parser gives, and rows and readings at their places", async () => {
    const held = await begun();
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 2 ** 31 }), (seed) => {
        const next = numbers(seed);
        const text = edited(logOf(next), next);
        const read = parseBlocks(text, createBlockCache());
        expect(joinedTree(read)).toEqual(wholeTree(parseMarkdown(text, { frontMatter: true }), 0));
        held.open(URI, text);
        const doc = held.view(URI)?.doc;
        if (!doc) return;
        for (const { start, table } of tablesOf(doc)) {
          for (const row of table.source.rows)
            for (const { span, text: words } of row.cells)
              expect(doc.text.slice(start + span.start, start + span.end).replaceAll("\\|", "|")).toBe(words);
          for (const { row, cell, table: own } of table.readings) {
            expect(own).toBe(table);
            expect(table.source.rows[row]?.cells).toContain(cell);
          }
        }
      }),
      { numRuns: 5 * times },
    );
  });

  test("keeps what it knows of rows that stayed", async () => {
    const service = await begun();
    const rows = Array.from(
      { length: 400 },
      (_, i) => `| U${1 + (i % 24)} | ${1 + (i % 14)} | 0.${500 + i} |\n`,
    );
    const textOf = (all: readonly string[]): string =>
      `---\nmendlog: 1\nboard: whole\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n${all.join("")}`;
    const pieces = (all: readonly string[]) => {
      service.open(URI, textOf(all));
      return new Set(
        service.view(URI)?.doc.blocks.flatMap(({ block }) => block.pieces.map((piece) => piece.block)),
      );
    };
    const before = pieces(rows);
    expect(before.size).toBeGreaterThan(8);
    const more = rows.toSpliced(200, 0, "| U1 | 1 | 0.5 |\n");
    const after = pieces(more);
    expect([...after].filter((piece) => !before.has(piece)).length).toBeLessThanOrEqual(3);
  });
});
