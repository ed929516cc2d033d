import type { Document, YAMLParseError } from "yaml";
import { isScalar, visit } from "yaml";
import { defined } from "../base/defined";
import { span } from "../text/span";
import type { Problem, YamlEntry } from "./yaml-node";

/**
 * Says a YAML parser's error in words for someone who never read the YAML specification, at the
 * characters to change. `text` is the piece that was parsed, `at` its place in the document.
 */
export function explain(error: YAMLParseError, doc: Document.Parsed, text: string, at: number): Problem {
  const first = Math.min(error.pos[0], Math.max(0, text.length - 1));
  const start = isWithinCharacter(text, first) ? first - 1 : first;
  const lineEnd = endOfLine(text, start);
  const end = endOfCharacter(
    text,
    Math.max(Math.min(error.pos[1], lineEnd), Math.min(start + 1, text.length)),
  );
  const typed = text.slice(start, end);
  const plain = (code: string, message: string, from = start, to = end): Problem => ({
    code,
    message,
    span: span(at + from, at + to),
  });
  switch (error.code) {
    case "TAB_AS_INDENT": {
      const tabs = /^\t+/.exec(text.slice(start))?.[0].length ?? 1;
      return {
        ...plain(
          "yaml-tab",
          "This line is indented with a tab; YAML takes spaces only. Use two spaces a level.",
          start,
          start + tabs,
        ),
        suggestion: [{ span: span(at + start, at + start + tabs), newText: "  ".repeat(tabs) }],
      };
    }
    case "BLOCK_AS_IMPLICIT_KEY":
      return quoteValue(text, start, at);
    case "BLOCK_IN_FLOW":
      return missingComma(text, start, at) ?? plain("yaml-syntax", `${plainWords(error)} Check this line.`);
    case "BAD_SCALAR_START": {
      const value = text.slice(start, lineEnd).trimEnd();
      return {
        ...plain(
          "yaml-quote",
          `YAML keeps the sign that "${clip(value)}" begins with for itself. Put the value in quotes.`,
          start,
          start + value.length,
        ),
        ...(/["\\,{}[\]]/.test(value)
          ? {}
          : { suggestion: [{ span: span(at + start, at + start + value.length), newText: `"${value}"` }] }),
      };
    }
    case "MISSING_CHAR":
      if (/quote/.test(error.message)) {
        const opening = openQuote(doc, text) ?? start;
        return plain(
          "yaml-unclosed",
          `The quote \`${text[opening]}\` opened here is never closed. Put one at the end of the value.`,
          opening,
          Math.max(opening + 1, endOfLine(text, opening)),
        );
      }
      if (/followed by map values/.test(error.message)) {
        return loneWord(text.slice(start, lineEnd).trimEnd(), at + start);
      }
      return unclosed(text, start, at) ?? plain("yaml-syntax", `${plainWords(error)} Check this line.`);
    case "BAD_INDENT":
      if (/^Flow/.test(error.message)) {
        const open = unclosed(text, start, at);
        if (open) return open;
      }
      return plain(
        "yaml-indent",
        "This line's indentation fits none of the lines above. Keys of one mapping must begin in the same column.",
        ...wholeLine(text, start),
      );
    case "MULTIPLE_DOCS":
      return plain(
        "yaml-documents",
        "A second YAML document begins here; a file holds one, and what follows is not read. Remove this line or make a file of the rest.",
      );
    case "UNEXPECTED_TOKEN":
      if (typed === "-") {
        return plain(
          "yaml-list",
          "A list cannot begin on its key's line. Put each `- ` entry on a line of its own below, or write the list in brackets: `[one, two]`.",
        );
      }
      if (/:\s+[*&!]\S*\s+$/.test(text.slice(text.lastIndexOf("\n", start - 1) + 1, start))) {
        return plain(
          "yaml-quote",
          "A value that begins with `*`, `&` or `!` means something else in YAML. Put the whole value in quotes.",
        );
      }
      if (unclosed(text, start, at)) {
        const comma = missingComma(text, start, at);
        if (comma) return comma;
      }
      return plain(
        "yaml-syntax",
        `\`${typed.trim() || typed}\` is out of place here. If it belongs to the value before it, put the whole value in quotes.`,
      );
    case "BAD_DQ_ESCAPE": {
      const behind = endOfCharacter(text, Math.min(text.length, start + 2));
      return plain(
        "yaml-escape",
        `\`${text.slice(start, behind)}\` is no escape that YAML knows. In double quotes write a backslash as \`\\\\\`, or use single quotes.`,
        start,
        behind,
      );
    }
    case "MULTILINE_IMPLICIT_KEY":
      return plain("yaml-syntax", "A key must be on one line, with its colon. Is a colon missing here?");
    case "BAD_ALIAS":
    case "ALIAS_PROPS":
      return plain("yaml-quote", "A value that begins with `*` is an alias in YAML. Put it in quotes.");
    case "RESOURCE_EXHAUSTION":
      return plain("yaml-too-deep", "The nesting is too deep to read here.");
    default:
      return plain("yaml-syntax", `${plainWords(error)} Check this line.`);
  }
}

/** Between the halves of a surrogate pair. */
const isWithinCharacter = (text: string, at: number): boolean => (text.codePointAt(at - 1) ?? 0) > 0xffff;

const endOfCharacter = (text: string, at: number): number => (isWithinCharacter(text, at) ? at + 1 : at);

const plainWords = (error: YAMLParseError): string =>
  `This is not valid YAML: ${error.message.charAt(0).toLowerCase()}${error.message.slice(1).replace(/\.?$/, ".")}`;

function endOfLine(text: string, from: number): number {
  let at = from;
  while (at < text.length && text[at] !== "\n" && text[at] !== "\r") at++;
  return at;
}

function wholeLine(text: string, at: number): [number, number] {
  // The parser points at the break before the odd line as often as at the line itself.
  let from = at;
  while (from < text.length && /[\s]/.test(text[from]!)) from++;
  if (from >= text.length) return [Math.max(0, text.length - 1), text.length];
  return [from, endOfLine(text, from)];
}

/** `note: at 5: 3`: the second colon makes YAML see a mapping within a line. */
function quoteValue(text: string, at: number, base: number): Problem {
  const lineStart = text.lastIndexOf("\n", at - 1) + 1;
  const line = text.slice(lineStart, endOfLine(text, at));
  const head = /^\s*(?:- )*[^:]*:\s+/.exec(line)?.[0] ?? "";
  const value = line.slice(head.length).trimEnd();
  const from = lineStart + head.length;
  const where = span(base + from, base + from + Math.max(1, value.length));
  if (!/:(\s|$)/.test(value)) {
    return {
      code: "yaml-indent",
      message: `The line below is indented under this key, which already has the value \`${clip(value)}\`.`,
      step: "Indent it like the key, or take the value away.",
      span: where,
    };
  }
  return defined({
    code: "yaml-quote",
    message: `\`${value}\` has a colon and a space, so YAML takes it for another key.`,
    step: "Put the value in quotes.",
    span: where,
    suggestion: /["\\]/.test(value) ? undefined : [{ span: where, newText: `"${value}"` }],
  });
}

/** `{ device: 7404 circuit: reset }`: a value, and the next key behind it. */
function missingComma(text: string, at: number, base: number): Problem | undefined {
  const lineStart = text.lastIndexOf("\n", at - 1) + 1;
  const line = text.slice(lineStart, endOfLine(text, at));
  const found = /[\w.%"'\])}]([ \t]+)([A-Za-z][\w-]*):[ \t]/g;
  found.lastIndex = Math.max(0, text.slice(lineStart, at).trimEnd().length - 1);
  const [whole, gap = "", key = ""] = found.exec(line) ?? [];
  if (whole === undefined) return undefined;
  const comma = base + lineStart + found.lastIndex - whole.length + 1;
  const from = comma + gap.length;
  return {
    code: "yaml-comma",
    message: `A comma is missing before \`${key}\`: between braces each value needs one behind it.`,
    span: span(from, from + key.length),
    suggestion: [{ span: span(comma, comma), newText: "," }],
  };
}

/** A word where a `key: value` should be; `start` is its place in the document. */
export function loneWord(word: string, start: number): Problem {
  const glued = /^([^\s:]+):(\S.*)$/.exec(word);
  const where = span(start, start + Math.max(1, word.length));
  if (glued) {
    const colon = start + glued[1]!.length + 1;
    return {
      code: "yaml-colon",
      message: `\`${clip(word)}\` needs a space behind the colon: \`${glued[1]}: ${clip(glued[2]!)}\`.`,
      span: where,
      suggestion: [{ span: span(colon, colon), newText: " " }],
    };
  }
  return {
    code: "yaml-colon",
    message: `\`${clip(word)}\` is alone where a \`key: value\` belongs.`,
    step: "Put a colon and a space behind the key.",
    span: where,
  };
}

/** Opening quote of the last quoted scalar, which is the one that ran to the end of the piece. */
function openQuote(doc: Document.Parsed, text: string): number | undefined {
  let found: number | undefined;
  visit(doc, {
    Scalar(_key, node) {
      if (isScalar(node) && (node.type === "QUOTE_DOUBLE" || node.type === "QUOTE_SINGLE") && node.range) {
        const end = node.range[1];
        if (end >= text.trimEnd().length || text.slice(end).trim() === "") found = node.range[0];
      }
    },
  });
  return found;
}

/** The innermost `[` or `{` still open before `at`, quotes and comments left out. */
function unclosed(text: string, at: number, base: number): Problem | undefined {
  const open: number[] = [];
  let quote = "";
  for (let i = 0; i < Math.min(at, text.length); i++) {
    const c = text[i]!;
    if (quote) {
      if (c === "\\" && quote === '"') i++;
      else if (c === quote) quote = "";
    } else if ((c === '"' || c === "'") && /[\s[{,:]/.test(text[i - 1] ?? " ")) quote = c;
    else if (c === "#" && /\s/.test(text[i - 1] ?? " ")) i = endOfLine(text, i) - 1;
    else if (c === "[" || c === "{") open.push(i);
    else if (c === "]" || c === "}") open.pop();
  }
  const from = open.at(-1);
  if (from === undefined) return undefined;
  const close = text[from] === "[" ? "]" : "}";
  return {
    code: "yaml-unclosed",
    message: `The \`${text[from]}\` opened here is not closed before the next key.`,
    step: `Put the \`${close}\` at the end of it.`,
    span: span(base + from, base + endOfLine(text, from)),
  };
}

export const duplicateKey = (item: Pick<YamlEntry, "key" | "keySpan">, first: YamlEntry): Problem => ({
  code: "yaml-duplicate-key",
  message: `\`${item.key}\` is in this mapping twice; the first one counts.`,
  step: "Remove or rename one of them.",
  span: item.keySpan,
  related: [{ span: first.keySpan, message: `\`${item.key}\` was given here first` }],
});

export const clip = (text: string, most = 60): string =>
  text.length <= most ? text : `${text.slice(0, most - 3)}...`;
