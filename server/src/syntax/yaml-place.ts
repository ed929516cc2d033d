import { contains, type Span, span, touches } from "../text/span";
import type { YamlEntry, YamlNode, YamlTree } from "./yaml-node";

/** What stands at an offset, good enough for hover and completion while the file is broken. */
export interface YamlPlace {
  /**
   * For "key" and "value": the path of the entry or list item, its own key or position last.
   * For "blank": the path of the mapping or list in which something new would stand.
   */
  readonly path: readonly (string | number)[];
  readonly where: "key" | "value" | "blank";
  /** What is typed there so far and would be replaced; empty at the offset where nothing is. */
  readonly span: Span;
  /** True inside `{ }` or `[ ]`. */
  readonly flow: boolean;
  /** A plain value alone on its line below its key: it may be a key still without a colon. */
  readonly ownLine: boolean;
}

/** Where `offset` (of the whole document) is in the tree. Always an answer; the root mapping at worst. */
export function pathAt(tree: YamlTree, offset: number): YamlPlace {
  const local = Math.min(Math.max(offset - tree.baseOffset, 0), tree.text.length);
  return (
    (tree.root && inNode(tree, tree.root, [], offset)) ?? byIndent(tree.text, local, tree.baseOffset + local)
  );
}

type Path = readonly (string | number)[];

function inNode(tree: YamlTree, node: YamlNode, path: Path, offset: number): YamlPlace | undefined {
  if (node.kind === "scalar") {
    if (!touches(node.span, offset) || node.span.start === node.span.end) return undefined;
    const from = node.span.start - tree.baseOffset;
    const before = tree.text.slice(tree.text.lastIndexOf("\n", from - 1) + 1, from);
    const ownLine = !node.quoted && path.length > 0 && before.trim() === "";
    return { path, where: "value", span: node.span, flow: false, ownLine };
  }
  const place = node.kind === "map" ? inEntries(tree, node.entries, path, offset) : undefined;
  if (place) return node.flow ? { ...place, flow: true } : place;
  if (node.kind === "list") {
    for (const [index, item] of node.items.entries()) {
      const found = inNode(tree, item, [...path, index], offset);
      if (found) return node.flow ? { ...found, flow: true } : found;
    }
  }
  if (node.flow && offset > node.span.start && offset < openEnd(tree, node)) {
    return { path, where: "blank", span: span(offset, offset), flow: true, ownLine: false };
  }
  return undefined;
}

function inEntries(
  tree: YamlTree,
  entries: readonly YamlEntry[],
  path: Path,
  offset: number,
): YamlPlace | undefined {
  for (const entry of entries) {
    const below = [...path, entry.key];
    // A value touching the offset wins over blank space; a key over the value before it.
    if (touches(entry.keySpan, offset)) {
      return { path: below, where: "key", span: entry.keySpan, flow: false, ownLine: false };
    }
    const found = inNode(tree, entry.value, below, offset);
    if (found) return found;
    if (offset > entry.keySpan.end) {
      const between = tree.text.slice(entry.keySpan.end - tree.baseOffset, offset - tree.baseOffset);
      if (/^[ \t]*:[ \t]*$/.test(between) && !contains(entry.value.span, offset)) {
        return { path: below, where: "value", span: span(offset, offset), flow: false, ownLine: false };
      }
    }
  }
  return undefined;
}

/** End of a bracketed node's inside; one never closed reaches to the end of its line. */
function openEnd(tree: YamlTree, node: YamlNode): number {
  const end = node.span.end - tree.baseOffset;
  const last = tree.text[end - 1];
  if (last === "}" || last === "]") return node.span.end;
  const eol = tree.text.slice(end).search(/\r?\n|$/);
  return node.span.end + eol + 1;
}

interface Opener {
  readonly column: number;
  /** Undefined for a dash. */
  readonly key?: string;
  readonly inline: boolean;
  readonly end: number;
}

/** The dashes and the key that a line begins with. */
function openers(line: string): Opener[] {
  const found: Opener[] = [];
  let column = /^[ \t]*/.exec(line)![0].length;
  for (;;) {
    const dash = /^-(?:[ \t]+|$)/.exec(line.slice(column));
    if (!dash) break;
    found.push({ column, inline: false, end: column + dash[0].length });
    column += dash[0].length;
  }
  const key = /^("(?:[^"\\]|\\.)*"|'[^']*'|[^\s#"'[{][^#]*?)[ \t]*:(?:[ \t]+|$)/.exec(line.slice(column));
  if (key) {
    const end = column + key[0].length;
    const inline = !/^\s*(#.*)?$/.test(line.slice(end));
    found.push({ column, key: unquote(key[1]!), inline, end });
  }
  return found;
}

const unquote = (key: string): string => (/^["']/.test(key) ? key.slice(1, -1) : key);

/** Goes by indentation alone, line by line upwards, as nothing else is left where the parser saw nothing. */
function byIndent(text: string, local: number, offset: number): YamlPlace {
  const lineStart = text.lastIndexOf("\n", local - 1) + 1;
  const before = text.slice(lineStart, local).replace(/^\uFEFF/, "");
  const own = openers(before);
  const last = own.at(-1);
  const above = text.slice(0, lineStart).split(/\r?\n/).slice(0, -1);
  if (last?.key !== undefined) {
    const typed = before.slice(last.end);
    const path = [...parents(above, own.slice(0, -1), last.column), last.key];
    return { path, where: "value", span: span(offset - typed.length, offset), flow: false, ownLine: false };
  }
  const column = last?.end ?? /^[ \t]*/.exec(before)![0].length;
  const word = before.slice(column);
  const path = parents(above, own, column);
  if (word === "") return { path, where: "blank", span: span(offset, offset), flow: false, ownLine: false };
  return {
    path: [...path, word],
    where: "key",
    span: span(offset - word.length, offset),
    flow: false,
    ownLine: true,
  };
}

/** Path of the collection that something at `column` would join, below `above` and behind `own` dashes. */
function parents(above: readonly string[], own: readonly Opener[], column: number): (string | number)[] {
  const path: (string | number)[] = [];
  let limit = column;
  // Set while the position in a list is being counted: the dashes' column.
  let counting: number | undefined;
  const step = (opener: Opener) => {
    if (counting !== undefined) {
      if (opener.key === undefined && opener.column === counting) {
        path[0] = (path[0] as number) + 1;
        return;
      }
      if (opener.column > counting || (opener.column === counting && opener.inline)) return;
      // A list may stand in the same column as the key it belongs to.
      limit = opener.key !== undefined ? counting + 1 : counting;
      counting = undefined;
    }
    if (opener.column >= limit) return;
    limit = opener.column;
    if (opener.key === undefined) {
      path.unshift(0);
      counting = opener.column;
    } else if (!opener.inline) path.unshift(opener.key);
  };
  for (const opener of [...own].reverse()) step(opener);
  for (const line of [...above].reverse()) {
    if (/^\s*(#.*)?$/.test(line)) continue;
    for (const opener of openers(line.replace(/^\uFEFF/, "")).reverse()) step(opener);
    if (limit === 0 && counting === undefined) break;
  }
  return path;
}
