import { defined } from "../base/defined";
import { someOf } from "../compute/nets/net-text";
import type { Knowledge } from "../judge/context";
import type { BoardOfSet } from "../knowledge/load-front-matter";
import { boardNamed, boardsByWord, namePart, sectionsOfSet } from "../log/boards-of-set";
import { frontSpan } from "../log/front";
import type { LocatedBlock, LogDocument, LogTable } from "../log/model";
import { nearestName, oneSlip } from "../text/nearest";
import { shift } from "../text/span";
import { type Draft, documentCheck } from "./check";
import { replaceWithData } from "./fixes";

/** Two boards that say no more than their names. */
const TWO_BOARDS = `//- driver.board.yaml
mendlog-board: 1
id: driver-1
title: Driver board
rails: { "+5V": { nominal: 5 V, tolerance: 5 % } }
//- supply.board.yaml
mendlog-board: 1
id: supply-1
title: Supply board
//- log.md
`;

export default documentCheck({
  code: "board-set",
  title: "A set of boards that does not hold together",
  severity: "warning",
  scope: "document",
  ofSet: "once",
  why: "In a log about several boards each reading is judged by the board that the heading above it names. Where no heading names one, a reading is compared with the limits of another board.",
  remedy:
    "Name each board once under `boards:`, take `board:` out, and put every table below a heading that is one of the short names.",
  examples: {
    bad: [
      `${TWO_BOARDS}---
mendlog: 1
board: driver-1
       ^^^^^^^^ board-set: The log has \`board:\` and \`boards:\`
boards: { driver: driver-1, supply: supply-1 }
---

## Driver

## Supply
`,
      `---
mendlog: 1
boards:
  driver: example
  lamps: example
         ^^^^^^^ board-set: "driver" and "lamps" are the same board
---

## Driver

## Lamps
`,
      {
        text: `${TWO_BOARDS}---
mendlog: 1
boards: { driver: driver-1, supply: supply-1 }
---

## Driver

## Suply
   ^^^^^ board-set: "Suply" names no board of this log
`,
        fixes: [
          {
            title: "Change to Supply",
            makes: `

-## Suply
+## Supply
`,
          },
        ],
      },
      `${TWO_BOARDS}---
mendlog: 1
boards: { driver: driver-1, supply: supply-1 }
---

## Rails
   ^^^^^ board-set: These readings stand below no board's heading

| Rail | Reading |
|------|---------|
| +5V  | 4.98 V  |

## Driver

## Supply
`,
    ],
    good: [
      `${TWO_BOARDS}---
mendlog: 1
boards: { driver: driver-1, supply: supply-1 }
---

What came in together.

## Driver

### Rails

| Rail | Reading |
|------|---------|
| +5V  | 4.98 V  |

## Supply board
`,
      `---
mendlog: 1
boards:
  left: { board: example, serial: "0041" }
  right: { board: example, serial: "0042" }
---

## Left

## Right
`,
    ],
  },
  *run({ doc, front, knowledge }) {
    const { boards } = front;
    if (!boards) return;
    const both = frontSpan(doc, ["board"]);
    if (both && front.board !== undefined)
      yield {
        span: both,
        fact: "The log has `board:` and `boards:`.",
        cause: "It is read by `boards:`, and this line by nobody.",
        step: "Take out the one that is not meant.",
      };
    yield* twice(doc, boards);
    const { unnamed, named } = sectionsOfSet(doc, boards);
    yield* strangers(doc, boards, knowledge);
    const names = someOf(boards.map(({ name }) => name));
    const first = boards[0]?.name ?? "";
    const stray = unnamed.flatMap(firstTable).slice(0, 1);
    for (const span of stray)
      yield {
        span,
        fact: `These readings stand below no board's heading, so they count to ${first}.`,
        step: `Put a heading above them that is one of ${names}.`,
      };
    if (named.size === 0 && stray.length > 0) return;
    for (const board of boards) {
      const span = frontSpan(doc, board.path);
      if (named.has(board) || !span || !hasTables(doc)) continue;
      yield {
        span,
        severity: "information",
        fact: `No heading of this log names ${board.name}, so nothing is read of it.`,
        step: `Write a heading \`## ${board.name}\` above its sections.`,
      };
    }
  },
  fixes: { change: (finding) => replaceWithData(finding, (near) => `Change to ${near}`) },
});

/** Two of one type are told apart by their serial numbers. */
function* twice(doc: LogDocument, boards: readonly BoardOfSet[]): Iterable<Draft> {
  for (const [at, { name, board, serial, path }] of boards.entries()) {
    const before = boards
      .slice(0, at)
      .find(
        (other) =>
          other.board === board && (other.serial === undefined || other.serial === serial || !serial),
      );
    const span = before && frontSpan(doc, path);
    if (!before || !span) continue;
    yield {
      span,
      fact:
        before.name === name
          ? `The board ${name} is in the list twice.`
          : `"${before.name}" and "${name}" are the same board, ${board}.`,
      step: 'Correct the id. If both are there, give each its `serial`, as in `{ board: ID, serial: "0042" }`.',
    };
  }
}

/** Headings that are meant as a board's and are none of this set. */
function* strangers(
  doc: LogDocument,
  boards: readonly BoardOfSet[],
  { boards: known }: Knowledge,
): Iterable<Draft> {
  const words = boardsByWord(boards);
  const others = new Map<string, string>();
  for (const { value } of known.values())
    for (const name of [value.id, value.title]) others.set(namePart(name), value.id);
  for (const { start, block } of doc.blocks) {
    for (const heading of block.source.headings) {
      // The title is of the job, whatever it names.
      if (heading.depth === 1 || boardNamed(heading, words)) continue;
      const typed = namePart(heading.text);
      const other = others.get(typed);
      const own = other === undefined ? undefined : boards.find(({ board }) => board === other);
      const isProcedure = doc.library.procedureFor(heading.text) !== undefined;
      const near = own?.name ?? (isProcedure ? undefined : nearly(typed, boards));
      const saysBoard = /^board\b/i.test(heading.text.trim());
      if (near === undefined && other === undefined && !saysBoard) continue;
      const names = someOf(boards.map(({ name }) => name));
      yield defined<Draft>({
        span: shift(heading.contentSpan, start),
        fact: `"${heading.text}" names no board of this log, so what is below it counts to the board above.`,
        step:
          near !== undefined
            ? `Did you mean ${near}?`
            : other === undefined
              ? `The boards of this log are ${names}.`
              : `Add ${other} under \`boards:\`, or use one of ${names}.`,
        data: near === undefined ? undefined : { newText: asTyped(near, heading.text) },
      });
    }
  }
}

function nearly(typed: string, boards: readonly BoardOfSet[]): string | undefined {
  const names = boards.map(({ name }) => name);
  return nearestName(typed, names) ?? names.find((name) => name.length > 3 && oneSlip(name, typed));
}

/** With a capital where a heading had one: headings are read with either. */
const asTyped = (name: string, typed: string): string =>
  /^\p{Lu}/u.test(typed) ? name.charAt(0).toUpperCase() + name.slice(1) : name;

const isOfABoard = ({ readings, rows }: LogTable): boolean => readings.length + rows.length > 0;

/** The heading of the first table that says something of a board, else the table's first line. */
function firstTable({ start, block }: LocatedBlock): { start: number; end: number }[] {
  const table = block.tables.find(isOfABoard);
  if (!table) return [];
  const heading = table.section.heading;
  return [shift(heading?.contentSpan ?? table.source.header.span, start)];
}

const hasTables = ({ blocks }: LogDocument): boolean =>
  blocks.some(({ block }) => block.tables.some(isOfABoard));
