import { sameNumber } from "../judge/stated/parts";
import { boardIndex } from "../knowledge/board-index";
import type { Library } from "../knowledge/library";
import { numberMeant } from "../knowledge/number-meant";
import type { Board } from "../knowledge/types";
import { fitAt } from "../review/parts/fits";
import { boardOfFile, type SaidPart, saidParts } from "../review/said-parts";
import { boardFileFix } from "./board-fixes";
import { documentCheck, toBeChosen } from "./check";
import { exampleLog } from "./example-board";
import { placesInBoard } from "./in-board";

interface Differing {
  readonly ref: string;
  /** As the log has it. */
  readonly device: string;
  /** As the board file has it. */
  readonly listed: string;
}

export default documentCheck({
  code: "part-differs-from-board",
  title: "A part that is another one in the board file",
  severity: "information",
  scope: "document",
  why: "The log's word holds for the board in hand, and its readings are judged by it. Where it is only a slip, all of them are judged by the wrong chip; where it is so, the board file is wrong for this board, or for all of them.",
  remedy:
    "Look at the number on the part. If the file is wrong, set it there; if both are found on boards of this type, allow the other under `fits`; if the log is wrong, correct it.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check

| Ref | Device | Pin | Reading |
|-----|--------|-----|---------|
| U14 | 74LS08 | 1   | 0.58    |
        ^^^^^^ part-differs-from-board: the board file says 74LS04
| U14 | 74LS08 | 2   | 0.57    |
`),
        fixes: [
          {
            title: "Set U14 to 74LS08 in the board file",
            makes: `
//- example.board.yaml
 parts:
-  U14: { device: 74LS04 }
+  U14: { device: 74LS08 }
   U15: { device: 74LS04 }
`,
          },
          {
            title: "Allow 74LS08 at U14 in the board file (fits)",
            makes: `
//- example.board.yaml
 parts:
-  U14: { device: 74LS04 }
+  U14: { device: 74LS04, fits: [74LS08] }
   U15: { device: 74LS04 }
`,
          },
          {
            title: "Change to 74LS04 here",
            makes: `
 |-----|--------|-----|---------|
-| U14 | 74LS08 | 1   | 0.58    |
+| U14 | 74LS04 | 1   | 0.58    |
 | U14 | 74LS08 | 2   | 0.57    |
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Device    | Pin | Reading |
|-----|-----------|-----|---------|
| U14 | SN74LS04N | 1   | 0.58    |
`),
      `//- b.board.yaml
mendlog-board: 1
id: example
title: Example board
parts:
  U14: { device: 74LS04, fits: ["7404"] }
//- log.md
---
mendlog: 1
board: example
---

## Diode check U14 (7404)

| Pin | Reading |
|-----|---------|
| 1   | 0.58    |
`,
    ],
  },
  *run({ doc, ctx }) {
    const file = boardOfFile(ctx);
    if (!file) return;
    for (const part of saidParts(doc).values()) {
      const data = differing(part, file, ctx.library);
      if (!data) continue;
      const { ref, device, listed } = data;
      yield {
        span: part.first.span,
        fact: `This log says ${ref} is a ${device}; the board file says ${listed}.`,
        cause: "Its readings are judged by what this log says.",
        step: "Look at the number on the part.",
        related: placesInBoard(["parts", ref], `${ref} is a ${listed} here`, ctx),
        data,
      };
    }
  },
  fixes: {
    setInBoardFile: toBeChosen(({ data }, { ctx }) => {
      const { ref, device } = data as Differing;
      const title = `Set ${ref} to ${device} in the board file`;
      return ctx ? boardFileFix(title, [{ kind: "device", ref, device }], ctx) : [];
    }),
    allowInBoardFile: toBeChosen(({ data }, { ctx }) => {
      const { ref, device } = data as Differing;
      const title = `Allow ${device} at ${ref} in the board file (fits)`;
      return ctx ? boardFileFix(title, [{ kind: "fits", ref, part: device }], ctx) : [];
    }),
    changeHere({ data, span }, { ctx }) {
      const { listed } = data as Differing;
      return ctx ? [{ title: `Change to ${listed} here`, edits: [{ span, newText: listed }] }] : [];
    },
  },
});

/** Undefined where they agree, and of what was fitted: whether that belongs there another check asks. */
function differing({ first }: SaidPart, file: Board, library: Library): Differing | undefined {
  const { device, by, ref } = first;
  const part = boardIndex(file).part(ref);
  const listed = part?.device;
  if (!part || listed === undefined || device === undefined || by === "fitted") return undefined;
  if (sameNumber(listed, device, library)) return undefined;
  const { kind } = fitAt(part, device, library);
  if (kind === "same" || kind === "listed") return undefined;
  // A slip is told as one.
  const meant = numberMeant(device, library);
  if (meant !== undefined && sameNumber(meant, listed, library)) return undefined;
  return { ref: part.ref, device, listed };
}
