import { isNull, type YamlList, type YamlMap, type YamlNode } from "../../syntax/yaml";
import type { TextEdit } from "../../text/edits";
import { span } from "../../text/span";
import { type BoardText, columnAt, lineEnd, lineStart } from "./open";

/** One thing to put into a mapping or a list. */
export interface Item {
  /** `U5: { device: "7404" }`; for a list without the dash. */
  readonly body: string;
  /** What stands behind it, without the sign. */
  readonly comment?: string | undefined;
  /** Written as a comment, as it is no fact. */
  readonly off?: boolean;
  /** A long list once more, as its key and its rows, for where there is room for several lines. */
  readonly rows?: { readonly key: string; readonly lines: readonly string[] };
}

/** Widest line that a list is written on. */
const WIDEST = 110;

export const insertAt = (at: number, newText: string): TextEdit => ({ span: span(at, at), newText });

/**
 * Where the lines end that belong to what ends at `end` and began in column `column` or further right: its own
 * line, and the comments right below it that are indented deeper than `column`.
 */
export function behind(file: BoardText, end: number, column: number, last?: YamlNode): number {
  const { text } = file;
  let at = lineEnd(text, end);
  const next = (): { from: number; line: string } | undefined => {
    const from = text.indexOf("\n", at) + 1;
    return from === 0 ? undefined : { from, line: text.slice(from, lineEnd(text, from)) };
  };
  // Blank lines belong to a text that keeps them (`|+`).
  if (last && keepsBlanks(text, last)) {
    for (let below = next(); below && below.line.trim() === "" && below.from < text.length; below = next()) {
      at = lineEnd(text, below.from);
    }
  }
  for (let below = next(); below; below = next()) {
    const blanks = /^ *(?=#)/.exec(below.line)?.[0].length ?? -1;
    if (blanks <= column) return at;
    at = lineEnd(text, below.from);
  }
  return at;
}

function keepsBlanks(text: string, node: YamlNode): boolean {
  if (node.kind === "scalar") {
    return node.quoted && /^[|>]\d?\+/.test(text.slice(node.span.start, node.span.start + 3));
  }
  const last = node.kind === "map" ? node.entries.at(-1)?.value : node.items.at(-1);
  return last !== undefined && !node.flow && keepsBlanks(text, last);
}

/** Lines below what ends at `end`, in the column `indent` leads to. */
export function linesBelow(
  file: BoardText,
  at: number,
  indent: string,
  items: readonly Item[],
  dash: boolean,
): TextEdit[] {
  if (items.length === 0) return [];
  return [insertAt(at, items.map((item) => file.eol + itemLines(file, indent, item, dash)).join(""))];
}

/** The item as lines in the column `indent` leads to: one, or the rows of a list that would be too wide. */
export function itemLines(file: BoardText, indent: string, item: Item, dash: boolean): string {
  const { rows, off, body, comment } = item;
  if (!rows || off || indent.length + body.length <= WIDEST) return indent + lineText(item, dash);
  const deeper = indent + file.step;
  return [
    `${indent}${lineText({ body: `${rows.key}:`, comment }, dash)}`,
    `${deeper}[`,
    ...rows.lines.map((line) => deeper + file.step + line),
    `${deeper}]`,
  ].join(file.eol);
}

export function lineText({ body, comment, off }: Item, dash: boolean): string {
  const line = `${dash ? "- " : ""}${body}`;
  return `${off ? `# ${line}` : line}${comment === undefined ? "" : ` # ${comment}`}`;
}

/** A list or mapping of lines: one more line an item below its last one. */
export function appendLines(file: BoardText, node: YamlMap | YamlList, items: readonly Item[]): TextEdit[] {
  const column = columnAt(file.text, node.span.start);
  // A list may stand in the column of its key, whose comments are the next key's.
  const above = node.kind === "list" && column === rootColumn(file) ? column : column - 1;
  const at = behind(file, node.span.end, above, node);
  return linesBelow(file, at, " ".repeat(column), items, node.kind === "list");
}

export const rootColumn = (file: BoardText): number => columnAt(file.text, file.root.span.start);

/** One item a line within the brackets, so that each can have its comment. */
export function appendFlowLines(
  file: BoardText,
  node: YamlMap | YamlList,
  items: readonly Item[],
): TextEdit[] {
  const { text, eol } = file;
  const close = node.span.end - 1;
  const last = lastEnd(file, node);
  const gap = text
    .slice(last ?? node.span.start + 1, close)
    .replace(/#.*/g, (remark) => " ".repeat(remark.length));
  const from = last ?? node.span.start + 1;
  const comma = gap.includes(",") ? from + gap.indexOf(",") : undefined;
  const first = node.kind === "map" ? node.entries[0]?.keySpan.start : node.items[0]?.span.start;
  const alone = first !== undefined && text.slice(lineStart(text, first), first).trim() === "";
  const outer = /^ */.exec(text.slice(lineStart(text, node.span.start)))![0];
  const indent = alone ? " ".repeat(columnAt(text, first)) : outer + file.step;
  const facts = items.filter((item) => !item.off).length;
  let written = 0;
  const lines = items.map((item) => {
    if (item.off) return eol + indent + lineText(item, false);
    written++;
    const more = written < facts || comma !== undefined ? "," : "";
    return eol + indent + lineText({ ...item, body: item.body + more }, false);
  });
  const edits: TextEdit[] = [];
  if (last !== undefined && comma === undefined && facts > 0) edits.push(insertAt(last, ","));
  const start = Math.max(from, comma === undefined ? from : comma + 1);
  const end = lineEnd(text, start);
  // Where the bracket is on that line, it goes to a line of its own.
  if (end > close)
    edits.push(insertAt(start, `${lines.join("")}${eol}${indent.slice(text[start] === " " ? 1 : 0)}`));
  else edits.push(insertAt(end, lines.join("")));
  return edits;
}

/** Within the brackets, on the line of the last one. */
export function appendInline(
  file: BoardText,
  node: YamlMap | YamlList,
  bodies: readonly string[],
): TextEdit[] {
  const more = bodies.join(", ");
  const last = lastEnd(file, node);
  if (last !== undefined) return [insertAt(last, `, ${more}`)];
  const inside = span(node.span.start + 1, node.span.end - 1);
  const between = file.text.slice(inside.start, inside.end);
  const padded = node.kind === "map" ? ` ${more} ` : more;
  if (/^[ \t]*$/.test(between)) return [{ span: inside, newText: padded }];
  return [insertAt(inside.start, `${padded}${/^[\s]/.test(between) ? "" : " "}`)];
}

/** Behind the last of what is in the brackets; where that is a colon with nothing behind it, right behind it. */
function lastEnd({ text }: BoardText, node: YamlMap | YamlList): number | undefined {
  const last = node.kind === "map" ? node.entries.at(-1) : node.items.at(-1);
  if (!last) return undefined;
  const end = "kind" in last ? last.span.end : Math.max(last.keySpan.end, last.value.span.end);
  return text.slice(0, end).trimEnd().length;
}

/** Puts `newText` where nothing stands behind a colon; undefined where something else is in the way there. */
export function fillNull(file: BoardText, node: YamlNode, newText: string): TextEdit[] | undefined {
  if (!isNull(node)) return undefined;
  const { start, end } = node.span;
  if (start < end) return [{ span: node.span, newText }];
  const colon = file.text.slice(0, start).trimEnd().length;
  // Behind an anchor, or a key without its colon, it would be something else.
  const plain = file.text[colon - 1] === ":" && !/[\r\n]/.test(file.text.slice(colon, start));
  return plain ? [insertAt(colon, ` ${newText}`)] : undefined;
}
