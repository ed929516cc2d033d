// The files that a log names: where Markdown links and images lead, and the image files in its tables.

import type { Nodes } from "mdast";
import { memo } from "../base/memo";
import { nodeSpan } from "../syntax/node-span";
import { type Span, shift, slice, span } from "../text/span";
import type { LogDocument } from "./document";
import type { LogBlock } from "./model";

export interface NamedPath {
  /** Exactly the path as typed, without brackets, quotes and what stands behind "#" or "?". */
  readonly span: Span;
  /** The path itself: forward slashes, nothing escaped. */
  readonly path: string;
  /** `link`: in a Markdown link, image or definition; `cell`: the plain words of a table's cell. */
  readonly kind: "link" | "cell";
  /** In `<` and `>`, where blanks need no escape. */
  readonly angled: boolean;
}

/** Every file that the log names, in order; spans of the document. */
export function pathsOf(doc: LogDocument): NamedPath[] {
  return doc.blocks.flatMap(({ start, block }) =>
    pathsInBlock(block).map((it) => ({ ...it, span: shift(it.span, start) })),
  );
}

/** Spans of the block, in order; looked for once. */
export const pathsInBlock = memo((block: LogBlock): readonly NamedPath[] =>
  [...linksIn(block), ...imageCells(block)].sort((a, b) => a.span.start - b.span.start),
);

/** Nothing with a scheme and nothing within the page itself. */
const isFile = (address: string): boolean =>
  address !== "" && !/^(?:[a-z][a-z0-9+.-]+:|\/\/|#)/i.test(address);

function linksIn({ source: { tree, text } }: LogBlock): NamedPath[] {
  const found: NamedPath[] = [];
  const waiting: Nodes[] = [...tree.children];
  for (let node = waiting.pop(); node !== undefined; node = waiting.pop()) {
    if ((node.type === "link" || node.type === "image" || node.type === "definition") && isFile(node.url)) {
      const at = nodeSpan(text, node);
      const path = at && addressIn(text, at, node.url, node.type === "definition");
      if (path) found.push(path);
    }
    if ("children" in node) waiting.push(...node.children);
  }
  return found;
}

/** Finds the address in the source of its link; undefined where it cannot be told apart. */
function addressIn(text: string, at: Span, url: string, defined: boolean): NamedPath | undefined {
  const opener = defined ? /\]:\s*/g : /\]\(\s*/g;
  const source = slice(text, at);
  for (const match of source.matchAll(opener)) {
    const from = match.index + match[0].length;
    const angled = source[from] === "<";
    const typed = angled
      ? /^[^<>\r\n]*/.exec(source.slice(from + 1))![0]
      : /^[^\s()<>]*(?:\([^\s()]*\)[^\s()]*)*/.exec(source.slice(from))![0];
    // The parser reads escapes and entities; what has any is left alone.
    if (typed !== url && decoded(typed) !== decoded(url)) continue;
    const bare = /^[^?#]*/.exec(typed)![0];
    const start = at.start + from + (angled ? 1 : 0);
    return bare === ""
      ? undefined
      : { span: span(start, start + bare.length), path: decoded(bare), kind: "link", angled };
  }
  return undefined;
}

function imageCells({ tables, source: { text } }: LogBlock): NamedPath[] {
  return tables.flatMap(({ readings }) =>
    readings.flatMap(({ measure, cell, value }): NamedPath[] => {
      if (measure !== "image" || value.kind === "empty" || /[[\]<>|]/.test(cell.text)) return [];
      const typed = slice(text, cell.span);
      const [, ticks = "", path = ""] = /^(`*)\s*(.*?)\s*`*$/.exec(typed) ?? [];
      if (/^[-–—?.]*$/.test(path) || !isFile(path)) return [];
      const start = cell.span.start + typed.indexOf(path, ticks.length);
      return [
        {
          span: span(start, start + path.length),
          path: path.replaceAll("\\", "/"),
          kind: "cell",
          angled: false,
        },
      ];
    }),
  );
}

/** An address without its percent signs: "a%20b" is "a b". What cannot be decoded stays as it is. */
export function decoded(address: string): string {
  try {
    return decodeURIComponent(address);
  } catch {
    // A stray "%" in somebody's file name.
    return address;
  }
}
