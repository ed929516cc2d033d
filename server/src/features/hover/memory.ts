import { memoryChips } from "../../compute/memory/chips";
import { sayHex } from "../../compute/memory/hex";
import { identifySet } from "../../compute/memory/identify-set";
import { isBlank, type NoImage } from "../../compute/memory/image-file";
import { bitsOf } from "../../compute/memory/memory-word";
import { checkWords, compareChecks, setName } from "../../compute/memory/rom-match";
import type { CellPosition } from "../../log/position";
import { patternIn } from "../../review/memory/address-from-log";
import { failingRow, memoryRows } from "../../review/memory/from-log";
import { imageCells, positionsOf, romRows } from "../../review/memory/rom-from-log";
import { code, joined, type Markdown, markdown, md } from "../../text/markdown";
import { sayingMarkdown } from "../shared/describe";
import type { LogView } from "../view";

/** The bits of a memory test's row and the chips they belong to. */
export function memoryMarkdown(view: LogView, at: CellPosition): Markdown | undefined {
  const board = view.ctx.board?.value;
  if (!board || at.table.kind.holds !== "memory") return undefined;
  const row = memoryRows(at.table).find((each) => each.row.index === at.row);
  if (!row) return undefined;
  const chips = memoryChips(board, view.ctx.library);
  const found = failingRow(row, chips);
  const { wrote, read } = row;
  const bits =
    wrote === undefined || read === undefined
      ? []
      : [
          wrote === read
            ? markdown`Wrote ${md(sayHex(wrote, 1))}, read the same. That does not prove the chip.`
            : markdown`Wrote ${md(sayHex(wrote, 1))}, read ${md(sayHex(read, 1))}: bits ${joined(bitsOf(wrote ^ read), ", ")} differ.`,
        ];
  const served = (found?.chips ?? chips.filter(({ ref }) => ref.toUpperCase() === row.ref)).map(
    ({ ref, lines, range }) =>
      markdown`${md(ref)} serves ${joined(
        lines.map((line) => markdown`D${line}`),
        ", ",
      )}${range ? markdown` at ${md(sayHex(range.from, 4))}-${md(sayHex(range.to, 4))}` : ""}.`,
  );
  const failing = found
    ? [
        markdown`Came back wrong: ${joined(
          found.lines.map((line) => markdown`D${line}`),
          ", ",
        )}${
          found.chips.length > 0
            ? markdown`, on ${joined(
                found.chips.map(({ ref }) => md(ref)),
                " or ",
              )}`
            : ""
        }.`,
      ]
    : [];
  const pattern = patternIn(at.table, chips);
  const common = pattern?.rows.some((each) => each.row.index === at.row)
    ? [sayingMarkdown(pattern.says)]
    : [];
  const parts = [...bits, ...failing, ...served, ...common];
  return parts.length > 0 ? joined(parts, "\n\n") : undefined;
}

const WHY: Readonly<Record<NoImage["reason"], string>> = {
  absent: "There is no such file, seen from the log's own folder.",
  outside: "It is outside the workspace's folders and was not opened.",
  "not-a-file": "It is a folder or a device, not a file.",
  unreadable: "It is there but cannot be opened.",
  "too-large": "It is larger than any image that is read.",
  "too-many": "The log names more images than are read.",
};

/** What the bytes of a named image are: its figures, and the set and revision it is or is nearest to. */
export function imageMarkdown(view: LogView, at: CellPosition): Markdown | undefined {
  const named = imageCells(at.table, view.ctx.images).find(({ reading }) => reading === at.reading);
  if (!named) return undefined;
  const { file, path } = named;
  const title = markdown`**${code(path)}**`;
  if (!file) return markdown`${title}\n\nNot read yet.`;
  if (!file.ok)
    return markdown`${title}\n\n${md(WHY[file.reason])}${file.size === undefined ? "" : markdown` (${file.size} bytes)`}`;
  const rows = romRows(at.table, view.ctx.board?.value, view.ctx.images);
  const report = rows.find(({ at: cells }) => cells.get("image") === at.reading)?.image?.report;
  if (!report) return markdown`${title}\n\n${file.bytes.length} bytes. The row names no position.`;
  const { size, sum8, sum16, crc32, sha1 } = report.checks;
  return joined(
    [
      markdown`${title}: ${size} bytes`,
      joined(
        [
          markdown`- 8-bit sum ${code(sum8)}`,
          markdown`- 16-bit sum ${code(sum16)}`,
          markdown`- CRC-32 ${code(crc32)}`,
          markdown`- SHA-1 ${code(sha1)}`,
        ],
        "\n",
      ),
      view.ctx.board?.value.romSets.size || isBlank(report)
        ? sayingMarkdown(report.says)
        : markdown`The board file has no sets to compare with.`,
      markdown`It shows what the programmer read; the board may see something else.`,
    ],
    "\n\n",
  );
}

/** A ROM position's figures against every set of the board, and which set all positions belong to. */
export function romMarkdown(view: LogView, at: CellPosition): Markdown | undefined {
  const board = view.ctx.board?.value;
  if (!board || board.romSets.size === 0 || at.table.kind.holds !== "images" || !at.reading) return undefined;
  const rows = romRows(at.table, board, view.ctx.images);
  const ref = at.reading.subject.ref?.text.toUpperCase();
  const row = rows.find((each) => each.ref.toUpperCase() === ref);
  if (!row) return undefined;
  const sets = [...board.romSets.values()];
  const lines = sets.flatMap((set) =>
    set.images
      .filter((image) => image.ref === row.ref)
      .map((image) => {
        const { agree, differ } = compareChecks(row.known, image);
        const figures = (["sum16", "crc32"] as const).flatMap((name) =>
          image[name] === undefined ? [] : markdown`${md(checkWords([name]))} ${code(image[name])}`,
        );
        const said = joined(
          [
            ...(agree.length > 0 ? [markdown`agrees in ${md(checkWords(agree))}`] : []),
            ...(differ.length > 0 ? [markdown`differs in ${md(checkWords(differ))}`] : []),
          ],
          ", ",
        );
        return markdown`- ${md(setName(set))}: ${said || markdown`nothing to compare`} (${joined(figures, ", ")})`;
      }),
  );
  return joined(
    [
      markdown`**${md(row.ref)}** against the board's sets`,
      ...(lines.length > 0
        ? [joined(lines, "\n")]
        : [markdown`No set of the board file names this position.`]),
      sayingMarkdown(identifySet(positionsOf(rows), sets).says),
      markdown`A matching figure shows what the programmer read; the board may see something else.`,
    ],
    "\n\n",
  );
}
