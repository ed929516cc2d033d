import type { Node, Root } from "mdast";
import type { ParsedDocument } from "../../server/src/syntax/blocks";
import { lineIndex } from "../../server/src/text/line-index";

interface Shift {
  readonly offset: number;
  readonly line: number;
}

/** A node without undefined fields and prototypes, every position moved: offsets and lines count from the document. */
function moved(node: Node, by: Shift): unknown {
  const copy: Record<string, unknown> = {};
  for (const [key, value] of Object.entries(node)) {
    if (value === undefined) continue;
    if (key === "children") {
      copy[key] = (value as Node[]).map((child) => moved(child, by));
    } else if (key === "position") {
      const { start, end } = value as NonNullable<Node["position"]>;
      copy[key] = [start, end].map(
        (point) => `${point.line + by.line}:${point.column} ${(point.offset ?? Number.NaN) + by.offset}`,
      );
    } else {
      copy[key] = value;
    }
  }
  return copy;
}

/** The root's children of a whole parse, with offsets that count a byte order mark. */
export const wholeTree = (tree: Root, bom: number): unknown[] =>
  tree.children.map((child) => moved(child, { offset: bom, line: 0 }));

/** The root's children of all blocks, moved to where the blocks stand. */
export function joinedTree(document: ParsedDocument): unknown[] {
  const lines = lineIndex(document.text);
  return document.blocks.flatMap(({ start, source }) => {
    const by = { offset: start, line: lines.lineAt(start) };
    return source.tree.children.map((child) => moved(child, by));
  });
}
