// The stretches of a log's text in which something may be named: words, never code. They know nothing of boards, so
// they hold for as long as the text does, and are small enough to be remembered of a log that is closed.

import type { Nodes, Table as TableNode } from "mdast";
import { memo } from "../base/memo";
import { isNull, nodeAt, type YamlNode } from "../syntax/yaml";
import { type Span, shift, span } from "../text/span";
import type { LogDocument } from "./document";
import type { LogBlock, LogTable } from "./model";
import { partsSpans } from "./parts-section";

/**
 * Where a stretch stands: in a cell whose column is of one kind of thing ("ref", "signal", "rail", "part"), over a wide
 * table's column ("header"), in a heading, in another cell, in prose, in a comment, in the parts list that is written
 * there ("written"), or it is a value of the front matter ("front-board").
 */
export const TEXT_REGION_KINDS = [
  "ref",
  "signal",
  "rail",
  "part",
  "header",
  "heading",
  "cell",
  "prose",
  "comment",
  "written",
  "front-job",
  "front-board",
  "front-revision",
  "front-symptom",
  "front-meter",
  "front-rom-set",
  "front-comeback-of",
] as const;
/** Where a stretch of the text stands; see `STRETCH_PLACES`. */
export type TextRegionKind = (typeof TEXT_REGION_KINDS)[number];

/** Words in which a name may be looked for. */
export interface TextRegion {
  readonly span: Span;
  readonly place: TextRegionKind;
}

/** Of one block, spans from its start, in order. Made once for each block. */
export const textRegionsOfBlock: (block: LogBlock) => readonly TextRegion[] = memo(build);

/** Of the whole log, spans of the document, in order. */
export function textRegionsOf(doc: LogDocument): TextRegion[] {
  return [
    ...frontMatterRegions(doc),
    ...doc.blocks.flatMap(({ start, block }) =>
      textRegionsOfBlock(block).map((it) => ({ span: shift(it.span, start), place: it.place })),
    ),
  ];
}

const FRONT: readonly (readonly [string, TextRegionKind])[] = [
  ["job", "front-job"],
  ["board", "front-board"],
  ["revision", "front-revision"],
  ["symptoms", "front-symptom"],
  ["meter", "front-meter"],
  ["rom-set", "front-rom-set"],
  ["comeback-of", "front-comeback-of"],
];

/** The values of the front matter that name something, quotes included, in order. */
export function frontMatterRegions({ frontMatter }: LogDocument): TextRegion[] {
  return FRONT.flatMap(([key, place]) => {
    const node = nodeAt(frontMatter.tree, [key])?.node;
    const values: readonly YamlNode[] = node?.kind === "list" ? node.items : node ? [node] : [];
    return values
      .filter((value) => value.kind === "scalar" && !isNull(value))
      .map((value) => ({ span: value.span, place }));
  }).sort((a, b) => a.span.start - b.span.start);
}

function build(block: LogBlock): TextRegion[] {
  const found: TextRegion[] = [];
  const add = (at: Span | undefined, place: TextRegionKind): void => {
    if (at && at.start < at.end) found.push({ span: at, place });
  };
  for (const node of block.source.tree.children) {
    if (node.type === "table") tableStretches(block, node, add);
    else textsIn(node, (at) => add(at, node.type === "heading" ? "heading" : "prose"));
  }
  for (const { inner } of block.comments) add(inner, "comment");
  const written = partsSpans(block.comments).pairs.map(({ begin, end }) =>
    span(begin.span.end, end.span.start),
  );
  const isWritten = ({ start }: Span): boolean => written.some((it) => start >= it.start && start < it.end);
  return found
    .map((it) => (isWritten(it.span) ? { ...it, place: "written" as const } : it))
    .sort((a, b) => a.span.start - b.span.start);
}

function tableStretches(
  block: LogBlock,
  node: TableNode,
  add: (at: Span | undefined, place: TextRegionKind) => void,
): void {
  const start = node.position?.start.offset ?? -1;
  const table = block.tables.find(
    ({ span: own, isTurned }) => !isTurned && start >= 0 && Math.abs(own.start - start) <= 2,
  );
  node.children.forEach((row, line) => {
    row.children.forEach((cell, column) => {
      const place = table ? placeOfCell(table, line, column) : "cell";
      if (place) textsIn(cell, (at) => add(at, place));
    });
  });
}

/** "U5-4" in a column of pins. */
const PIN_WITH_REF = /^[A-Za-z]{1,4}\d{1,4}[A-Za-z]?\s*[-.:]\s*\w/;

/** Undefined for cells in which figures stand. */
function placeOfCell(table: LogTable, line: number, column: number): TextRegionKind | undefined {
  const { procedure, shape } = table;
  const wide = shape === "wide" ? procedure.wide : undefined;
  const spec = table.columns[column]?.spec;
  if (line === 0) return wide && column > 0 && !spec ? roleOf(wide.columns, "header") : undefined;
  if (wide && !spec) return column === 0 ? roleOf(wide.rows) : undefined;
  const typed = table.source.rows[line - 1]?.cells[column]?.text ?? "";
  if (spec?.role === "pin" && PIN_WITH_REF.test(typed)) return "ref";
  return spec ? roleOf(spec.role) : "cell";
}

function roleOf(role: string, ofRef: TextRegionKind = "ref"): TextRegionKind | undefined {
  switch (role) {
    case "ref":
      return ofRef;
    case "signal":
    case "row":
    case "column":
    case "from":
    case "to":
      return "signal";
    case "rail":
      return "rail";
    case "part":
      return "part";
    case "pin":
    case "reading":
    case "state":
    case "quantity":
    case "date":
      return undefined;
    default:
      return "cell";
  }
}

/** The source of every text under a node that a reader sees as words: no code, no addresses, no HTML. */
function textsIn(node: Nodes, add: (at: Span) => void): void {
  const waiting: Nodes[] = [node];
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    const from = next.position?.start.offset;
    const to = next.position?.end.offset;
    if (next.type === "text") {
      if (from !== undefined && to !== undefined) add({ start: from, end: to });
    } else if (next.type === "link" && isBareAddress(next)) {
      // The words are the address.
    } else if ("children" in next) waiting.push(...[...next.children].reverse());
  }
}

const isBareAddress = (link: Extract<Nodes, { type: "link" }>): boolean => {
  const [only] = link.children;
  return only?.type === "text" && link.url.endsWith(only.value);
};

/** Stretches as numbers, three each, for keeping many of them. */
export type PackedRegions = Int32Array;

/** Three numbers a stretch: start, end, and its place as an index of `STRETCH_PLACES`. */
export function packRegions(stretches: readonly TextRegion[]): PackedRegions {
  const packed = new Int32Array(stretches.length * 3);
  stretches.forEach(({ span: { start, end }, place }, i) => {
    packed.set([start, end, TEXT_REGION_KINDS.indexOf(place)], i * 3);
  });
  return packed;
}

/** What `packStretches` packed, in the same order. */
export function unpackRegions(packed: PackedRegions): TextRegion[] {
  const stretches: TextRegion[] = [];
  for (let i = 0; i + 2 < packed.length; i += 3) {
    stretches.push({ span: span(packed[i]!, packed[i + 1]!), place: TEXT_REGION_KINDS[packed[i + 2]!]! });
  }
  return stretches;
}
