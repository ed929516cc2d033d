// Marks a rendered log. Reading the text only leaves places in it, so that what the editor keeps of a text stays true;
// what stands at a place is asked for when it is rendered. Free of the editor, so that it can be tested without one.
import type MarkdownIt from "markdown-it";
import { isLog } from "../../../server/src/log/sniff";
import type { PreviewMark, PreviewTable } from "../../../server/src/protocol/custom-requests/preview";
import { anchorOf, markHtml, picturesHtml, topHtml } from "./html";
import type { PreviewContent, PreviewSource } from "./source";

type Token = InstanceType<MarkdownIt["core"]["State"]>["tokens"][number];
type MakeToken = InstanceType<MarkdownIt["core"]["State"]>["Token"];

const TOP = "mendlog_top";
const MARK = "mendlog_mark";
const BELOW = "mendlog_below";
const PAIR = "mendlog_pair";
const PAIR_END = "mendlog_pair_end";

/** Where a cell stands, and what stands in it. */
interface CellPlace {
  readonly line: number;
  readonly column: number;
  readonly text: string;
}

interface TablePlace {
  /** Of its header row. */
  readonly line: number;
}

/** Two paragraphs that are a photograph each, one right behind the other; the lines that they stand on. */
interface PairPlace {
  readonly first: number;
  readonly second: number;
}

interface TopPlace {
  readonly text: string;
  /** Lines that can be gone to, ascending. */
  readonly anchors: readonly number[];
}

/** What one rendering knows, kept in its environment. */
interface Rendering {
  readonly marks: ReadonlyMap<string, PreviewMark>;
  readonly tables: ReadonlyMap<number, PreviewTable>;
  /** By the line of the photograph of before that of after. */
  readonly pairs: ReadonlyMap<number, number>;
}

interface Environment {
  readonly currentDocument?: { toString(): string };
  mendlog?: Rendering | undefined;
}

export function previewPlugin(md: MarkdownIt, source: PreviewSource): void {
  md.core.ruler.push("mendlog", (state) => {
    if (state.inlineMode || !isLog(state.src)) return;
    state.tokens = withPlaces(state.tokens, state.src, state.Token);
  });
  const { rules } = md.renderer;
  rules[TOP] = (tokens, at, _options, env: Environment) => {
    const { text, anchors } = placeAt<TopPlace>(tokens, at);
    const shown = source.shown(env.currentDocument?.toString(), text);
    env.mendlog = shown && renderingOf(shown);
    return shown ? topHtml(shown, anchors, source.words) : "";
  };
  rules[MARK] = (tokens, at, _options, env: Environment) => {
    const { line, column, text } = placeAt<CellPlace>(tokens, at);
    const mark = env.mendlog?.marks.get(`${line} ${column}`);
    return mark?.text === text ? markHtml(mark) : "";
  };
  rules[BELOW] = (tokens, at, _options, env: Environment) => {
    const pictures = env.mendlog?.tables.get(placeAt<TablePlace>(tokens, at).line)?.pictures ?? [];
    return pictures.length > 0 ? picturesHtml(pictures, source.words) : "";
  };
  rules[PAIR] = (tokens, at, _options, env: Environment) =>
    isPair(env, placeAt<PairPlace>(tokens, at)) ? `<div class="mendlog-pair">\n` : "";
  rules[PAIR_END] = (tokens, at, _options, env: Environment) =>
    isPair(env, placeAt<PairPlace>(tokens, at)) ? "</div>\n" : "";
}

/** What the pair's photographs are put into side by side; nothing of them is written by us. */
const isPair = (env: Environment, { first, second }: PairPlace): boolean =>
  env.mendlog?.pairs.get(first) === second || env.mendlog?.pairs.get(second) === first;

/** What was left in a token of ours. */
const placeAt = <Place>(tokens: readonly Token[], at: number): Place => (tokens[at] as Token).meta as Place;

function renderingOf({ preview }: PreviewContent): Rendering {
  const marks = preview.tables.flatMap((table) => table.marks);
  return {
    marks: new Map(marks.map((mark) => [`${mark.line} ${mark.column}`, mark])),
    tables: new Map(preview.tables.map((table) => [table.line, table])),
    pairs: new Map((preview.pairs ?? []).map(({ before, after }) => [before, after])),
  };
}

/** The tokens with a place behind each reading, below each table and at the top. */
function withPlaces(tokens: readonly Token[], text: string, Make: MakeToken): Token[] {
  const placed: Token[] = [];
  const anchors: number[] = [];
  const place = (type: string, meta: unknown): void => {
    const token = new Make(type, "", 0);
    token.meta = meta;
    placed.push(token);
  };
  // Front matter is the editor's to show; what is said of the whole log comes below it.
  const frontMatter = tokens[0]?.type === "front_matter";
  const top: TopPlace = { text, anchors };
  if (!frontMatter) place(TOP, top);
  let table: number | undefined;
  let row: number | undefined;
  let column = 0;
  const { begin, end } = pairsIn(tokens);
  for (const [i, token] of tokens.entries()) {
    anchor(token, anchors);
    const begun = begin.get(i);
    if (begun) place(PAIR, begun);
    if (token.type === "table_open" && token.level === 0) table = token.map?.[0];
    if (token.type === "tr_open") {
      row = token.map?.[0];
      column = 0;
    }
    if (token.type === "td_close" && table !== undefined && row !== undefined) {
      const before = tokens[i - 1];
      place(MARK, { line: row, column, text: before?.type === "inline" ? before.content : "" });
    }
    if (token.type === "td_close" || token.type === "th_close") column += 1;
    placed.push(token);
    const ended = end.get(i);
    if (ended) place(PAIR_END, ended);
    if (i === 0 && frontMatter) place(TOP, top);
    if (token.type === "table_close" && token.level === 0) {
      if (table !== undefined) place(BELOW, { line: table } satisfies TablePlace);
      table = undefined;
    }
  }
  return placed;
}

/**
 * Where two photographs stand one right behind the other, each a paragraph by itself, by the places of their tokens. Whether
 * the two belong together is known when they are rendered.
 */
function pairsIn(tokens: readonly Token[]) {
  const begin = new Map<number, PairPlace>();
  const end = new Map<number, PairPlace>();
  for (const at of tokens.keys()) {
    const [first, second] = [photographAt(tokens, at), photographAt(tokens, at + 3)];
    if (first === undefined || second === undefined) continue;
    begin.set(at, { first, second });
    end.set(at + 5, { first, second });
  }
  return { begin, end };
}

/** The line of a paragraph that is an image and nothing else. */
function photographAt(tokens: readonly Token[], at: number): number | undefined {
  const [open, inline] = [tokens[at], tokens[at + 1]];
  if (open?.type !== "paragraph_open" || open.level !== 0 || inline?.type !== "inline") return undefined;
  const children = inline.children ?? [];
  return children.length === 1 && children[0]?.type === "image" ? open.map?.[0] : undefined;
}

const ANCHORED = new Set(["tr_open", "paragraph_open"]);

/** A row or paragraph can be gone to by its line. A heading has an id of its own from the editor, which is left to it. */
function anchor(token: Token, anchors: number[]): void {
  const line = token.map?.[0];
  if (line === undefined || !ANCHORED.has(token.type) || token.attrGet("id") !== null) return;
  if (token.level > 2 || (anchors.at(-1) ?? -1) >= line) return;
  token.attrSet("id", anchorOf(line));
  anchors.push(line);
}
