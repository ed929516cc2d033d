import { type Span, span } from "../text/span";
import type { Problem } from "./yaml-node";

/** Longest file read, in UTF-16 code units. A board with every net of a large machine is some 200,000. */
export const MAX_LENGTH = 2_000_000;
/** Deepest nesting read. The formats need six levels. */
export const MAX_DEPTH = 100;

/**
 * Looks for text the YAML parser must not be given: not text at all, too long, or nested so deep that a
 * recursive parser runs out of stack (seen to abort the whole process, which no `catch` can stop).
 * Cuts the text short of the trouble where the part before it can still be read.
 */
export function guard(text: string): { readable: string; problems: Problem[] } {
  const stray = strayControl(text);
  if (stray) return { readable: "", problems: [stray] };
  const problems: Problem[] = [];
  let readable = text;
  if (text.length > MAX_LENGTH) {
    const cut = text.lastIndexOf("\n", MAX_LENGTH) + 1;
    readable = text.slice(0, cut);
    problems.push({
      code: "yaml-too-long",
      message: `This file has ${text.length} characters; reading stops here, after ${cut}. Split it into smaller files.`,
      span: span(cut, cut + 1),
    });
  }
  const deep = tooDeep(readable);
  if (deep) {
    problems.push({
      code: "yaml-too-deep",
      message: `The nesting is deeper than ${MAX_DEPTH} levels here, so the file is read up to this line only.`,
      step: "The formats need no more than six levels.",
      span: deep,
    });
    readable = readable.slice(0, readable.lastIndexOf("\n", deep.start) + 1);
  }
  return { readable, problems };
}

function strayControl(text: string): Problem | undefined {
  const at = text.search(/[\0-\x08\x0e-\x1f]/);
  if (at < 0) return undefined;
  const code = text.charCodeAt(at).toString(16).toUpperCase().padStart(2, "0");
  return {
    code: "yaml-not-text",
    message: `There is a control character (hexadecimal ${code}) here, so this is not a text file. Save it as plain UTF-8 text.`,
    span: span(at, at + 1),
  };
}

/** Where the nesting passes MAX_DEPTH: brackets, lines indented ever further, and chains of `a: b: c:` or `- - -`. */
function tooDeep(text: string): Span | undefined {
  const indents: number[] = [];
  let brackets = 0;
  let chain = 0;
  // Column a line must pass to stay inside the brackets; a line at or left of it ends them, closed or not.
  let fence = -1;
  let lineColumn = 0;
  let lineStart = true;
  for (let i = 0; i < text.length; i++) {
    if (lineStart) {
      lineStart = false;
      let column = 0;
      while (text[i + column] === " ") column++;
      const next = text[i + column];
      const blank = next === undefined || next === "\n" || next === "\r";
      if (!blank && brackets > 0 && column <= fence) {
        brackets = 0;
        chain = 0;
      }
      if (!blank) lineColumn = column;
      if (!blank && brackets === 0) {
        while (indents.length > 0 && indents[indents.length - 1]! >= column) indents.pop();
        indents.push(column);
      }
      i += column;
    }
    const c = text[i];
    if (c === "\n") {
      lineStart = true;
      if (brackets === 0) chain = 0;
    } else if (c === "[" || c === "{") {
      if (brackets === 0) fence = text[i - 1] === undefined || text[i - 1] === "\n" ? -1 : lineColumn;
      brackets++;
      chain = 0;
    } else if (c === "]" || c === "}") {
      brackets = Math.max(0, brackets - 1);
      chain = 0;
    } else if (c === ",") chain = 0;
    else if ((c === ":" || c === "-" || c === "?") && /\s/.test(text[i + 1] ?? "\n")) chain++;
    if (indents.length + brackets + chain > MAX_DEPTH) return span(i, Math.min(text.length, i + 1));
  }
  return undefined;
}
