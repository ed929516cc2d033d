import {
  imageReport,
  isBlank,
  isDoubled,
  LARGEST_IMAGE,
  MOST_IMAGES,
  type NoImage,
} from "../compute/memory/image-file";
import { imageCells, romRows } from "../review/memory/rom-from-log";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";

export default blockCheck({
  code: "rom-image-unreadable",
  title: "An image file that is not there, not to be read, or blank",
  severity: "warning",
  scope: "block",
  why: "Figures are worked out from the image's bytes. Where there are none, or they are blank or doubled, what stands in the log is all there is, and a later bench has nothing to program a chip with.",
  remedy:
    "Keep the image beside the log, in a folder of the workspace, and name it by its path from the log. Read a blank or doubled chip once more with its exact type set on the programmer; a chip read blank is not proven blank.",
  examples: {
    bad: [
      exampleLog(`## ROM check

| Ref | Image        |
|-----|--------------|
| U34 | roms/u34.bin |
        ^^^^^^^^^^^^ rom-image-unreadable: no file
| U35 | ../../../u35.bin |
        ^^^^^^^^^^^^^^^^ rom-image-unreadable: outside the workspace
`),
    ],
    good: [
      `//- log.md
${exampleLog(`## ROM check

| Ref | Image                  |
|-----|------------------------|
| U40 | [U40 as read](u40.bin) |
`)}
//- example.board.yaml
mendlog-board: 1
id: example
title: Example board
source: invented
parts: { U40: { value: PROM } }
//- u40.bin
two halves that differ
`,
    ],
  },
  *run({ block, ctx }) {
    const board = ctx.board?.value;
    for (const table of block.tables) {
      for (const { reading, path, file } of imageCells(table, ctx.images)) {
        if (file && !file.ok) yield { span: reading.cell.span, message: sayNoImage(path, file) };
      }
      if (table.kind.holds !== "images") continue;
      for (const { ref, image, at } of romRows(table, board, ctx.images)) {
        const reading = at.get("image");
        if (!image || !reading) continue;
        const report = imageReport(image.bytes, board, ref);
        if (isBlank(report)) {
          yield { span: reading.cell.span, message: `${ref}, ${image.path}: ${report.sentence}` };
        } else if (isDoubled(report)) {
          const size = report.checks.size;
          const [match] = report.matches;
          yield {
            span: reading.cell.span,
            message: match
              ? `${ref}, ${image.path}: ${report.sentence}`
              : `${ref}, ${image.path}: the ${size} bytes are the same ${size / report.copies} bytes ${report.copies} times over: a larger type set on the programmer than the chip is, or an address line that does not move. ${report.sentence}`,
          };
        }
      }
    }
  },
  noFix: "The file has to be put there, or the chip read once more.",
});

/** What came of a file that could not be read, and what to do. */
export function sayNoImage(path: string, { reason, size }: NoImage): string {
  switch (reason) {
    case "absent":
      return `There is no file "${path}", counted from the log's own folder. Put the image there, or correct the path.`;
    case "outside":
      return `"${path}" leads outside the workspace's folders and was not opened. Copy the image into the workspace, beside the log, and name it by its path from here.`;
    case "not-a-file":
      return `"${path}" is a folder or a device, not a file. Name the image itself.`;
    case "unreadable":
      return `"${path}" is there but cannot be opened. Look at its permissions.`;
    case "too-large":
      return `"${path}" has ${size} bytes and was not read: no more than ${LARGEST_IMAGE} are, and program memories of this kind hold far less (common practice, no source). Is it an archive, or the image of a whole disk?`;
    case "too-many":
      return `"${path}" was not read: of one log the first ${MOST_IMAGES} images are. Divide the log.`;
  }
}
