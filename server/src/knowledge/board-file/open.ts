import { CST, Lexer } from "yaml";
import { isNull, parseYaml, type YamlMap, type YamlNode } from "../../syntax/yaml";
import { lineIndex } from "../../text/line-index";
import type { Span } from "../../text/span";
import type { BoardSection, NotEdited } from "./change";
import { expectedKey, isListSection } from "./entry";

/** A board file that can be edited: its tree, and what a tree leaves out. */
export interface BoardText {
  readonly text: string;
  readonly eol: "\n" | "\r\n";
  readonly root: YamlMap;
  /** Blanks of one level. */
  readonly step: string;
  /** Without their line ends. */
  readonly comments: readonly Span[];
  /** Texts written over several lines: nothing may be put at the ends of the lines in them. */
  readonly folded: readonly Span[];
}

let last: { readonly text: string; readonly opened: BoardText | NotEdited } | undefined;

/**
 * Opens the text for editing; the reason where it cannot be edited without doing it harm. The last one opened is
 * kept, as an editor asks for every fix of a place with the same text.
 */
export function openBoard(text: string): BoardText | NotEdited {
  if (last?.text !== text) last = { text, opened: opened(text) };
  return last.opened;
}

function opened(text: string): BoardText | NotEdited {
  const tree = parseYaml(text);
  // Of a key that stands twice the first counts, and it is the first that is edited.
  const broken = tree.problems.find(({ code }) => code !== "yaml-duplicate-key");
  if (broken) {
    return no(
      `Line ${lineNumberOf(text, broken.span.start)} of the board file is not valid YAML, so nothing was written. ${broken.message}`,
    );
  }
  const { root } = tree;
  if (!root) return no("The board file is empty, so nothing was added. It begins with `mendlog-board: 1`.");
  const version = root.kind === "map" ? root.byKey.get("mendlog-board")?.value : undefined;
  if (root.kind !== "map" || version?.kind !== "scalar") {
    return no(
      "This is not a board file, so nothing was written. A board file begins with `mendlog-board: 1`.",
    );
  }
  if (version.value !== 1) {
    return no(
      `The board file is of version \`${version.source}\`, so nothing was written; this Mendlog writes version 1.`,
    );
  }
  if (root.flow) {
    return no(
      "The whole board file is in one pair of braces, so nothing was written. Put each top-level key on a line of its own, without them.",
    );
  }
  return {
    text,
    eol: /\r?\n/.exec(text)?.[0] === "\r\n" ? "\r\n" : "\n",
    root,
    step: stepOf(text, root),
    ...tokens(text),
  };
}

const no = (reason: string): NotEdited => ({ ok: false, reason });

/** Counted from 1. */
export const lineNumberOf = (text: string, offset: number): number => lineIndex(text).lineAt(offset) + 1;

/** Offset of the end of the line that holds `offset`, in front of its line end. */
export function lineEnd(text: string, offset: number): number {
  const end = text.indexOf("\n", offset);
  if (end < 0) return text.length;
  return end > offset && text[end - 1] === "\r" ? end - 1 : end;
}

/** Offset of the first character of the line that the offset is in; a byte order mark is none. */
export function lineStart(text: string, offset: number): number {
  const start = text.lastIndexOf("\n", offset - 1) + 1;
  return start === 0 && text.startsWith("\uFEFF") ? 1 : start;
}

/** How many characters stand before the offset in its line: the depth of its indentation. */
export const columnAt = (text: string, offset: number): number => offset - lineStart(text, offset);

function tokens(text: string): Pick<BoardText, "comments" | "folded"> {
  const comments: Span[] = [];
  const folded: Span[] = [];
  let at = 0;
  let plain = false;
  for (const source of new Lexer().lex(text)) {
    const type = CST.tokenType(source);
    // Zero-length marks: the next lexeme is a scalar's text, a document begins, an error.
    const mark = source === CST.SCALAR || source === CST.DOCUMENT || source === CST.FLOW_END;
    if (!mark) {
      const span = { start: at, end: at + source.length };
      if (type === "comment" && !plain) comments.push(span);
      else if ((plain || /quoted/.test(type ?? "")) && source.includes("\n")) folded.push(span);
      at = span.end;
    }
    plain = source === CST.SCALAR;
  }
  return { comments, folded };
}

function stepOf(text: string, root: YamlMap): string {
  for (const { keySpan, value } of root.entries) {
    if (value.kind !== "map" || value.flow || value.entries.length === 0) continue;
    const deep = columnAt(text, value.span.start) - columnAt(text, keySpan.start);
    if (deep > 0) return " ".repeat(deep);
  }
  return "  ";
}

/** What stands under the section's key; undefined where there is no such key. */
export const sectionNode = (file: BoardText, section: string): YamlNode | undefined =>
  file.root.byKey.get(section)?.value;

/** Entries of the section by key, the first of each. */
export function entriesOf(file: BoardText, section: BoardSection): ReadonlyMap<string, YamlNode> {
  const node = sectionNode(file, section);
  const found = new Map<string, YamlNode>();
  if (node?.kind === "map") for (const [key, { value }] of node.byKey) found.set(key, value);
  if (node?.kind === "list") {
    for (const item of node.items) {
      const key = listedKey(item);
      if (key !== undefined && !found.has(key)) found.set(key, item);
    }
  }
  return found;
}

/** Key of an item of a section that is a list. */
export function listedKey(item: YamlNode): string | undefined {
  if (item.kind === "scalar") return isNull(item) ? undefined : item.source;
  if (item.kind === "list") return undefined;
  const place: Record<string, string> = {};
  for (const field of ["procedure", "ref", "pin", "rail"]) {
    const given = fieldOf(item, field);
    if (typeof given === "string") place[field] = given;
  }
  return expectedKey(place);
}

/** A field's text or texts; undefined where it is not given. */
export function fieldOf(node: YamlNode, field: string): string | readonly string[] | undefined {
  const value = node.kind === "map" ? node.byKey.get(field)?.value : undefined;
  return value === undefined || isNull(value) ? undefined : nodeTexts(value);
}

export function nodeTexts(node: YamlNode): string | readonly string[] {
  if (node.kind === "scalar") return node.source;
  if (node.kind === "list") return node.items.map((item) => (item.kind === "scalar" ? item.source : "…"));
  return "…";
}

/** Why the section cannot be written in as it stands. */
export function sectionFault(file: BoardText, section: BoardSection): string | undefined {
  const node = sectionNode(file, section);
  if (node === undefined || isNull(node)) return undefined;
  const line = lineNumberOf(file.text, node.span.start);
  if (isAlias(file, node))
    return `\`${section}\` in line ${line} repeats another place (\`*\`), so nothing was written. Write it out first.`;
  const wanted = isListSection(section) ? "list" : "map";
  if (node.kind === wanted) return undefined;
  return `\`${section}\` in line ${line} is no ${isListSection(section) ? "list" : "mapping of names"}, so nothing was written. Correct it first.`;
}

/** An alias stands for a node that is elsewhere: to change it would change both. */
export const isAlias = (file: BoardText, node: YamlNode): boolean =>
  node.span.end > node.span.start &&
  file.text[node.span.start] === "*" &&
  !(node.kind === "scalar" && node.quoted);
