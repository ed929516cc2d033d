import {
  type Document,
  isAlias,
  isMap,
  isPair,
  isScalar,
  isSeq,
  type ParsedNode,
  type Scalar,
  type YAMLMap,
  type YAMLSeq,
} from "yaml";
import { type Span, span } from "../text/span";
import { duplicateKey } from "./yaml-errors";
import {
  nullAt,
  type Problem,
  type YamlEntry,
  type YamlList,
  type YamlMap,
  type YamlNode,
  type YamlScalar,
} from "./yaml-node";

/** Nodes that aliases may add to a file, all together. */
export const MAX_ALIASED = 10_000;

const PLAIN_TAGS = new Set(
  ["str", "int", "float", "bool", "null", "map", "seq"].map((t) => `tag:yaml.org,2002:${t}`),
);

interface Anchored {
  readonly node: YamlNode;
  readonly size: number;
}

/**
 * Turns the parser's nodes into ours, over one or several pieces of a file. Aliases share the node they
 * name, and the sizes they stand for are added up, so nothing is ever expanded to be counted.
 */
export interface Builder {
  /** `at` is the piece's place in the document. */
  build(doc: Document.Parsed, text: string, at: number): YamlNode | undefined;
  readonly problems: Problem[];
}

export function createBuilder(options: { readonly partial: boolean }): Builder {
  const anchors = new Map<string, Anchored>();
  const problems: Problem[] = [];
  let aliased = 0;
  let text = "";
  let at = 0;
  let size = 0;

  const spanOf = (range: readonly number[] | null | undefined): Span =>
    span(at + (range?.[0] ?? 0), at + (range?.[1] ?? 0));

  function node(source: ParsedNode | null | undefined, fallback: number): YamlNode {
    if (!source) return nullAt(fallback);
    if (isAlias(source)) return alias(source.source, spanOf(source.range));
    checkTag(source);
    const before = size++;
    const built = isMap(source)
      ? mapping(source)
      : isSeq(source)
        ? list(source)
        : scalar(source as Scalar.Parsed);
    if (source.anchor) anchors.set(source.anchor, { node: built, size: size - before });
    return built;
  }

  function alias(name: string, where: Span): YamlNode {
    const target = anchors.get(name);
    if (!target) {
      // In a broken file the anchor may sit in the broken part: no second complaint.
      if (!options.partial) {
        problems.push({
          code: "yaml-unknown-alias",
          message: `\`*${name}\` refers to an anchor \`&${name}\`, which is not above it.`,
          step: "If the star is meant as text, put the value in quotes.",
          span: where,
        });
      }
      return { ...nullAt(where.start), span: where };
    }
    if (aliased + target.size > MAX_ALIASED) {
      problems.push({
        code: "yaml-alias-bomb",
        message: `\`*${name}\` repeats ${target.size} values; aliases may add at most ${MAX_ALIASED} to a file, so this one is left out.`,
        step: "Write the values where they are needed.",
        span: where,
      });
      return { ...nullAt(where.start), span: where };
    }
    aliased += target.size;
    size += target.size;
    return { ...target.node, span: where };
  }

  function checkTag(source: ParsedNode) {
    const tag = "tag" in source ? source.tag : undefined;
    if (!tag || PLAIN_TAGS.has(tag) || tag === "!") return;
    const where = spanOf(source.range);
    problems.push({
      code: "yaml-tag",
      message: `\`${tag.replace("tag:yaml.org,2002:", "!!")}\` is a YAML tag, which these files do not use. Remove it, or put the value in quotes.`,
      span: where,
    });
  }

  function scalar(source: Scalar.Parsed): YamlScalar {
    const [start, end] = source.range;
    const quoted = source.type !== "PLAIN";
    const typed = text.slice(start, end).trimEnd();
    const { value } = source;
    const known = value === null || ["string", "number", "boolean"].includes(typeof value);
    const asText = typeof value === "string" && quoted ? value : (source.source ?? typed);
    return {
      kind: "scalar",
      span: span(at + start, at + start + typed.length),
      source: asText,
      value: known ? (value as YamlScalar["value"]) : asText,
      quoted,
    };
  }

  function list(source: YAMLSeq.Parsed): YamlList {
    const fallback = at + source.range[0];
    const items = source.items.map((item) =>
      node(isPair(item) ? null : (item as ParsedNode | null), fallback),
    );
    return { kind: "list", span: tight(source, items.at(-1)?.span.end), flow: source.flow === true, items };
  }

  function mapping(source: YAMLMap.Parsed): YamlMap {
    const entries: YamlEntry[] = [];
    const byKey = new Map<string, YamlEntry>();
    for (const pair of source.items) {
      const key = pair.key as ParsedNode | null;
      const value = pair.value as ParsedNode | null;
      if (!isScalar(key) || key.range === undefined) {
        problems.push({
          code: "yaml-key",
          message: "A key must be plain text: a word, then a colon and a space.",
          span: spanOf(key?.range ?? value?.range ?? source.range),
        });
        node(value, at + source.range[0]);
        continue;
      }
      const name = scalar(key as Scalar.Parsed);
      const first = byKey.get(name.source);
      if (first) problems.push(duplicateKey({ key: name.source, keySpan: name.span }, first));
      // An empty value sits behind the colon.
      const colon = text.indexOf(":", key.range[1]);
      const behind = value ? 0 : at + (colon === key.range[1] ? colon + 1 : key.range[1]);
      const entry: YamlEntry = {
        key: name.source,
        keySpan: name.span,
        value: node(value, behind),
        duplicate: first !== undefined,
      };
      entries.push(entry);
      if (!first) byKey.set(entry.key, entry);
    }
    const last = entries.at(-1);
    const end = last && Math.max(last.keySpan.end, last.value.span.end);
    return { kind: "map", span: tight(source, end), flow: source.flow === true, entries, byKey };
  }

  /** Block collections end with their last entry, not with the blank lines behind it. */
  function tight(source: YAMLMap.Parsed | YAMLSeq.Parsed, end: number | undefined): Span {
    const whole = spanOf(source.range);
    return source.flow || end === undefined ? whole : span(whole.start, Math.max(whole.start, end));
  }

  return {
    problems,
    build(doc, piece, offset) {
      text = piece;
      at = offset;
      return doc.contents ? node(doc.contents as ParsedNode, offset) : undefined;
    },
  };
}
