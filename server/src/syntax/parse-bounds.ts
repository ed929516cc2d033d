// What makes the parser's time grow faster than its text, found before it sees the text: containers nested in each
// other, and marks of emphasis, links and pictures in one paragraph, each of which it tries against all before it. Measured
// on one core of the usual machine: 50 lists in a line 0.1 s, 1,000 marks in a paragraph 0.2 s, both growing as the square
// or worse. A linear scan that may call harmless what is not a container or a mark after all, such as code; never the reverse.

/** Lists and quotes that begin in one line, one in the other. */
export const MAX_NESTING = 50;
/** Columns of white space before a list mark: as deep as lists are nested over lines, at two columns each. */
export const MAX_INDENT = 100;
/** Runs of `*`, `_` or `~` and square brackets in one paragraph or table row. */
export const MAX_MARKS = 1000;
/** Comments, declarations and instructions in one paragraph or row: each is looked for to its end. */
export const MAX_OPENED = 100;
/** Characters of a paragraph or row behind a bracket that is never closed: each word looks back to it. */
export const MAX_BEHIND_BRACKET = 8000;
/** Lines of a section. A list of so many takes a second; a table of so many rows is some hundred pages. */
export const MAX_LINES = 10_000;
/** Lines under a quote, a list or a note in a row that go on with its paragraph without its mark or its indent. */
export const MAX_LAZY = 2000;

/** The bound that a text breaks and the offset of the line that does, or nothing. @param text a block's text */
export function growsTooFast(
  text: string,
): { readonly limit: "nesting" | "marks" | "lines"; readonly at: number } | undefined {
  let lines = 0;
  let marks = NONE;
  let lazy = 0;
  let inContainer = false;
  let previous = "";
  let isTable = false;
  let start = 0;
  while (start < text.length) {
    const end = endOfLine(text, start);
    const line = text.slice(start, end);
    const at = start;
    start = end + (text.startsWith("\r\n", end) ? 2 : 1);
    if (++lines > MAX_LINES) return { limit: "lines", at };
    const { markers, indent, isItem } = containersOf(line);
    const opens = markers > 0 || /^ {0,3}\[\^/.test(line);
    inContainer ||= opens;
    lazy = inContainer && !opens ? lazy + 1 : 0;
    if (lazy > MAX_LAZY) return { limit: "lines", at };
    if (markers > MAX_NESTING || (isItem && indent > MAX_INDENT)) return { limit: "nesting", at };
    if (/^[ \t>]*$/.test(line)) {
      marks = NONE;
      isTable = false;
      if (!opens) inContainer = false;
    } else {
      // Each item and each row is a paragraph of its own for the parser.
      if (isItem || isTable) marks = NONE;
      marks = marksIn(line, marks);
      const { runs, opened, behind } = marks;
      if (runs > MAX_MARKS || opened > MAX_OPENED || behind > MAX_BEHIND_BRACKET)
        return { limit: "marks", at };
      isTable ||= isDelimiter(line) && cells(line) === cells(previous);
    }
    previous = line;
  }
  return undefined;
}

function endOfLine(text: string, from: number): number {
  for (let at = from; at < text.length; at++) {
    const code = text.charCodeAt(at);
    if (code === 10 || code === 13) return at;
  }
  return text.length;
}

const CONTAINER = /([ \t]*)(?:(>)|(?:[-+*]|\d{1,9}[.)])(?=[ \t]|$))/y;

/** How many containers the line opens or goes on with, how far in the last list mark stands, and whether there is one. */
function containersOf(line: string): {
  readonly markers: number;
  readonly indent: number;
  readonly isItem: boolean;
} {
  let markers = 0;
  let indent = 0;
  let isItem = false;
  CONTAINER.lastIndex = 0;
  for (let found = CONTAINER.exec(line); found; found = CONTAINER.exec(line)) {
    markers++;
    if (found[2] !== undefined) continue;
    isItem = true;
    indent = Math.max(indent, found[1]!.length);
  }
  return { markers, indent, isItem };
}

/** What stands in a paragraph so far. */
interface Marks {
  readonly runs: number;
  readonly opened: number;
  /** Brackets that are still open. */
  readonly open: number;
  /** Characters since the first of those. */
  readonly behind: number;
}
const NONE: Marks = { runs: 0, opened: 0, open: 0, behind: 0 };

function marksIn(line: string, before: Marks): Marks {
  let { runs, opened, open } = before;
  let from = open > 0 ? -before.behind : 0;
  let last = 0;
  for (let at = 0; at < line.length; at++) {
    const code = line.charCodeAt(at);
    const isBracket = code === 0x5b || code === 0x5d;
    const isRun = code === 0x2a || code === 0x5f || code === 0x7e;
    if (isBracket || (isRun && code !== last)) runs++;
    if ((code === 0x21 || code === 0x3f) && last === 0x3c) opened++;
    if (code === 0x5b && open++ === 0) from = at;
    if (code === 0x5d && open > 0) open--;
    last = code;
  }
  return { runs, opened, open, behind: open > 0 ? line.length + 1 - from : 0 };
}

const isDelimiter = (line: string): boolean => line.includes("-") && /^[ \t>|:-]+$/.test(line);

const cells = (line: string): number =>
  line
    .trim()
    .replace(/^\||\|$/g, "")
    .split("|").length;
