import type { Span } from "../text/span";

/** Something wrong in a file, at the characters it is about. Offsets are those of the whole document. */
export interface Problem {
  /** Stable, kebab-case: "unknown-key". */
  readonly code: string;
  /** What is wrong. */
  readonly message: string;
  /** What to do about it, where the message does not say. */
  readonly step?: string;
  readonly span: Span;
  readonly related?: readonly { readonly span: Span; readonly message: string }[];
  /** Edits that together would put it right. */
  readonly suggestion?: readonly { readonly span: Span; readonly newText: string }[];
}

/** A single value. */
export interface YamlScalar {
  readonly kind: "scalar";
  readonly span: Span;
  /** What was typed, unquoted and unescaped: `00123e45` stays those eight characters. */
  readonly source: string;
  /** The value by YAML 1.2's core schema. */
  readonly value: string | number | boolean | null;
  readonly quoted: boolean;
}

/** A key with its value, which is null where none was typed. */
export interface YamlEntry {
  readonly key: string;
  readonly keySpan: Span;
  readonly value: YamlNode;
  /** True where an earlier entry of the same mapping has the same key; values take the first. */
  readonly duplicate: boolean;
}

/** Keys with their values, in the order of the text; `flow` is true where they stand in braces. */
export interface YamlMap {
  readonly kind: "map";
  readonly span: Span;
  readonly flow: boolean;
  readonly entries: readonly YamlEntry[];
  /** First entry of each key. A Map, so that `__proto__` is a key like any other. */
  readonly byKey: ReadonlyMap<string, YamlEntry>;
}

/** Items in the order of the text; `flow` is true where they stand in brackets. */
export interface YamlList {
  readonly kind: "list";
  readonly span: Span;
  readonly flow: boolean;
  readonly items: readonly YamlNode[];
}

/** A piece of YAML with its place in the text. */
export type YamlNode = YamlScalar | YamlMap | YamlList;

/** A YAML text as nodes with spans, and what is wrong with it. */
export interface YamlTree {
  readonly text: string;
  /** Where `text` begins in its document; every span counts from the document's start. */
  readonly baseOffset: number;
  /** Undefined for an empty file. Errors elsewhere in the file leave the readable rest here. */
  readonly root: YamlNode | undefined;
  readonly problems: readonly Problem[];
}

/** Keys and list positions (from 0) that lead from the root to a node. */
export type YamlPath = readonly (string | number)[];

/** True where nothing was typed: no node, or one whose value is null. */
export const isNull = (node: YamlNode | undefined): boolean =>
  node === undefined || (node.kind === "scalar" && node.value === null);

export const nullAt = (offset: number): YamlScalar => ({
  kind: "scalar",
  span: { start: offset, end: offset },
  source: "",
  value: null,
  quoted: false,
});

/**
 * Plain data of a node: scalars by the core schema, mappings as objects without a prototype. Aliases were
 * resolved and bounded when the tree was built, so this visits no more nodes than the tree may hold.
 */
export function plainValue(node: YamlNode | undefined): unknown {
  if (node === undefined) return null;
  if (node.kind === "scalar") return node.value;
  if (node.kind === "list") return node.items.map(plainValue);
  const out: Record<string, unknown> = Object.create(null);
  for (const [key, entry] of node.byKey) out[key] = plainValue(entry.value);
  return out;
}

/**
 * The tree of a text that was read with changes made to it, with the spans it has in the text without them. Nodes that
 * aliases share are shared still.
 */
export function movedTree(root: YamlNode, move: (offset: number) => number): YamlNode {
  const done = new Map<YamlNode, YamlNode>();
  const moved = ({ start, end }: Span): Span => ({ start: move(start), end: move(end) });
  const visit = (node: YamlNode): YamlNode => {
    const known = done.get(node);
    if (known) return known;
    const made = rebuilt(node);
    done.set(node, made);
    return made;
  };
  const rebuilt = (node: YamlNode): YamlNode => {
    const where = { span: moved(node.span) };
    if (node.kind === "scalar") return { ...node, ...where };
    if (node.kind === "list") return { ...node, ...where, items: node.items.map(visit) };
    const entries = node.entries.map((entry) => ({
      ...entry,
      keySpan: moved(entry.keySpan),
      value: visit(entry.value),
    }));
    const byKey = new Map<string, YamlEntry>();
    for (const entry of entries) if (!byKey.has(entry.key)) byKey.set(entry.key, entry);
    return { ...node, ...where, entries, byKey };
  };
  return visit(root);
}

/** The same for what is wrong in it. */
export function movedProblem(problem: Problem, move: (offset: number) => number): Problem {
  const moved = <T extends { readonly span: Span }>(one: T): T => ({
    ...one,
    span: { start: move(one.span.start), end: move(one.span.end) },
  });
  return {
    ...moved(problem),
    ...(problem.related ? { related: problem.related.map(moved) } : {}),
    ...(problem.suggestion ? { suggestion: problem.suggestion.map(moved) } : {}),
  };
}
