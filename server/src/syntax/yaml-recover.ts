import { span } from "../text/span";
import type { Builder } from "./yaml-build";
import { yamlDocument } from "./yaml-document";
import { duplicateKey, explain, loneWord } from "./yaml-errors";
import { nullAt, type Problem, type YamlEntry, type YamlNode } from "./yaml-node";

interface Line {
  readonly start: number;
  /** Behind the line break. */
  readonly end: number;
  readonly indent: number;
  readonly text: string;
  readonly blank: boolean;
}

/** Of the parser's own problems with one piece, so many are put into words; several may become one. */
export const MAX_EXPLAINED = 200;

/**
 * Reads a broken piece of YAML so that what is wrong stays where it is: the piece is cut at the lines that
 * begin an entry of its outermost block (in YAML nothing open reaches past such a line), each is parsed by
 * itself, and a broken entry with a block below it is cut again. Offsets count from the start of `text`;
 * `at` is its place in the document.
 */
export function recover(
  text: string,
  at: number,
  builder: Builder,
): { root: YamlNode | undefined; problems: Problem[] } {
  const problems: Problem[] = [];
  const lines = splitLines(text).filter((line) => !/^(%|---|\.\.\.)/.test(line.text));
  const root = block(lines, -1);
  return { root, problems };

  function block(part: readonly Line[], parentIndent: number): YamlNode | undefined {
    const first = part.find((line) => !line.blank);
    if (!first) return undefined;
    const indent = first.indent;
    const dashes = isDash(first);
    const pieces: Line[][] = [];
    for (const line of part) {
      const starts =
        !line.blank && (line.indent < indent || (line.indent === indent && (dashes || !isDash(line))));
      if (starts || pieces.length === 0) pieces.push([line]);
      else pieces.at(-1)!.push(line);
      if (starts && line.indent !== indent && line.indent > parentIndent) {
        problems.push({
          code: "yaml-indent",
          message: `This line is indented by ${line.indent}, the lines it belongs with by ${indent}.`,
          step: "Keys of one mapping must begin in the same column.",
          span: span(at + line.start, at + line.start + line.text.trimEnd().length),
        });
      }
    }
    const read = pieces.map((piece) => entry(piece)).filter((node) => node !== undefined);
    return merge(read, dashes);
  }

  function entry(piece: readonly Line[]): YamlNode | undefined {
    const start = piece[0]!.start;
    const raw = text.slice(start, piece.at(-1)!.end);
    const doc = yamlDocument(raw);
    if (doc.errors.length === 0) return builder.build(doc, raw, at + start);
    const head = piece.findIndex((line) => !line.blank);
    const header = piece[head];
    const body = piece.slice(head + 1);
    const under = body.find((line) => !line.blank);
    const splits =
      header !== undefined &&
      under !== undefined &&
      /^\s*(?:"[^"]*"|'[^']*'|[^\s"'#[\]{},&*!|>%@`-][^#]*?):\s*(?:#.*)?$/.test(header.text.trimEnd()) &&
      (under.indent > header.indent || isDash(under)) &&
      !/^\t/.test(under.text.trimStart() === under.text ? under.text : "");
    if (!splits) {
      // An unclosed quote hides the bracket behind it: the quote is the cause.
      const quote = doc.errors.find((error) => error.code === "MISSING_CHAR" && /quote/.test(error.message));
      const told = quote ? [quote] : doc.errors.slice(0, MAX_EXPLAINED);
      for (const error of told) problems.push(explain(error, doc, raw, at + start));
      const misread =
        doc.errors.some((error) => error.code === "BLOCK_AS_IMPLICIT_KEY") ||
        /^[^:]*:[ \t]+-[ \t]/.test(header?.text ?? "");
      return (misread && header && asTyped(header)) || builder.build(doc, raw, at + start);
    }
    const headText = text.slice(start, header.end);
    const headNode = builder.build(yamlDocument(headText), headText, at + start);
    const value = block(body, header.indent);
    if (headNode?.kind !== "map" || headNode.entries.length !== 1 || !value) return headNode ?? value;
    const only: YamlEntry = { ...headNode.entries[0]!, value };
    return {
      ...headNode,
      span: span(headNode.span.start, Math.max(headNode.span.end, value.span.end)),
      entries: [only],
      byKey: new Map([[only.key, only]]),
    };
  }

  /** `note: at 5: 3` as the text it was meant to be; `steps: - one`, a list begun too soon, as a key with nothing. */
  function asTyped(line: Line): YamlNode | undefined {
    const [, lead = "", value = ""] = /^([^:]*:[ \t]+)(.*?)[ \t]*$/.exec(line.text) ?? [];
    if (value === "") return undefined;
    const node = builder.build(yamlDocument(lead), lead, at + line.start);
    if (node?.kind !== "map" || node.entries.length !== 1) return undefined;
    if (/^-[ \t]/.test(value)) return node;
    const from = at + line.start + lead.length;
    const where = span(from, from + value.length);
    const read = yamlDocument(value);
    const plain = read.errors.length === 0 ? builder.build(read, value, from) : undefined;
    const scalar: YamlNode =
      plain?.kind === "scalar" ? plain : { kind: "scalar", span: where, source: value, value, quoted: false };
    const only: YamlEntry = { ...node.entries[0]!, value: scalar };
    return {
      ...node,
      span: span(node.span.start, where.end),
      entries: [only],
      byKey: new Map([[only.key, only]]),
    };
  }

  function merge(nodes: readonly YamlNode[], dashes: boolean): YamlNode | undefined {
    const first = nodes[0];
    const last = nodes.at(-1);
    if (!first || !last) return undefined;
    const whole = span(first.span.start, last.span.end);
    if (dashes) {
      for (const node of nodes) {
        if (node.kind === "list") continue;
        problems.push({
          code: "yaml-indent",
          message:
            "This is among the entries of a list but is none. Begin it with `- `, or indent it under the entry it belongs to.",
          span: node.kind === "map" ? (node.entries[0]?.keySpan ?? node.span) : node.span,
        });
      }
      const items = nodes.flatMap((node) => (node.kind === "list" ? node.items : []));
      return { kind: "list", span: whole, flow: false, items };
    }
    if (nodes.length === 1) return first;
    const entries: YamlEntry[] = [];
    const byKey = new Map<string, YamlEntry>();
    for (const node of nodes) {
      if (node.kind === "map") {
        for (const item of node.entries) add(item);
      } else if (node.kind === "scalar" && node.source) {
        problems.push(loneWord(node.source, node.span.start));
        add({
          key: node.source,
          keySpan: node.span,
          value: nullAt(node.span.end),
          duplicate: byKey.has(node.source),
        });
      }
    }
    return { kind: "map", span: whole, flow: false, entries, byKey };

    function add(item: YamlEntry) {
      const before = byKey.get(item.key);
      if (before && !item.duplicate) {
        problems.push(duplicateKey(item, before));
        entries.push({ ...item, duplicate: true });
        return;
      }
      entries.push(item);
      if (!before) byKey.set(item.key, item);
    }
  }
}

const isDash = (line: Line): boolean => /^\s*-(\s|$)/.test(line.text);

export function splitLines(text: string): Line[] {
  const lines: Line[] = [];
  let start = 0;
  while (start < text.length) {
    const lf = text.indexOf("\n", start);
    const end = lf < 0 ? text.length : lf + 1;
    const body = text.slice(start, end).replace(/\r?\n$/, "");
    const indent = /^ */.exec(body)![0].length;
    lines.push({ start, end, indent, text: body, blank: /^\s*(#.*)?$/.test(body) });
    start = end;
  }
  return lines;
}
