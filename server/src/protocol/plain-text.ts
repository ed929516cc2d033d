// For clients that show no Markdown: the same words without its marks.

import type { Markdown } from "../text/markdown";

/**
 * Our own Markdown as it reads in plain text: emphasis, escapes and the marks of code and tables gone, a link followed by
 * where it leads. It knows what our texts hold, not all of Markdown.
 */
export function markdownToPlainText(markdown: Markdown): string {
  return markdown
    .split("\n")
    .filter((line) => !TABLE_RULE.test(line))
    .map((line) => (RULE.test(line) ? "" : inline(row(line))).trimEnd())
    .join("\n")
    .replace(/\n{3,}/g, "\n\n")
    .trim();
}

const TABLE_RULE = /^\|(?:\s*:?-+:?\s*\|)+\s*$/;
const RULE = /^\s*---+\s*$/;

/** A row of a table keeps its cells apart. */
const row = (line: string): string =>
  /^\|.*[^\\]\|\s*$/.test(line) ? line.trim().slice(1, -1).trim() : line;

const inline = (line: string): string =>
  line.replace(/^#{1,6} /, "").replace(INLINE, (all, escaped, code, label, target, strong, emphasis) => {
    if (escaped !== undefined) return escaped;
    if (code !== undefined) return code;
    if (label !== undefined) return label === target ? target : `${inline(label)} (${target})`;
    const inner = strong ?? emphasis;
    return inner === undefined ? all : inline(inner);
  });

const INLINE =
  /\\([!-/:-@[-`{-~])|`([^`]+)`|!?\[((?:\\.|[^\]\\])*)\]\(([^()\s]*)\)|\*\*((?:\\.|[^*\\])+)\*\*|\*(?! )((?:\\.|[^*\\])+)\*/g;
