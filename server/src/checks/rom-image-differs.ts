import { plainHex } from "../compute/memory/hex";
import { isBlank } from "../compute/memory/image-file";
import { checkWords } from "../compute/memory/rom-match";
import { isOneSlipAway } from "../quantity/words";
import { type RomRow, romRows, sumAgrees } from "../review/memory/rom-from-log";
import { blockCheck, type Draft } from "./check";
import { exampleLog } from "./example-board";
import { replaceWithData } from "./fixes";

export default blockCheck({
  code: "rom-image-differs",
  title: "A ROM figure that is not the image's",
  severity: "warning",
  scope: "block",
  why: "The image is what was read. A figure typed beside it that differs is a slip, or of another read; a sum the machine shows that differs is a board that does not read what the programmer read.",
  remedy:
    "Take the figure from the image, or name the image the figure was taken of. Where the machine shows another sum, look at the socket, the select and the bus before the chip.",
  examples: {
    bad: [
      {
        text: `//- log.md
${exampleLog(`## ROM check

| Ref | CRC-32   | Shown | Image   |
|-----|----------|-------|---------|
| U40 | 363a3020 | 7E    | u40.bin |
        ^^^^^^^^ rom-image-differs: 352441c2
                   ^^ rom-image-differs: the machine shows 7E
`)}
//- example.board.yaml
mendlog-board: 1
id: example
title: Example board
source: invented
parts: { U40: { value: PROM } }
//- u40.bin
abc`,
        fixes: [
          {
            title: "Change to 352441c2, which is the image's",
            makes: `
 |-----|----------|-------|---------|
-| U40 | 363a3020 | 7E    | u40.bin |
+| U40 | 352441c2 | 7E    | u40.bin |

`,
          },
        ],
      },
    ],
    good: [
      `//- log.md
${exampleLog(`## ROM check

| Ref | CRC-32   | Sum  | Size | Shown | Image   |
|-----|----------|------|------|-------|---------|
| U40 | 352441C2 | 0126 | 3    | 26    | u40.bin |
`)}
//- example.board.yaml
mendlog-board: 1
id: example
title: Example board
source: invented
parts: { U40: { value: PROM } }
//- u40.bin
abc`,
    ],
  },
  *run({ block, ctx }) {
    for (const table of block.tables) {
      if (table.kind.holds !== "images") continue;
      for (const row of romRows(table, ctx.board?.value, ctx.images)) {
        yield* ofTyped(row);
        yield* ofShown(row);
      }
    }
  },
  fixes: {
    change: (finding) => replaceWithData(finding, (text) => `Change to ${text}, which is the image's`),
  },
});

/** What was typed against the bytes; of an image that holds the same several times over, one copy counts as well. */
function* ofTyped({ ref, checks, sum8, known, image, at }: RomRow): Iterable<Draft> {
  if (!image) return;
  const { checks: whole } = image.report;
  const size = at.get("size");
  if (size && checks.size !== undefined && checks.size !== whole.size && checks.size !== known.size) {
    yield {
      span: size.cell.span,
      fact: `${ref}: the size typed is ${size.value.typed}, but the image has ${whole.size} bytes.`,
      step: "Correct the size, or name the image it is of.",
      more: `The image is ${image.path}.`,
      data: { newText: String(whole.size) },
    };
  }
  for (const name of ["sum16", "crc32", "sha1"] as const) {
    const typed = name === "sum16" && sum8 !== undefined ? sum8 : checks[name];
    const reading = at.get(name);
    if (typed === undefined || !reading) continue;
    const { length } = typed;
    const own = [whole[name], known[name] ?? whole[name]].map((figure) =>
      plainHex(figure, length).slice(-length),
    );
    const [figure] = own;
    if (figure === undefined || own.includes(typed)) continue;
    const what = isOneSlipAway(typed, figure)
      ? "They differ by one digit or one swap: likely a slip."
      : "It is the figure of another read or another image.";
    yield {
      span: reading.cell.span,
      fact: `${ref}: the ${checkWords([name])} typed is ${reading.value.typed}, but the image has ${figure}.`,
      cause: what,
      step: "Correct the figure, or name the image it is of.",
      more: `The image is ${image.path}.`,
      data: { newText: figure },
    };
  }
}

/** The machine's own sum against the bytes the programmer read. */
function* ofShown({ ref, shown, known, image, at }: RomRow): Iterable<Draft> {
  const reading = at.get("shown");
  if (!image || !reading || shown === undefined || isBlank(image.report) || known.sum16 === undefined) return;
  if (sumAgrees(shown, known.sum16)) return;
  yield {
    span: reading.cell.span,
    fact: `For ${ref} the machine shows ${reading.value.typed}, but the 16-bit sum of the image is ${known.sum16}.`,
    cause: "It counts in another way, or the board does not read what the programmer read.",
    step: "Check the socket, the select and the bus.",
    more: `The image is ${image.path}.`,
  };
}
