import { sameNumber } from "../judge/stated/parts";
import type { Library } from "../knowledge/library";
import { numberMeant } from "../knowledge/number-meant";
import { lineNumberAt } from "../log/lines";
import type { LocatedStatement, PartStated } from "../log/stated/statement";
import { saidParts } from "../review/said-parts";
import type { Span } from "../text/span";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

interface Twice {
  readonly first: { readonly device: string; readonly line: number; readonly span: Span };
  readonly device: string;
}

export default documentCheck({
  code: "stated-twice",
  title: "Two numbers for one part",
  severity: "warning",
  scope: "document",
  why: "A part is one chip. Where a log says two, the readings are judged by the one it says first, and those of the other by the wrong pins.",
  remedy:
    "Look at the number on the part and correct the other place. A chip that was changed in between belongs into a table of work, as fitted.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check U14 (74LS04)

| Pin | Reading |
|-----|---------|
| 1   | 0.58    |

## Logic states U14 (7408)
                     ^^^^ stated-twice: U14 is a 74LS04 in line 6 and a 7408 here

| Pin | State |
|-----|-------|
| 1   | high  |
`),
        fixes: [
          {
            title: "Change to 74LS04 here",
            makes: `

-## Logic states U14 (7408)
+## Logic states U14 (74LS04)

`,
          },
          {
            title: "Change to 7408 in line 6",
            makes: `

-## Diode check U14 (74LS04)
+## Diode check U14 (7408)

`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check U14 (74LS04)

| Pin | Reading |
|-----|---------|
| 1   | 0.58    |

## Logic states U14 (SN74LS04N)

| Pin | State |
|-----|-------|
| 1   | high  |
`),
    ],
  },
  *run({ doc, ctx }) {
    for (const { ref, words, first } of saidParts(doc).values()) {
      if (first.by === "fitted" || first.device === undefined) continue;
      const told = new Set<number>();
      for (const word of words) {
        if (told.has(word.span.start) || !isAnother(word, first.device, words, ctx.library)) continue;
        told.add(word.span.start);
        const line = lineNumberAt(doc, first.span.start);
        const data: Twice = {
          first: { device: first.device, line, span: first.span },
          device: word.device ?? "",
        };
        yield {
          span: word.span,
          fact: `${ref} is a ${first.device} in line ${line} and a ${word.device} here.`,
          cause: "The first is used.",
          step: "Correct the one that is wrong.",
          related: [{ uri: doc.uri, span: first.span, message: `${ref} is a ${first.device} here` }],
          data,
        };
      }
    }
  },
  fixes: {
    changeHere({ data, span }) {
      const { first } = data as Twice;
      return [{ title: `Change to ${first.device} here`, edits: [{ span, newText: first.device }] }];
    },
    changeFirst({ data }) {
      const { first, device } = data as Twice;
      const title = `Change to ${device} in line ${first.line}`;
      return [{ title, edits: [{ span: first.span, newText: device }] }];
    },
  },
});

/** A chip that was fitted above is another one from then on, and a slip of the first number is told as a slip. */
function isAnother(
  { device, by, span }: LocatedStatement<PartStated>,
  first: string,
  words: readonly LocatedStatement<PartStated>[],
  library: Library,
): boolean {
  if (device === undefined || by === "fitted" || sameNumber(device, first, library)) return false;
  const isFitted = words.some(
    (word) =>
      word.by === "fitted" &&
      word.span.start < span.start &&
      word.device !== undefined &&
      sameNumber(word.device, device, library),
  );
  const slips = [numberMeant(device, library), numberMeant(first, library)];
  const isSlip = [
    [slips[0], first],
    [slips[1], device],
  ].some(([meant, other]) => meant !== undefined && other !== undefined && sameNumber(meant, other, library));
  return !isFitted && !isSlip;
}
