import { memo } from "../base/memo";
import type { KeyRun } from "../base/runs";
import { boardIndex } from "../knowledge/board-index";
import type { Board } from "../knowledge/types";
import type { LogDocument } from "../log/document";
import { isFromHead, subjectFromHead } from "../log/from-head";
import { blockRuns, inBlocksBy } from "../log/in-blocks";
import type { CellText, LocatedBlock, LogBlock, LogTable } from "../log/model";
import { refText } from "../log/read-rows";
import { placedSpan } from "../log/table-pieces";
import { logLineSource } from "../review/board-draft";
import { boardOfFile } from "../review/said-parts";
import { onlyNearest } from "../text/nearest";
import { type Span, shift } from "../text/span";
import { allOfLogFix, boardFileFix } from "./board-fixes";
import { documentCheck, type Fix, type FixInput, toBeChosen } from "./check";
import { exampleLog } from "./example-board";
import { replaceWithData } from "./fixes";

/** More than these are told in one finding: then it is the board file that lacks them, and no slip of the writer's. */
const MOST_TOLD = 3;

interface Unknown {
  /** The designators that the fix adds. */
  readonly refs: readonly string[];
  readonly newText?: string;
}

export default documentCheck({
  code: "unknown-designator",
  title: "A designator the board does not have",
  severity: "warning",
  scope: "document",
  why: "A reading filed under a part that is not on the board is lost to every comparison, to the parts list and to later jobs.",
  remedy:
    "Correct the designator. Where the board file is incomplete, add the part with the fix, or write its number beside its readings: then this log says what it is.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U41 | 1   | 0.58    |
  ^^^ unknown-designator: Did you mean U14?
`),
        fixes: [
          {
            title: "Change to U14",
            makes: `
 |-----|-----|---------|
-| U41 | 1   | 0.58    |
+| U14 | 1   | 0.58    |
`,
          },
          {
            title: "Add U41 to the board file",
            makes: `
//- example.board.yaml
   J3: { package: header 10 }
+  U41: {} # log log.md, line 10
 nets:
`,
          },
        ],
      },
      {
        text: exampleLog(`## Diode check

| Ref  | Pin | Reading |
|------|-----|---------|
| X900 | 1   | 0.58    |
  ^^^^ unknown-designator: does not list X900
`),
        fixes: [
          {
            title: "Add X900 to the board file",
            makes: `
//- example.board.yaml
   J3: { package: header 10 }
+  X900: {} # log log.md, line 10
 nets:
`,
          },
        ],
      },
      {
        text: exampleLog(`## Diode check

| Ref  | Pin | Reading |
|------|-----|---------|
| X901 | 1   | 0.58    |
  ^^^^ unknown-designator: does not list X901, X902, X903 and 1 more
| X902 | 1   | 0.58    |
| X903 | 1   | 0.58    |
| X904 | 1   | 0.58    |
`),
        fixes: [
          {
            title: "Add X901 and 3 more parts to the board file",
            makes: `
//- example.board.yaml
   J3: { package: header 10 }
+  X901: {} # log log.md, line 10
+  X902: {} # log log.md, line 10
+  X903: {} # log log.md, line 10
+  X904: {} # log log.md, line 10
 nets:
`,
          },
          {
            title: "Add all that this log knows to the board file: 4 parts",
            makes: `
//- example.board.yaml
   J3: { package: header 10 }
+  X901: {} # log log.md, line 10, which does not tell what it is
+  X902: {} # log log.md, line 11, which does not tell what it is
+  X903: {} # log log.md, line 12, which does not tell what it is
+  X904: {} # log log.md, line 13, which does not tell what it is
 nets:
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
| u15 (spare inverter) | 2 | 0.57 |
`),
    ],
  },
  *run({ doc, ctx }) {
    const file = boardOfFile(ctx);
    if (!file || !ctx.board) return;
    const unknown = unknownRefs(doc, ctx.board.value);
    if (unknown.size === 0) return;
    const { title } = ctx.board.value;
    // A file with fewer parts than one log names is only just begun: none of its parts is nearly meant by another.
    const isBegun = namesMoreThan(doc, file.parts.size);
    const refs = [...ctx.board.value.parts.keys()];
    const missing: [string, readonly Span[]][] = [];
    for (const [ref, places] of unknown) {
      const near = isBegun ? undefined : onlyNearest(ref, refs);
      if (near === undefined) missing.push([ref, places]);
      else {
        const data: Unknown = { refs: [ref], newText: near };
        for (const span of places)
          yield {
            span,
            fact: `${title} has no part "${doc.text.slice(span.start, span.end)}".`,
            step: `Did you mean ${near}? If not, add the part to the board file.`,
            data,
          };
      }
    }
    yield* tellMissing(missing);
  },
  fixes: {
    change: (finding) => replaceWithData(finding, (ref) => `Change to ${ref}`),
    addToBoardFile: toBeChosen(({ data, span }, input) => addRefs((data as Unknown).refs, span, input)),
    addAllOfLog: toBeChosen((_, input) => allOfLogFix(input)),
  },
});

function* tellMissing(missing: readonly [string, readonly Span[]][]) {
  const severity = "information" as const;
  if (missing.length > MOST_TOLD) {
    const [[first = "", [span] = []] = [], ...others] = missing;
    if (!span) return;
    const some = others.slice(0, MOST_TOLD - 1).map(([ref]) => ref);
    const rest = others.length - some.length;
    const data: Unknown = { refs: missing.map(([ref]) => ref) };
    yield {
      span,
      severity,
      fact: `The board file does not list ${[first, ...some].join(", ")} and ${rest} more parts of this log.`,
      step: "Write their numbers beside their readings, or add them to the file.",
      data,
    };
    return;
  }
  for (const [ref, [span]] of missing) {
    const data: Unknown = { refs: [ref] };
    if (span)
      yield {
        span,
        severity,
        fact: `The board file does not list ${ref}, and this log does not say what it is.`,
        step: "Write its number beside its readings, or add it to the file.",
        data,
      };
  }
}

function addRefs(refs: readonly string[], span: Span, { ctx, log }: FixInput): Fix[] {
  const [first, ...others] = refs;
  if (!ctx || !log || first === undefined) return [];
  const from = logLineSource(log, span.start);
  const changes = refs.map((ref) => ({ kind: "part" as const, entry: { ref, from } }));
  const title =
    others.length === 0
      ? `Add ${first} to the board file`
      : `Add ${first} and ${others.length} more parts to the board file`;
  return boardFileFix(title, changes, ctx);
}

/** Places by the designator in capitals, in the order of the log. */
function unknownRefs(doc: LogDocument, board: Board): ReadonlyMap<string, readonly Span[]> {
  const unknown = new Map<string, Span[]>();
  for (const { start, found } of unknownInBlocks(doc, board)) {
    for (const { ref, span } of found) {
      const places = unknown.get(ref);
      if (places) places.push(shift(span, start));
      else unknown.set(ref, [shift(span, start)]);
    }
  }
  return unknown;
}

interface UnknownRef {
  /** In capitals. */
  readonly ref: string;
  readonly span: Span;
}

const unknownInBlocks = inBlocksBy((block, board: Board): readonly UnknownRef[] | undefined => {
  const begins = new Set<LocatedBlock>(block.tables.flatMap(({ pieces }) => pieces?.[0] ?? []));
  // What the head of a long table names is in each of its pieces, and is told of once.
  let told = new Set<number>();
  const all = block.pieces.flatMap((piece) => {
    if (begins.has(piece)) told = new Set();
    return piece.block.tables.flatMap((table) =>
      unknownIn(table, board).flatMap(({ ref, span: own }): UnknownRef[] => {
        const span = placedSpan(own, piece.start);
        if (isFromHead(own)) {
          if (told.has(span.start)) return [];
          told.add(span.start);
        }
        return [{ ref, span }];
      }),
    );
  });
  return all.length === 0 ? undefined : all;
});

const unknownIn = memo((table: LogTable, board: Board): readonly UnknownRef[] => {
  const known = boardIndex(board);
  return refsOf(table).flatMap(({ text, span }) =>
    known.part(text) ? [] : [{ ref: text.toUpperCase(), span }],
  );
});

/** True where the log names more designators than that. */
function namesMoreThan(doc: LogDocument, most: number): boolean {
  const named = new Set<string>();
  for (const { run } of blockRuns(doc)) {
    for (const ref of namedInRun(run)) named.add(ref);
    if (named.size > most) return true;
  }
  return false;
}

const namedInRun = memo(
  ({ keys }: KeyRun<LogBlock>): ReadonlySet<string> =>
    new Set(
      keys.flatMap(({ pieces }) =>
        pieces.flatMap(({ block }) =>
          block.tables.flatMap((table) => refsOf(table).map(({ text }) => text.toUpperCase())),
        ),
      ),
    ),
);

/** Every designator in the table; looked for once. */
const refsOf = memo((table: LogTable): readonly CellText[] =>
  [...refsIn(table)].filter(({ text }) => /^[A-Za-z]+\d/.test(text)),
);

/** Every designator written in the table, once for each place it is written at. */
function* refsIn(table: LogTable): Iterable<CellText> {
  const seen = new Set<number>();
  const fresh = (at: CellText | undefined): at is CellText => {
    // What a piece of a table takes over from the rows above it was seen there.
    if (!at || (at.span.start < 0 && !isFromHead(at.span)) || seen.has(at.span.start)) return false;
    seen.add(at.span.start);
    return true;
  };
  if (table.shape === "wide" && table.procedure.wide?.columns === "ref") {
    for (const column of table.columns.slice(1)) {
      if (column.spec || column.header.text === "") continue;
      const ref = refText(column.header);
      yield table.isPiece ? subjectFromHead({ ref }).ref : ref;
    }
  }
  for (const row of table.rows) if (fresh(row.cells.ref)) yield row.cells.ref;
}
