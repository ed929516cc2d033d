import { nodeAt, type YamlTree } from "../../syntax/yaml";
import { type Span, span } from "../../text/span";

/** The name of a thing in its board file. */
export function placeInBoard(tree: Pick<YamlTree, "root">, path: readonly string[]): Span | undefined {
  const found = nodeAt(tree, path);
  return found && (found.keySpan && path.length > 1 ? found.keySpan : found.valueSpan);
}

/** The first heading of the first level below the front matter, else the first line. */
export function titleIn(text: string): Span {
  const body = /^\uFEFF?---\r?\n[\s\S]*?\n(?:---|\.\.\.)[ \t]*(?:\r?\n|$)/.exec(text)?.[0].length ?? 0;
  const heading = /^#[ \t]+[^\r\n]*/m.exec(text.slice(body));
  const start = heading ? body + heading.index : 0;
  return span(start, start + (heading?.[0].length ?? 0));
}
