// Fixtures as one string: a line of carets under a text marks it, with the code and a piece of the message
// that belongs there. The caret lines are taken out before the text is read.
import { expect } from "vitest";
import type { Span } from "../../server/src/text/span";

export interface Mark {
  readonly span: Span;
  readonly code: string;
  /** Must occur in the message; empty for any message. */
  readonly message: string;
}

export interface Marked {
  /** Without the caret lines. */
  readonly text: string;
  readonly marks: readonly Mark[];
}

interface Found {
  readonly span: Span;
  readonly code?: string;
  readonly message: string;
  /** A problem of a file has it beside its message, a finding in it. */
  readonly step?: string | undefined;
}

const said = ({ message, step }: Found): string =>
  step === undefined || message.endsWith(step) ? message : `${message} ${step}`;

const CARET_LINE = /^([ \t]*)(\^+) ([a-z0-9-]+)(?:: (.*))?$/;

/**
 * Splits a fixture into its text and its marks. A caret line stands under the line it marks, column for
 * column; a place at a line's end has its caret behind the last character. Several caret lines may follow
 * one line.
 */
export function readCarets(fixture: string): Marked {
  const marks: Mark[] = [];
  let text = "";
  let lineStart = 0;
  for (const part of fixture.split(/(?<=\n)/)) {
    const caret = CARET_LINE.exec(part.replace(/\r?\n$/, ""));
    if (!caret) {
      lineStart = text.length;
      text += part;
      continue;
    }
    const [, before = "", carets = "", code = "", message = ""] = caret;
    const start = lineStart + before.length;
    marks.push({ span: { start, end: start + carets.length }, code, message });
  }
  return { text, marks };
}

/** The text with carets under what was found; messages in full. */
export function renderCarets(text: string, found: readonly Found[]): string {
  let out = "";
  let offset = 0;
  for (const line of text.split(/(?<=\n)/)) {
    const end = offset + line.length;
    const last = end === text.length;
    out += line.endsWith("\n") || !last ? line : `${line}\n`;
    for (const item of found) {
      if (item.span.start < offset || (item.span.start >= end && !last)) continue;
      const width = lineWidth(text, item.span);
      out += `${" ".repeat(item.span.start - offset)}${"^".repeat(width)} ${item.code ?? ""}: ${said(item)}\n`;
    }
    offset = end;
  }
  return out;
}

/** Carets for a span: on its first line only, and at least one. */
function lineWidth(text: string, { start, end }: Span): number {
  const eol = text.slice(start).search(/\r?\n|$/);
  return Math.max(1, Math.min(end - start, eol));
}

/** Holds what was found against the marks: the same places and codes, and every message as marked. */
export function expectCarets({ text, marks }: Marked, found: readonly Found[]): void {
  const order = (a: Found, b: Found) => a.span.start - b.span.start || a.span.end - b.span.end;
  const left = [...marks].sort(order);
  const same =
    left.length === found.length &&
    [...found].sort(order).every((item, index) => {
      const mark = left[index]!;
      return (
        item.code === mark.code &&
        item.span.start === mark.span.start &&
        lineWidth(text, item.span) === mark.span.end - mark.span.start &&
        said(item).includes(mark.message)
      );
    });
  if (!same) expect(renderCarets(text, found)).toBe(renderCarets(text, marks));
}
