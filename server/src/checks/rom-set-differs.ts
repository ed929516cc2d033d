import { identifySet } from "../compute/memory/identify-set";
import { setName } from "../compute/memory/rom-match";
import type { Board, RomSet } from "../knowledge/types";
import { frontSpan } from "../log/front";
import { tablesThat } from "../log/in-blocks";
import { positionsOf, type RomRow, romRows } from "../review/memory/rom-from-log";
import { type Span, shift } from "../text/span";
import { documentCheck, type LogInput } from "./check";
import { exampleLog } from "./example-board";
import { replaceWithData } from "./fixes";

export default documentCheck({
  code: "rom-set-differs",
  title: "ROMs of another set than the log says, or of two sets",
  severity: "warning",
  scope: "document",
  why: "A mix of sets explains a board that starts and then runs wild. A set of another revision changes what settings mean and what the display says.",
  remedy:
    "Fit one set throughout. Where the set was changed on purpose, correct `rom-set` or `revision` in the front matter and tell the owner what the settings mean now.",
  examples: {
    bad: [
      exampleLog(
        `## ROM check

| Ref | CRC-32   |
|-----|----------|
| U34 | 9d1f4c72 |
| U35 | e27b5609 |
        ^^^^^^^^ rom-set-differs: U35 holds U35 of first
`,
        "rom-set: second\n",
      ),
      {
        text: `---
mendlog: 1
board: example
rom-set: first
         ^^^^^ rom-set-differs: belong to second
---

## ROM check

| Ref | CRC-32   |
|-----|----------|
| U34 | 9d1f4c72 |
| U35 | 37ea80c5 |
`,
        fixes: [
          {
            title: "Change rom-set to second",
            makes: `
 board: example
-rom-set: first
+rom-set: second
 ---
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(
        `## ROM check

| Ref | CRC-32   | Sum  |
|-----|----------|------|
| U34 | 9d1f4c72 | 70d5 |
| U35 | 37ea80c5 | 9c28 |
`,
        "rom-set: second\nrevision: B\n",
      ),
    ],
  },
  *run(input) {
    const { doc, ctx, front } = input;
    const board = ctx.board?.value;
    if (!board || board.romSets.size === 0) return;
    const rows = lastRows(input);
    const read = positionsOf(rows.map(({ row }) => row));
    const { fits, outcome, says } = identifySet(read, inOrder(board, front));
    const [best] = fits;
    if (!best) return;
    if (outcome === "mixed") {
      // Positions that are in no set are spoken of where they stand.
      const stray = rows.find(
        ({ row }) =>
          best.differ.includes(row.ref) &&
          fits.some((fit) => fit.exact.includes(row.ref) || fit.sumOnly.includes(row.ref)),
      );
      if (stray) yield { span: stray.span, ...says };
      return;
    }
    if (outcome !== "identified") return;
    const asked = front.romSet;
    const span = frontSpan(doc, ["rom-set"]);
    if (asked !== undefined && asked !== best.set.id && span) {
      yield {
        span,
        fact: `The log says rom-set "${asked}", but the ROMs belong to ${setName(best.set)}.`,
        step: "Correct the field, or the ROMs.",
        data: { newText: best.set.id },
      };
      return;
    }
    const revision = frontSpan(doc, ["revision"]);
    if (best.set.revision !== undefined && front.revision !== undefined && revision) {
      if (best.set.revision === front.revision || asked === best.set.id) return;
      yield {
        span: revision,
        severity: "information",
        fact: `The board is revision ${front.revision}, but its ROMs belong to ${setName(best.set)}.`,
        step: `If that is meant, write \`rom-set: ${best.set.id}\` in the front matter.`,
      };
    }
  },
  fixes: { change: (finding) => replaceWithData(finding, (text) => `Change rom-set to ${text}`) },
});

/** Where several sets are equally near, the one the log names is the one the strays are strange to. */
function inOrder({ romSets }: Board, { romSet, revision }: LogInput["front"]): readonly RomSet[] {
  const rank = ({ id, revision: own }: RomSet): number =>
    id === romSet ? 0 : own !== undefined && own === revision ? 1 : 2;
  return [...romSets.values()].sort((a, b) => rank(a) - rank(b));
}

interface Placed {
  readonly row: RomRow;
  readonly span: Span;
}

const ofImages = tablesThat(({ kind }) => kind.holds === "images");

/** The last row with figures of each position: what was read after the repair counts. */
function lastRows({ doc, ctx }: LogInput): readonly Placed[] {
  const board = ctx.board!.value;
  const rows = new Map<string, Placed>();
  for (const { start, table } of ofImages(doc)) {
    for (const row of romRows(table, board, ctx.images)) {
      const reading =
        (row.image && row.at.get("image")) ??
        row.at.get("crc32") ??
        row.at.get("sha1") ??
        row.at.get("sum16");
      if (!reading || (row.sum8 !== undefined && !row.image)) continue;
      rows.set(row.ref, { row, span: shift(reading.cell.span, start) });
    }
  }
  return [...rows.values()];
}
