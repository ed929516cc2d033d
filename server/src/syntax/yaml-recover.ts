import { parseDocument } from "yaml";
import { span } from "../text/span";
import type { Builder } from "./yaml-build";
import { clip, duplicateKey, explain } from "./yaml-errors";
import { nullAt, type Problem, type YamlEntry, type YamlNode } from "./yaml-node";

interface Line {
  readonly start: number;
  /** Behind the line break. */
  readonly end: number;
  readonly indent: number;
  readonly text: string;
  readonly blank: boolean;
}

export const PARSER_OPTIONS = {
  version: "1.2",
  schema: "core",
  prettyErrors: false,
  // Ours is linear and names both places; the parser's compares every key with every other.
  uniqueKeys: false,
  logLevel: "silent",
} as const;

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
          message: `This line is indented by ${line.indent}, the lines it belongs with by ${indent}. Keys of one mapping must begin in the same column.`,
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
    const doc = parseDocument(raw, PARSER_OPTIONS);
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
      for (const error of doc.errors) problems.push(explain(error, doc, raw, at + start));
      return builder.build(doc, raw, at + start);
    }
    const headText = text.slice(start, header.end);
    const headNode = builder.build(parseDocument(headText, PARSER_OPTIONS), headText, at + start);
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

  function merge(nodes: readonly YamlNode[], dashes: boolean): YamlNode | undefined {
    const first = nodes[0];
    const last = nodes.at(-1);
    if (!first || !last) return undefined;
    const whole = span(first.span.start, last.span.end);
    if (dashes) {
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
        problems.push({
          code: "yaml-colon",
          message: `\`${clip(node.source)}\` stands alone where a \`key: value\` is wanted. Put a colon and a space behind the key.`,
          span: node.span,
        });
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
