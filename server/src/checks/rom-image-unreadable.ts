import {
  imageReport,
  isBlank,
  isDoubled,
  LARGEST_IMAGE,
  MOST_IMAGES,
  type NoImage,
} from "../compute/memory/image-file";
import { imageCells, romRows } from "../review/memory/rom-from-log";
import { inWords, type Saying } from "../text/saying";
import { blockCheck } from "./check";
import { exampleLog } from "./example-board";

export default blockCheck({
  code: "rom-image-unreadable",
  title: "An image file that is not there, not to be read, or blank",
  severity: "warning",
  scope: "block",
  why: "Figures are worked out from the image's bytes. Where there are none, or they are blank or doubled, the log's figures are all there is, and nobody can program a new chip from them.",
  remedy:
    "Keep the image beside the log, in a folder of the workspace, and name it by its path from the log. Read a blank or doubled chip again with its exact type set on the programmer; a chip read blank is not proven blank.",
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
        if (file && !file.ok) yield { span: reading.cell.span, ...sayNoImage(path, file) };
      }
      if (table.kind.holds !== "images") continue;
      for (const { ref, image, at } of romRows(table, board, ctx.images)) {
        const reading = at.get("image");
        if (!image || !reading) continue;
        const report = imageReport(image.bytes, board, ref);
        if (isBlank(report)) {
          yield { span: reading.cell.span, ...ofImage(ref, image.path, report.says) };
        } else if (isDoubled(report)) {
          const size = report.checks.size;
          const [match] = report.matches;
          yield {
            span: reading.cell.span,
            ...ofImage(
              ref,
              image.path,
              match
                ? report.says
                : {
                    fact: `The ${size} bytes are the same ${size / report.copies} bytes ${report.copies} times.`,
                    cause: "The programmer was set to a larger type, or an address line does not move.",
                    step: "Read it again with the exact type set.",
                    more: inWords(report.says),
                  },
            ),
          };
        }
      }
    }
  },
  noFix: "The file must be put there, or the chip read again.",
});

/** What came of a file that could not be read, and what to do. */
export function sayNoImage(path: string, { reason, size }: NoImage): Saying {
  switch (reason) {
    case "absent":
      return {
        fact: `There is no file "${path}", seen from the log's own folder.`,
        step: "Put the image there, or correct the path.",
      };
    case "outside":
      return {
        fact: `"${path}" is outside the workspace's folders and was not opened.`,
        step: "Copy the image into the workspace, beside the log, and name it by its path from here.",
      };
    case "not-a-file":
      return { fact: `"${path}" is a folder or a device, not a file.`, step: "Name the image itself." };
    case "unreadable":
      return { fact: `"${path}" is there but cannot be opened.`, step: "Check its permissions." };
    case "too-large":
      return {
        fact: `"${path}" has ${size} bytes and was not read; the limit is ${LARGEST_IMAGE}.`,
        cause: "It may be an archive, or the image of a whole disk.",
        step: "Name the image of the chip.",
      };
    case "too-many":
      return {
        fact: `"${path}" was not read; a log's first ${MOST_IMAGES} images are.`,
        step: "Divide the log.",
      };
  }
}

const ofImage = (ref: string, path: string, says: Saying): Saying => ({
  ...says,
  fact: `${ref}: ${says.fact}`,
  more: [`The image is ${path}.`, says.more].filter(Boolean).join(" "),
});
