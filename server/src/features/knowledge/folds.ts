import { pathAt, type YamlNode } from "../../syntax/yaml";
import { contains, type Span, span } from "../../text/span";
import type { KnowledgeFile } from "../shared/knowledge-file";
import type { Fold } from "../types";

/** Every key and list entry whose value runs over several lines, and comments of several lines. */
export function foldsOfKnowledge(file: KnowledgeFile): readonly Fold[] {
  const { text, tree } = file;
  const folds: Fold[] = [];
  const add = (at: Span): void => {
    if (text.slice(at.start, at.end).trimEnd().includes("\n")) folds.push({ span: at, kind: "section" });
  };
  const visit = (node: YamlNode): void => {
    if (node.kind === "scalar" || !text.slice(node.span.start, node.span.end).includes("\n")) return;
    if (node.kind === "map") {
      for (const { keySpan, value } of node.entries) {
        // An alias shows what stands elsewhere: its own span is one word, the nodes below it are not here.
        if (value.span.start < keySpan.end) continue;
        add(span(keySpan.start, value.span.end));
        visit(value);
      }
    } else {
      for (const item of node.items) {
        // Brackets of one entry on one line fold with their key.
        if (item.kind !== "scalar") add(item.span);
        visit(item);
      }
    }
  };
  if (tree.root) visit(tree.root);
  return [...folds, ...comments(file)];
}

/** Runs of at least two lines that are nothing but comments. */
function comments({ text, tree }: KnowledgeFile): Fold[] {
  const found: Fold[] = [];
  for (const match of text.matchAll(/^[ \t]*#.*(?:\r?\n[ \t]*#.*)+/gm)) {
    const start = match.index + match[0].search(/#/);
    // Within a text of several lines it is no comment.
    if (contains(pathAt(tree, start).span, start)) continue;
    found.push({ span: span(start, match.index + match[0].length), kind: "comment" });
  }
  return found;
}
