import type { Document } from "yaml";
import { type Span, span } from "../text/span";
import { plainYaml } from "./plain-yaml";
import { createBuilder } from "./yaml-build";
import { yamlDocument } from "./yaml-document";
import { explain } from "./yaml-errors";
import { guard } from "./yaml-guard";
import { repairIndents } from "./yaml-indent";
import type { Fits } from "./yaml-levels";
import {
  movedProblem,
  movedTree,
  type Problem,
  type YamlEntry,
  type YamlNode,
  type YamlPath,
  type YamlTree,
} from "./yaml-node";
import { MAX_EXPLAINED, recover } from "./yaml-recover";

export type { Fits } from "./yaml-levels";
export type {
  Problem,
  YamlEntry,
  YamlList,
  YamlMap,
  YamlNode,
  YamlPath,
  YamlScalar,
  YamlTree,
} from "./yaml-node";
export { isNull, plainValue } from "./yaml-node";
export { pathAt, type YamlPlace } from "./yaml-place";

/** Problems shown of one file's YAML; behind a broken bracket there can be thousands. */
const MAX_PROBLEMS = 50;

/**
 * Parses one YAML 1.2 document. Never throws, whatever the text. A line that is indented wrongly is told and read as it
 * is meant; `fits` says what the format has a place for, which tells of more lines where they belong.
 */
export function parseYaml(text: string, baseOffset = 0, fits?: Fits): YamlTree {
  const bom = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const at = baseOffset + bom;
  // The parser knows no line end of a lone return, which YAML 1.2.2 has (5.4). One for one keeps every offset.
  const body = text.slice(bom).replace(/\r(?!\n)/g, "\n");
  const { readable, problems: refused } = guard(body);
  const problems: Problem[] = refused.map((problem) => ({
    ...problem,
    span: span(at + problem.span.start, at + problem.span.end),
  }));
  try {
    const tabs = leadingTabs(readable, at);
    // One blank for one tab keeps every offset, and a file indented with tabs alone keeps its meaning.
    const { root, found } = readMended(
      tabs.length > 0 ? readable.replace(LEADING_TABS, blanks) : readable,
      at,
      fits,
    );
    problems.push(...tabs, ...found);
    return { text, baseOffset, root, problems: tidy(withoutTabsTwice(problems), body, at) };
  } catch (error) {
    // The guard keeps the parser from what is known to break it; this is for what is not known.
    problems.push({
      code: "yaml-syntax",
      message: `This YAML could not be read (${error instanceof Error ? error.message : String(error)}). Take out what was added last.`,
      span: span(at, at + Math.max(1, body.search(/\r?\n|$/))),
    });
    return { text, baseOffset, root: undefined, problems: tidy(problems, body, at) };
  }
}

interface Read {
  readonly root: YamlNode | undefined;
  readonly found: readonly Problem[];
}

/** As it stands, or with the lines that are indented wrongly put where they belong where that leaves less to complain of. */
function readMended(text: string, at: number, fits: Fits | undefined): Read {
  const plain = plainYaml(text, at);
  if (plain && !(fits && repairIndents(text, fits)?.misread)) return { root: plain, found: [] };
  const doc = yamlDocument(text);
  const broken = doc.errors.length > 0;
  const mended = broken || fits ? repairIndents(text, fits) : undefined;
  // What YAML takes as it stands is only told where the format has no place for it.
  if (!mended || (!broken && !mended.misread)) return readDocument(doc, text, at);
  const meant = read(mended.text, 0);
  if (meant.found.length > 0) {
    const asTyped = readDocument(doc, text, at);
    const less = asTyped.found.length - meant.found.length;
    if (broken ? less <= 0 : less < 0) return asTyped;
  }
  const move = (offset: number): number => at + mended.before(offset);
  return {
    root: meant.root && movedTree(meant.root, move),
    found: [
      ...mended.problems.map((problem) => movedProblem(problem, (offset) => at + offset)),
      ...meant.found.map((problem) => movedProblem(problem, move)),
    ],
  };
}

const read = (text: string, at: number): Read => readDocument(yamlDocument(text), text, at);

function readDocument(doc: Document.Parsed, text: string, at: number): Read {
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
  // Behind one wrong bracket there can be as many as signs, and each is explained by looking at the line again.
  const told = doc.errors.slice(0, MAX_EXPLAINED);
  const syntax = pieces.problems.length > 0 ? [] : told.map((error) => explain(error, doc, text, at));
  return { root: pieces.root, found: [...found, ...ours, ...syntax] };
}

const LEADING_TABS = /^[ ]*\t[ \t]*(?=[^\s#])/gm;
const blanks = (tabs: string): string => " ".repeat(tabs.length);

/** Lines indented with tabs, where tabs count: text in a block or in quotes may have them. */
function leadingTabs(text: string, at: number): Problem[] {
  if (!/^[ ]*\t/m.test(text)) return [];
  const doc = yamlDocument(text);
  if (!doc.errors.some((error) => error.code === "TAB_AS_INDENT" || error.code === "BAD_INDENT")) return [];
  return [...text.matchAll(LEADING_TABS)].map((line) => {
    const where = span(at + line.index, at + line.index + line[0].length);
    return {
      code: "yaml-tab",
      message: "This line is indented with a tab; YAML takes spaces only. Use two spaces a level.",
      span: where,
      suggestion: [{ span: where, newText: spacesFor(line[0], line.index, text) }],
    };
  });
}

/** Two spaces a tab; where the line above or below stands by spaces in the column that was read here, as many as there. */
function spacesFor(tabs: string, at: number, text: string): string {
  const above = lineOf(text, beforeBlanks(text, at));
  FILLED.lastIndex = text.indexOf("\n", at) + 1 || text.length;
  const below = FILLED.exec(text)?.[0] ?? "";
  const isSister = (line: string): boolean => /^ *(?=\S)/.exec(line)?.[0].length === tabs.length;
  return isSister(above) || isSister(below) ? blanks(tabs) : tabs.replaceAll("\t", "  ");
}

const FILLED = /^[^\S\n]*\S.*$/gm;

const lineOf = (text: string, end: number): string => text.slice(text.lastIndexOf("\n", end - 1) + 1, end);

function beforeBlanks(text: string, at: number): number {
  let end = at;
  while (end > 0 && /\s/.test(text[end - 1]!)) end--;
  return end;
}

/** A tab in the wrong place is one slip: it is told as a tab, and its fix puts the line where it belongs. */
function withoutTabsTwice(problems: readonly Problem[]): Problem[] {
  const tabs = new Set(problems.filter(({ code }) => code === "yaml-tab").map(({ span }) => span.start));
  if (tabs.size === 0) return [...problems];
  const places = new Map<number, Problem["suggestion"]>();
  const rest = problems.filter(({ code, suggestion }) => {
    const [edit, ...more] = suggestion ?? [];
    if (code !== "yaml-indent" || !edit || more.length > 0 || !tabs.has(edit.span.start)) return true;
    places.set(edit.span.start, suggestion);
    return false;
  });
  return rest.map((problem) => {
    const suggestion = problem.code === "yaml-tab" ? places.get(problem.span.start) : undefined;
    return suggestion ? { ...problem, suggestion } : problem;
  });
}

function directives(text: string, at: number): Problem[] {
  const found = /^%.*$/m.exec(text.slice(0, 1) === "%" ? text : "");
  if (!found) return [];
  return [
    {
      code: "yaml-directive",
      message: `\`${found[0].trimEnd()}\` is a YAML directive; these files are always read as YAML 1.2. Remove the line.`,
      span: span(at, at + found[0].trimEnd().length),
    },
  ];
}

/** What the parser trips over; behind its first complaint about a line the others are echoes. */
const ECHOES = new Set([
  "yaml-syntax",
  "yaml-colon",
  "yaml-quote",
  "yaml-list",
  "yaml-indent",
  "yaml-unclosed",
  "yaml-comma",
]);

/** In file order, one syntax problem a line, and no flood. */
function tidy(problems: readonly Problem[], text: string, at: number): Problem[] {
  const lines = new Set<number>();
  const kept = problems
    .toSorted((a, b) => a.span.start - b.span.start || a.span.end - b.span.end)
    .filter((problem) => {
      if (!ECHOES.has(problem.code)) return true;
      const line = text.lastIndexOf("\n", problem.span.start - at - 1);
      return lines.has(line) ? false : lines.add(line);
    });
  if (kept.length <= MAX_PROBLEMS) return kept;
  const last = kept[MAX_PROBLEMS - 1]!;
  const more = kept.length - MAX_PROBLEMS;
  const note = ` (${more} more places in this file are not valid YAML; correct the first ones and the rest may go.)`;
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
