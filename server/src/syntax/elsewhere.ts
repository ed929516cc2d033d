// Blocks that are read by another thread, so that nobody waits for them in this one: what is asked of it, and how a tree
// comes over from it in pieces, each made again in a moment.
import type { Root } from "mdast";
import { defined } from "../base/defined";
import type { Steps } from "../base/steps";
import { type ReadingBound, syntaxBlock } from "./block";
import type { Names } from "./markdown";
import { type BlockPlace, type BlockReading, parseBlock } from "./parse-block";

/** What was read of a block, as it is sent: plain data, none of it long in one piece. */
export interface SentReading {
  /** Absent where the text cannot be a block there. */
  readonly tree?: readonly SentNodes[];
  readonly limit?: ReadingBound;
  readonly names: Names;
}

/** Some nodes of a tree, each behind the node that it stands in. */
export interface SentNodes {
  /** For each node `NUMBERS` of them: where its parent is among all nodes, -1 for the root; its place. */
  readonly numbers: Int32Array;
  /** JSON of a list: for each node all that it holds besides. */
  readonly rest: string;
}

/** A block to be read, among names that are defined elsewhere. */
export interface ToRead {
  readonly text: string;
  readonly place: BlockPlace;
  readonly among: Names;
}

/** Reads blocks elsewhere, one after another. */
export interface Elsewhere {
  read(block: ToRead): {
    /** Never fails: undefined where it cannot be read there, and then it is to be read here. */
    readonly answer: Promise<SentReading | undefined>;
    /** To be called when nobody waits for it any longer. */
    drop(): void;
  };
}

/** The reading of one block, packed to be sent: what the other thread does. */
export function readToSend({ text, place, among }: ToRead): SentReading {
  const { block, names } = parseBlock(text, place, among);
  if (!block) return { names };
  return defined({ tree: packTree(block.tree), limit: block.limit, names });
}

/** The reading of the same text from what was sent of it, in steps. */
export function* received(text: string, { tree, limit, names }: SentReading): Steps<BlockReading> {
  const root = tree && (yield* unpackTree(tree));
  return { block: root && syntaxBlock(text, root, limit), names, variants: new Map() };
}

/** Parent, whether it has a place and children, and the place: line, column and offset of its start and of its end. */
const NUMBERS = 8;
const HAS_PLACE = 1;
const HAS_CHILDREN = 2;
/** Nodes in one piece: making them takes a millisecond or two. */
const PIECE = 1000;

interface Node {
  readonly type: string;
  children?: Node[];
  position?: { readonly start: Point; readonly end: Point };
}
interface Point {
  readonly line: number;
  readonly column: number;
  readonly offset?: number;
}

/** The tree in pieces. It must have offsets wherever it has places, as the parser's have. */
export function packTree(root: Root): readonly SentNodes[] {
  const nodes: { readonly node: Node; readonly parent: number }[] = [{ node: root as Node, parent: -1 }];
  // Level by level: a node's parent always comes before it.
  for (let at = 0; at < nodes.length; at++)
    for (const child of nodes[at]!.node.children ?? []) nodes.push({ node: child, parent: at });
  const pieces: SentNodes[] = [];
  for (let from = 0; from < nodes.length; from += PIECE) {
    const some = nodes.slice(from, from + PIECE);
    const numbers = new Int32Array(some.length * NUMBERS);
    const rest = some.map(({ node, parent }, i) => {
      const { children, position, ...own } = node;
      const has = (position ? HAS_PLACE : 0) | (children ? HAS_CHILDREN : 0);
      const places = position ? [...three(position.start), ...three(position.end)] : [];
      numbers.set([parent, has, ...places], i * NUMBERS);
      return own;
    });
    pieces.push({ numbers, rest: JSON.stringify(rest) });
  }
  return pieces;
}

const three = ({ line, column, offset = 0 }: Point) => [line, column, offset] as const;

/** The tree again, a step a piece. */
export function* unpackTree(pieces: readonly SentNodes[]): Steps<Root> {
  const nodes: Node[] = [];
  for (const { numbers, rest } of pieces) {
    const some = JSON.parse(rest) as Node[];
    for (const [i, node] of some.entries()) {
      const at = i * NUMBERS;
      const point = (from: number): Point => ({
        line: numbers[from]!,
        column: numbers[from + 1]!,
        offset: numbers[from + 2]!,
      });
      const has = numbers[at + 1]!;
      if (has & HAS_CHILDREN) node.children = [];
      if (has & HAS_PLACE) node.position = { start: point(at + 2), end: point(at + 5) };
      nodes[numbers[at]!]?.children?.push(node);
      nodes.push(node);
    }
    yield;
  }
  return nodes[0] as Root;
}
