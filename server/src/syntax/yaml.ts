import { parseDocument } from "yaml";
import { type Span, span } from "../text/span";
import { createBuilder } from "./yaml-build";
import { explain } from "./yaml-errors";
import { guard } from "./yaml-guard";
import type { Problem, YamlEntry, YamlNode, YamlPath } from "./yaml-node";
import { PARSER_OPTIONS, recover } from "./yaml-recover";

export type { Problem, YamlEntry, YamlList, YamlMap, YamlNode, YamlPath, YamlScalar } from "./yaml-node";
export { isNull, plainValue } from "./yaml-node";
export { pathAt, type YamlPlace } from "./yaml-place";

/** A YAML text as nodes with spans, and what is wrong with it. */
export interface YamlTree {
  readonly text: string;
  /** Where `text` begins in its document; every span counts from the document's start. */
  readonly baseOffset: number;
  /** Undefined for an empty file. Errors elsewhere in the file leave the readable rest here. */
  readonly root: YamlNode | undefined;
  readonly problems: readonly Problem[];
}

/** Problems shown of one file's YAML; behind a broken bracket there can be thousands. */
const MAX_PROBLEMS = 50;

/** Parses one YAML 1.2 document. Never throws, whatever the text. */
export function parseYaml(text: string, baseOffset = 0): YamlTree {
  const bom = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const at = baseOffset + bom;
  const body = bom ? text.slice(1) : text;
  const { readable, problems: refused } = guard(body);
  const problems: Problem[] = refused.map((problem) => ({
    ...problem,
    span: span(at + problem.span.start, at + problem.span.end),
  }));
  try {
    const { root, found } = read(readable, at);
    problems.push(...found);
    return { text, baseOffset, root, problems: tidy(problems) };
  } catch (error) {
    // The guard keeps the parser from what is known to break it; this is for what is not known.
    problems.push({
      code: "yaml-syntax",
      message: `This YAML could not be read (${error instanceof Error ? error.message : String(error)}). Take out what was added last.`,
      span: span(at, at + Math.max(1, body.search(/\r?\n|$/))),
    });
    return { text, baseOffset, root: undefined, problems: tidy(problems) };
  }
}

function read(text: string, at: number): { root: YamlNode | undefined; found: Problem[] } {
  const doc = parseDocument(text, PARSER_OPTIONS);
  const found = directives(text, at);
  const second = doc.errors.find((error) => error.code === "MULTIPLE_DOCS");
  if (second) {
    const first = read(text.slice(0, second.pos[0]), at);
    return { root: first.root, found: [...first.found, explain(second, doc, text, at)] };
  }
  if (doc.errors.length === 0) {
    const builder = createBuilder({ partial: false });
    const root = builder.build(doc, text, at);
    return { root, found: [...found, ...builder.problems] };
  }
  const builder = createBuilder({ partial: true });
  const pieces = recover(text, at, builder);
  const ours = [...builder.problems, ...pieces.problems];
  const syntax = pieces.problems.length > 0 ? [] : doc.errors.map((error) => explain(error, doc, text, at));
  return { root: pieces.root, found: [...found, ...ours, ...syntax] };
}

function directives(text: string, at: number): Problem[] {
  const found = /^%.*$/m.exec(text.slice(0, 1) === "%" ? text : "");
  if (!found) return [];
  return [
    {
      code: "yaml-directive",
      message: `\`${found[0].trimEnd()}\` is a YAML directive; these files are read as YAML 1.2 whatever it says. Remove the line.`,
      span: span(at, at + found[0].trimEnd().length),
    },
  ];
}

/** In file order, one problem a place and kind, and no flood. */
function tidy(problems: readonly Problem[]): Problem[] {
  const seen = new Set<string>();
  const kept = problems
    .filter((problem) => {
      const key = `${problem.code} ${problem.span.start} ${problem.span.end}`;
      return seen.has(key) ? false : seen.add(key);
    })
    .sort((a, b) => a.span.start - b.span.start || a.span.end - b.span.end);
  if (kept.length <= MAX_PROBLEMS) return kept;
  const last = kept[MAX_PROBLEMS - 1]!;
  const more = kept.length - MAX_PROBLEMS;
  const note = ` (${more} more places in this file are not valid YAML; mend the first ones and the rest may go.)`;
  return [...kept.slice(0, MAX_PROBLEMS - 1), { ...last, message: last.message + note }];
}

/** The node a path leads to with the spans of its key (for a mapping's entry) and its value. */
export interface Located {
  readonly key: string | undefined;
  readonly keySpan: Span | undefined;
  readonly valueSpan: Span;
  readonly node: YamlNode;
}

/** Follows `path` from the root; a list position may be a number or its decimal text. */
export function nodeAt(tree: Pick<YamlTree, "root">, path: YamlPath): Located | undefined {
  let node = tree.root;
  let entry: YamlEntry | undefined;
  for (const step of path) {
    if (!node) return undefined;
    entry = undefined;
    if (node.kind === "map") {
      entry = node.byKey.get(String(step));
      node = entry?.value;
    } else if (node.kind === "list") node = node.items[Number(step)];
    else return undefined;
  }
  return node && { key: entry?.key, keySpan: entry?.keySpan, valueSpan: node.span, node };
}

/** Best span to name the thing at `path`: its key, else its value; undefined where there is no such thing. */
export function locate(tree: Pick<YamlTree, "root">, path: YamlPath): Span | undefined {
  const found = nodeAt(tree, path);
  return found && (found.keySpan ?? found.valueSpan);
}
