import { defined } from "../base/defined";
import { nodeAt, type Problem, type YamlNode, type YamlPath, type YamlTree } from "../syntax/yaml";
import { nearestName } from "../text/nearest";
import type { Span } from "../text/span";
import { pathWords } from "./explain";
import { quantityOf } from "./quantity-rule";
import { SCHEMAS, type SchemaKind, type SchemaNode } from "./schema";
import { childSchema } from "./schema-walk";

/** Gathers problems about places of one file given by path. */
export interface Reporter {
  readonly tree: YamlTree;
  readonly problems: Problem[];
  /** Reports on the value at `path`, or on its key where `on` says so. */
  at(path: YamlPath, code: string, message: string, more?: Partial<Problem> & { on?: "key" | "value" }): void;
  spanOf(path: YamlPath, on?: "key" | "value"): Span | undefined;
}

export function reporter(tree: YamlTree): Reporter {
  const problems: Problem[] = [];
  const spanOf = (path: YamlPath, on: "key" | "value" = "value"): Span | undefined => {
    const found = nodeAt(tree, path);
    if (!found) return undefined;
    const block = found.node.kind !== "scalar" && !found.node.flow;
    const empty = found.valueSpan.start === found.valueSpan.end;
    return (on === "key" || block || empty ? found.keySpan : undefined) ?? found.valueSpan;
  };
  return {
    tree,
    problems,
    spanOf,
    at(path, code, message, { on, ...more } = {}) {
      const span = spanOf(path, on) ?? spanOf(path.slice(0, -1), "key");
      if (span) problems.push({ code, message, span, ...more });
    },
  };
}

/** One text of the file that names something: `circuit: reset` has kind "circuits". */
export interface NamedReference {
  readonly path: YamlPath;
  readonly kind: string;
  readonly text: string;
  readonly span: Span;
}

/** Every reference in the file, by the schema's `refersTo`, in file order. */
export function referencesOf(kind: SchemaKind, tree: YamlTree): NamedReference[] {
  const found: NamedReference[] = [];
  const visit = (node: YamlNode, schema: SchemaNode | undefined, path: YamlPath): void => {
    if (!schema) return;
    if (node.kind === "scalar") {
      if (schema.refersTo && node.source !== "" && node.value !== null) {
        found.push({ path, kind: schema.refersTo, text: node.source, span: node.span });
      }
    } else if (node.kind === "list") {
      for (const [index, item] of node.items.entries()) visit(item, schema.items, [...path, index]);
    } else {
      for (const [key, entry] of node.byKey) visit(entry.value, childSchema(schema, key), [...path, key]);
    }
  };
  if (tree.root) visit(tree.root, SCHEMAS[kind], []);
  return found;
}

/** Singular and place of the things that a file defines under a top-level key and refers to. */
const DEFINED: Readonly<Record<string, string>> = {
  nets: "net",
  parts: "part",
  rails: "rail",
  circuits: "circuit",
  matrices: "matrix",
  revisions: "revision",
  modifications: "modification",
  pins: "pin",
};

/** Reports every reference to something that the file itself should define and does not. */
export function checkReferences(kind: SchemaKind, report: Reporter): void {
  const known = new Map<string, ReadonlySet<string>>();
  const keysIn = (key: string): ReadonlySet<string> => {
    const before = known.get(key);
    if (before) return before;
    const node = nodeAt(report.tree, [key])?.node;
    const keys = new Set(node?.kind === "map" ? node.byKey.keys() : []);
    known.set(key, keys);
    return keys;
  };
  for (const { path, kind: refersTo, text, span } of referencesOf(kind, report.tree)) {
    const dot = text.indexOf(".");
    const [key, word] = refersTo === "pin" ? ["parts", text.slice(0, Math.max(0, dot))] : [refersTo, text];
    const single = DEFINED[key];
    if (!single || word === "" || keysIn(key).has(word)) continue;
    const near = nearestName(word, keysIn(key));
    const wordSpan = { start: span.start, end: refersTo === "pin" ? span.start + word.length : span.end };
    const who =
      refersTo === "pin"
        ? `Net ${pathWords(path.slice(0, -1), kind)} names`
        : `${pathWords(path, kind)} names`;
    report.problems.push(
      defined({
        code: `unknown-${single}`,
        message: `${who} ${single} \`${word}\`, which is not in \`${key}\`.`,
        step: near === undefined ? "Add it there, or correct the name." : `Did you mean \`${near}\`?`,
        span: wordSpan,
        suggestion: near ? [{ span: wordSpan, newText: near }] : undefined,
      }),
    );
  }
}

/** Reports a window whose low end lies above its high end, or whose ends are not the same kind of quantity. */
export function checkWindow(report: Reporter, low: YamlPath, high: YamlPath, what: string): void {
  const texts = [low, high].map((path) => {
    const node = nodeAt(report.tree, path)?.node;
    return node?.kind === "scalar" ? node.source : undefined;
  });
  const [lowText, highText] = texts;
  if (lowText === undefined || highText === undefined) return;
  const from = quantityOf(lowText);
  const to = quantityOf(highText);
  if (!from || !to || from.dimension === "count" || to.dimension === "count") return;
  if (from.dimension !== to.dimension) {
    report.at(
      high,
      "mixed-quantities",
      `${what} runs from \`${lowText}\` to \`${highText}\`, which are different kinds of quantity. Give both in the same unit.`,
    );
  } else if (from.value > to.value) {
    report.at(
      low,
      "low-above-high",
      `${what} runs from \`${lowText}\` to \`${highText}\`: its low end is above its high end. Swap them or correct one.`,
    );
  }
}
