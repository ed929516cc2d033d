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
import { code, md } from "../../text/markdown";
import { sayingMarkdown } from "../shared/describe";
import type { LogView } from "../view";

/** The bits of a memory test's row and the chips they belong to. */
export function memoryMarkdown(view: LogView, at: CellPosition): string | undefined {
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
            ? `Wrote ${sayHex(wrote, 1)}, read the same. That does not prove the chip.`
            : `Wrote ${sayHex(wrote, 1)}, read ${sayHex(read, 1)}: bits ${bitsOf(wrote ^ read).join(", ")} differ.`,
        ];
  const served = (found?.chips ?? chips.filter(({ ref }) => ref.toUpperCase() === row.ref)).map(
    ({ ref, lines, range }) =>
      `${md(ref)} serves ${lines.map((line) => `D${line}`).join(", ")}${range ? ` at ${sayHex(range.from, 4)}-${sayHex(range.to, 4)}` : ""}.`,
  );
  const failing = found
    ? [
        `Came back wrong: ${found.lines.map((line) => `D${line}`).join(", ")}${found.chips.length > 0 ? `, on ${found.chips.map(({ ref }) => md(ref)).join(" or ")}` : ""}.`,
      ]
    : [];
  const pattern = patternIn(at.table, chips);
  const common = pattern?.rows.some((each) => each.row.index === at.row)
    ? [sayingMarkdown(pattern.says)]
    : [];
  const parts = [...bits, ...failing, ...served, ...common];
  return parts.length > 0 ? parts.join("\n\n") : undefined;
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
export function imageMarkdown(view: LogView, at: CellPosition): string | undefined {
  const named = imageCells(at.table, view.ctx.images).find(({ reading }) => reading === at.reading);
  if (!named) return undefined;
  const { file, path } = named;
  const title = `**${code(path)}**`;
  if (!file) return `${title}\n\nNot read yet.`;
  if (!file.ok)
    return `${title}\n\n${WHY[file.reason]}${file.size === undefined ? "" : ` (${file.size} bytes)`}`;
  const rows = romRows(at.table, view.ctx.board?.value, view.ctx.images);
  const report = rows.find(({ at: cells }) => cells.get("image") === at.reading)?.image?.report;
  if (!report) return `${title}\n\n${file.bytes.length} bytes. The row names no position.`;
  const { size, sum8, sum16, crc32, sha1 } = report.checks;
  return [
    `${title}: ${size} bytes`,
    [
      `- 8-bit sum ${code(sum8)}`,
      `- 16-bit sum ${code(sum16)}`,
      `- CRC-32 ${code(crc32)}`,
      `- SHA-1 ${code(sha1)}`,
    ].join("\n"),
    view.ctx.board?.value.romSets.size || isBlank(report)
      ? sayingMarkdown(report.says)
      : "The board file has no sets to compare with.",
    "It shows what the programmer read; the board may see something else.",
  ].join("\n\n");
}

/** A ROM position's figures against every set of the board, and which set all positions belong to. */
export function romMarkdown(view: LogView, at: CellPosition): string | undefined {
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
          image[name] === undefined ? [] : `${checkWords([name])} ${code(image[name])}`,
        );
        const said = [
          ...(agree.length > 0 ? [`agrees in ${checkWords(agree)}`] : []),
          ...(differ.length > 0 ? [`differs in ${checkWords(differ)}`] : []),
        ].join(", ");
        return `- ${md(setName(set))}: ${said || "nothing to compare"} (${figures.join(", ")})`;
      }),
  );
  return [
    `**${md(row.ref)}** against the board's sets`,
    ...(lines.length > 0 ? [lines.join("\n")] : ["No set of the board file names this position."]),
    sayingMarkdown(identifySet(positionsOf(rows), sets).says),
    "A matching figure shows what the programmer read; the board may see something else.",
  ].join("\n\n");
}
