// A log about several boards: which of its sections are of which board. A heading that names a board puts what stands
// below it under that board, until the next one that does, or until a heading of a higher level that does not.

import { defined } from "../base/defined";
import { memo } from "../base/memo";
import { headingWords } from "../knowledge/heading-match";
import type { BoardOfSet, FrontMatter } from "../knowledge/load-front-matter";
import type { Heading } from "../syntax/headings";
import type { LocatedBlock, LogDocument } from "./model";

export interface SetSections {
  /** One log a board, in the order of the front matter, each with its own sections only. */
  readonly logs: readonly LogDocument[];
  /** Behind the front matter and under no board's heading. They count to the first board. */
  readonly unnamed: readonly LocatedBlock[];
  /** Boards that a heading names. */
  readonly named: ReadonlySet<BoardOfSet>;
}

/** The log's sections by board. `boards` is not empty. No board file is asked: what is remembered of a log must not hang on one. */
export const sectionsOfSet = memo((doc: LogDocument, boards: readonly BoardOfSet[]): SetSections => {
  const [first] = boards;
  const words = boardsByWord(boards);
  const own = new Map<BoardOfSet, LocatedBlock[]>(boards.map((board) => [board, []]));
  const unnamed: LocatedBlock[] = [];
  const named = new Set<BoardOfSet>();
  let at: { readonly board: BoardOfSet; readonly depth: number } | undefined;
  for (const placed of doc.blocks) {
    for (const heading of placed.block.source.headings) {
      const board = boardNamed(heading, words);
      if (board) {
        at = { board, depth: heading.depth };
        named.add(board);
      } else if (at && heading.depth < at.depth) at = undefined;
    }
    if (!at) unnamed.push(placed);
    const board = at?.board ?? first;
    if (board) own.get(board)?.push(placed);
  }
  const logs = boards.map((board): LogDocument => {
    const { value } = doc.frontMatter;
    return {
      ...doc,
      blocks: own.get(board) ?? [],
      frontMatter: value ? { ...doc.frontMatter, value: frontOfBoard(value, board) } : doc.frontMatter,
      ofSet: board,
    };
  });
  return { logs, unnamed, named };
});

/** The front matter as it would stand in a log of that board alone. */
export function frontOfBoard(front: FrontMatter, own: BoardOfSet): FrontMatter {
  const { boards: _boards, board: _board, revision, serial, romSet, ...rest } = front;
  return defined<FrontMatter>({
    ...rest,
    board: own.board,
    revision: own.revision ?? revision,
    serial: own.serial ?? serial,
    romSet: own.romSet ?? romSet,
  });
}

/** The board that a heading names: by its short name or its id, with "board" before or behind it or not. */
export function boardNamed(
  { text }: Pick<Heading, "text">,
  words: ReadonlyMap<string, BoardOfSet>,
): BoardOfSet | undefined {
  const whole = namePart(text);
  // "Driver: what it does wrong", "Driver (serial 00477)", "Driver - out of the machine".
  const begun = namePart(text.split(/[:,;(–—]|\s-\s/u, 1)[0] ?? "");
  return words.get(whole) ?? words.get(begun);
}

/** The words of a heading that may name a board. */
export const namePart = (text: string): string => {
  const words = headingWords(text);
  const bare = words.length > 1 && words[0] === "board" ? words.slice(1) : words;
  return (bare.length > 1 && bare.at(-1) === "board" ? bare.slice(0, -1) : bare).join(" ");
};

/** A short name counts before an id; of equal ones the first. */
export function boardsByWord(boards: readonly BoardOfSet[]): ReadonlyMap<string, BoardOfSet> {
  const words = new Map<string, BoardOfSet>();
  const put = (text: string | undefined, board: BoardOfSet): void => {
    const key = text === undefined ? "" : namePart(text);
    if (key !== "" && !words.has(key)) words.set(key, board);
  };
  for (const board of boards) put(board.name, board);
  for (const board of boards) put(board.board, board);
  return words;
}

/** The view of the board whose section stands at an offset; the log itself where it is of one, and in its front matter. */
export function boardAt<V extends { readonly doc: LogDocument; readonly set?: readonly V[] }>(
  view: V,
  offset: number,
): V {
  const front = view.doc.parsed.frontMatter;
  if (!view.set || (front && offset < front.span.end)) return view;
  const starts = view.set.map(({ doc }) => doc.blocks.findLast(({ start }) => start <= offset)?.start ?? -1);
  return view.set[starts.indexOf(Math.max(...starts))] ?? view;
}
