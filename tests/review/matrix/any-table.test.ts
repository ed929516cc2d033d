// Whatever stands in a matrix, memory, ROM or settings table: nothing breaks, every span lies in the text, and the
// rows that are inserted are rows that are read.
import fc from "fast-check";
import { expect, test } from "vitest";
import { EXAMPLE_BOARD } from "../../../server/src/checks/example-board";
import { hoverLog } from "../../../server/src/features/hover";
import { matrixLogs } from "../../../server/src/review/matrix/from-log";
import { provingOf } from "../../../server/src/review/matrix/log-review";
import { testRows } from "../../../server/src/review/matrix/test-rows";
import { Service } from "../../../server/src/service";
import { applyEdits } from "../../../server/src/text/edits";

const words = fc.constantFrom(
  ...[
    "ok",
    "dead",
    "stuck",
    "-",
    "",
    "closed",
    "intermittent",
    "closes 1,2 too",
    "closes 3,3",
    "also Tilt",
    "ok + 2,2",
  ],
  ...[
    "1",
    "2",
    "3",
    "4",
    "0",
    "row 2",
    "SW_ROW_1",
    "Coin",
    "1,1 + 1,2 + 2,1",
    "9,9",
    "Start + Bell",
    "\\|",
    "1,",
    "+",
  ],
  ...[
    "U32",
    "U34",
    "SW1",
    "on",
    "off",
    "AA",
    "0x1F",
    "9d1f4c72",
    "70d5",
    "7931",
    "D4-7",
    "99999999999",
    "Coins: two coins",
  ],
);
const HEADERS: readonly (readonly [string, readonly string[]])[] = [
  ["Switch matrix", ["Row", "Column", "Switch", "Result", "Note"]],
  ["Switch matrix before repair", ["Row / column", "1", "2", "3", "4"]],
  ["Switch matrix after repair", ["Column / row", "SW_ROW_1", "2", "3", ""]],
  ["Memory test", ["Ref", "Address", "Wrote", "Read", "Failing bits", "Result"]],
  ["ROM check", ["Ref", "Sum", "CRC-32", "Size", "Shown"]],
  ["Settings", ["Bank", "Switch", "State", "Meaning"]],
  ["Inspection", ["Item", "Result", "Date code", "Note"]],
  ["Work done", ["Ref", "Action", "Part"]],
];
const table = fc
  .constantFrom(...HEADERS)
  .chain(([heading, header]) =>
    fc
      .array(fc.array(words, { minLength: 1, maxLength: header.length }), { maxLength: 5 })
      .map(
        (rows) =>
          `## ${heading}\n\n| ${header.join(" | ")} |\n|${"---|".repeat(header.length)}\n${rows.map((row) => `| ${row.join(" | ")} |\n`).join("")}`,
      ),
  );

async function service() {
  const board = new Map([["mem:/example.board.yaml", EXAMPLE_BOARD]]);
  const made = new Service({ read: async (uri) => board.get(uri), list: async () => [...board.keys()] });
  await made.load();
  return made;
}

test("any tables at all", async () => {
  const made = await service();
  const uri = "mem:/log.md";
  fc.assert(
    fc.property(fc.array(table, { minLength: 1, maxLength: 4 }), fc.nat(), (tables, at) => {
      const text = `---\nmendlog: 1\nboard: example\nstage: proving\n---\n\n${tables.join("\n")}`;
      made.open(uri, text);
      for (const { code, message, span } of made.findings(uri)) {
        expect(`${code}: ${message}`).not.toMatch(/check-failed|undefined|NaN|\[object/);
        expect(span.start >= 0 && span.start <= span.end && span.end <= text.length).toBe(true);
      }
      const view = made.view(uri)!;
      expect(hoverLog(view, at % text.length)?.markdown ?? "").not.toMatch(/undefined|NaN|\[object/);
    }),
    { numRuns: 300 },
  );
});

test("rows that are inserted, once answered, leave nothing to insert", async () => {
  const made = await service();
  const uri = "mem:/log.md";
  let tried = 0;
  const matrixTable = table.filter((text) => text.startsWith("## Switch"));
  fc.assert(
    fc.property(fc.array(matrixTable, { minLength: 1, maxLength: 2 }), (tables) => {
      const rowsOf = (text: string) => {
        made.open(uri, text);
        const { doc, ctx } = made.view(uri)!;
        const board = ctx.board!.value;
        const log = matrixLogs(doc, board)[0]!;
        return { rows: testRows(doc, log, board), plan: provingOf(log, board)! };
      };
      const text = `---\nmendlog: 1\nboard: example\n---\n\n${tables.join("\n")}`;
      const { rows, plan } = rowsOf(text);
      if (!rows || rows.cells.length < plan.next.length) return;
      tried += 1;
      // The result is the last column of a table of its own and the last but one of the long one.
      const answered = {
        ...rows.edit,
        newText: rows.edit.newText.replace(/^(\| *\d.*?)\|( +)\|( +\|)?$/gm, (line) => answer(line)),
      };
      const after = rowsOf(applyEdits(text, [answered])).plan;
      expect(after.next).toEqual([]);
      expect(after.unproven.length).toBe(plan.unprovable.length);
    }),
    { numRuns: 200 },
  );
  expect(tried).toBeGreaterThan(50);
});

/** Writes "ok" into the fourth cell, which is the result in both forms. */
const answer = (line: string): string => {
  const cells = line.split("|");
  cells[4] = " ok ";
  return cells.join("|");
};
