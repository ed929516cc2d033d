import { type Span, span } from "../../text/span";

/** The line above is looked at for this far. */
const MAX_LINE = 1_000;

export interface OwnLine {
  /** The whole line, which a table put there replaces. */
  readonly span: Span;
  /** What is typed of a name, and the blanks and the pipe in front of it. */
  readonly typed: string;
  readonly lead: string;
  readonly eol: string;
  /** Goes in front of the table: below a quotation an empty line, or the table would be a part of it. */
  readonly gap: string;
}

/**
 * A line on which a whole table may be put. A table someone has begun is left alone: only blanks may follow on
 * the line, and no row stands right above it. Neither may other text: the table would become a part of it. Only
 * below a quotation, as the cautions of a new log are, it is parted from it.
 */
export function ownLine(text: string, lineStart: number, offset: number): OwnLine | undefined {
  const before = text.slice(lineStart, offset);
  const typed = before.replace(/^[ \t]*\|?[ \t]*/, "");
  const rest = /^[^\r\n]*/.exec(text.slice(offset))?.[0] ?? "";
  const above = /([^\r\n]*)\r?\n$/.exec(text.slice(Math.max(0, lineStart - MAX_LINE), lineStart))?.[1] ?? "";
  const quoted = /^ {0,3}>/.test(above);
  if (rest.trim() !== "" || !(quoted || /^[ \t]*(?:#.*|.*-->|---)?[ \t]*$/.test(above))) return undefined;
  const eol = text.includes("\r\n") ? "\r\n" : "\n";
  return {
    span: span(lineStart, offset + rest.length),
    typed,
    lead: before.slice(0, before.length - typed.length),
    eol,
    gap: quoted ? eol : "",
  };
}
