import { defined } from "../base/defined";
import { plainHex } from "../compute/memory/hex";
import type { ImageChecks } from "../compute/memory/image";
import { isBlank, isDoubled } from "../compute/memory/image-file";
import { checkWords, imageName, matchChecks, setName } from "../compute/memory/rom-match";
import { someOf } from "../compute/nets/net-text";
import type { Board, RomSet } from "../knowledge/types";
import { isOneSlipAway } from "../quantity/words";
import { imagesAt, type RomRow, romRows, sumAgrees } from "../review/memory/rom-from-log";
import { blockCheck, type Draft } from "./check";
import { exampleLog } from "./example-board";
import { replaceWithData } from "./fixes";

export default blockCheck({
  code: "rom-unidentified",
  title: "A ROM figure that belongs to no set of the board",
  severity: "warning",
  scope: "block",
  why: "A memory's figures show what it holds; its label does not. A figure in no set is lost bits, another program, or a typing slip; a sum the machine shows and the programmer does not is a chip the board reads differently.",
  remedy:
    "Read the chip again and compare digit by digit. Keep the image before you do anything else; it may be a modified program. Where the board's sets are not all in the board file, add the new one.",
  examples: {
    bad: [
      {
        text: exampleLog(`## ROM check

| Ref | CRC-32   | Sum  |
|-----|----------|------|
| U34 | 9d1f4c27 | 70d5 |
        ^^^^^^^^ rom-unidentified: one digit or one swap away from 9d1f4c72
| U35 | 37ea80c5 | 9c28 |
`),
        fixes: [
          {
            title: "Change to 9d1f4c72",
            makes: `
 |-----|----------|------|
-| U34 | 9d1f4c27 | 70d5 |
+| U34 | 9d1f4c72 | 70d5 |
 | U35 | 37ea80c5 | 9c28 |
`,
          },
        ],
      },
      exampleLog(`## ROM check

| Ref | Sum  | Shown |
|-----|------|-------|
| U34 | 70d5 | d5    |
| U35 | 9c28 | 29    |
               ^^ rom-unidentified: the machine shows 29
`),
    ],
    good: [
      exampleLog(`## ROM check

| Ref | CRC-32     | Sum   | Shown |
|-----|------------|-------|-------|
| U34 | 0x9D1F4C72 | 70D5h | D5    |
| U35 | 37ea80c5   |       | 9C28  |
`),
    ],
  },
  *run({ block, ctx }) {
    const board = ctx.board?.value;
    if (!board || board.romSets.size === 0) return;
    for (const table of block.tables) {
      if (table.kind.holds !== "images") continue;
      for (const row of romRows(table, board, ctx.images)) {
        for (const { reading, digits } of row.bad) {
          yield {
            span: reading.cell.span,
            fact: `"${reading.value.typed}" is no hexadecimal figure of up to ${digits} digits (0-9, a-f).`,
            step: "Correct it: it is not compared.",
          };
        }
        // What the image holds counts before what was typed; rom-image-differs holds the two together.
        if (row.image) yield* ofImage(row);
        else {
          yield* ofPosition(row, board);
          yield* ofShown(row, board);
        }
      }
    }
  },
  fixes: { change: (finding) => replaceWithData(finding, (text) => `Change to ${text}`) },
});

/** An image that is not what the sets have at its position; rom-image-unreadable speaks of blank and doubled ones. */
function* ofImage({ ref, image, at }: RomRow): Iterable<Draft> {
  const reading = at.get("image");
  if (!image || !reading || isBlank(image.report) || isDoubled(image.report)) return;
  const [match] = image.report.matches;
  const whole = match?.part === "whole" && match.image.ref === ref;
  if (whole && (match.kind === "exact" || match.kind === "sum-only")) return;
  const { says } = image.report;
  yield { span: reading.cell.span, ...says, fact: `${ref}: ${says.fact}` };
}

const WORDS = ["crc32", "sha1", "sum16"] as const;

function* ofPosition(row: RomRow, board: Board): Iterable<Draft> {
  const sets = [...board.romSets.values()];
  const figure = WORDS.find((name) => row.checks[name] !== undefined);
  if (figure === undefined) {
    yield* ofShortSum(row, board);
    return;
  }
  const reading = row.at.get(figure);
  if (!reading) return;
  const { span } = reading.cell;
  const [match] = matchChecks(row.checks, sets, row.ref);
  // A sum alone is too common to place an image at another position.
  const found = match && (match.image.ref === row.ref || match.kind !== "sum-only") ? match : undefined;
  if (!found) {
    yield unknown(row, figure, reading.value.typed, sets, span);
    return;
  }
  if (found.kind === "hash-conflict" || found.kind === "same-sum") {
    const differ = found.differ.find((name) => row.at.has(name)) ?? figure;
    const wrong = row.at.get(differ) ?? reading;
    const theirs = found.image[differ];
    const near = nearTo(wrong.value.typed, theirs === undefined ? [] : [String(theirs)]);
    yield defined({
      span: wrong.cell.span,
      fact: `${row.ref} agrees with ${imageName(found)} in ${checkWords(found.agree)} but not in ${checkWords(found.differ)}.`,
      cause:
        near === undefined
          ? "A slip, or not the same bytes."
          : `It is one digit or one swap away from ${near}: a slip, or not the same bytes.`,
      step: "Read the chip again.",
      more: theirs === undefined ? undefined : `The set has ${theirs}.`,
      data: near === undefined ? undefined : { newText: near },
    });
    return;
  }
  if (found.image.ref !== row.ref) {
    yield {
      span,
      fact: `${row.ref} holds what belongs at ${found.image.ref}: it is ${imageName(found)}.`,
      cause: "The chips are swapped, or it was noted at the wrong place.",
      step: "Read both numbers on the chips.",
    };
  }
}

function unknown(
  row: RomRow,
  figure: keyof ImageChecks & (typeof WORDS)[number],
  typed: string,
  sets: readonly RomSet[],
  span: Draft["span"],
): Draft {
  const here = sets.flatMap((set) =>
    set.images.filter(({ ref }) => ref === row.ref).map((image) => ({ set, image, figure: image[figure] })),
  );
  const near = nearTo(
    typed,
    here.flatMap((each) => each.figure ?? []),
  );
  const known = here
    .filter((each) => each.figure !== undefined)
    .map((each) => `${each.figure} in ${setName(each.set)}`)
    .join(", ");
  const slip = near === undefined ? undefined : `It is one digit or one swap away from ${near}.`;
  const sets_ = known === "" ? `No set of the board file names ${row.ref}.` : `The board file has ${known}.`;
  return defined({
    span,
    fact: `The ${checkWords([figure])} ${typed} of ${row.ref} is in no set.`,
    cause: slip ?? "Lost bits, or another program.",
    step: "Keep the image and read the chip again.",
    more: sets_,
    data: near === undefined ? undefined : { newText: near },
  });
}

function* ofShortSum({ ref, sum8, at }: RomRow, board: Board): Iterable<Draft> {
  const reading = at.get("sum16");
  const sums = imagesAt(board, ref).flatMap(({ sum16 }) => sum16 ?? []);
  if (!reading || sum8 === undefined || sums.length === 0 || sums.some((sum) => sumAgrees(sum8, sum))) return;
  yield {
    span: reading.cell.span,
    fact: `The 8-bit sum ${reading.value.typed} of ${ref} is that of no set; the last 2 digits of ${someOf(sums, 2)} count.`,
    step: "Read the chip again, and write its CRC-32.",
  };
}

/** The machine's own sum against what the programmer read, else against the sets. */
function* ofShown({ ref, shown, checks, at }: RomRow, board: Board): Iterable<Draft> {
  const reading = at.get("shown");
  if (!reading || shown === undefined) return;
  const read = checks.sum16;
  if (read !== undefined) {
    if (sumAgrees(shown, read)) return;
    yield {
      span: reading.cell.span,
      fact: `For ${ref} the machine shows ${reading.value.typed}, but the image's 16-bit sum is ${read}.`,
      cause: "It counts in another way, or the board does not read what the programmer read.",
      step: "Check the socket, the select and the bus.",
    };
    return;
  }
  const sums = imagesAt(board, ref).flatMap(({ sum16 }) => sum16 ?? []);
  if (sums.length === 0 || sums.some((sum) => sumAgrees(shown, sum))) return;
  yield {
    span: reading.cell.span,
    fact: `For ${ref} the machine shows ${reading.value.typed}, the sum of no set; the sets have ${someOf(sums, 3)}.`,
    step: "Read the chip out and compare its CRC-32.",
  };
}

/** A known figure one slip away from what was typed. */
function nearTo(typed: string, known: readonly string[]): string | undefined {
  return known.find((figure) => isOneSlipAway(plainHex(typed, figure.length), figure.toLowerCase()));
}
