// What a selection grows to, step by step: from the word to the cell, the row, the table, the section, the log.
import type { Nodes } from "mdast";
import { blockAt } from "../../log/document";
import type { LocatedBlock } from "../../log/model";
import { wordAt } from "../../log/position";
import { nodeSpan } from "../../syntax/node-span";
import type { Row, Table } from "../../syntax/tables";
import { type Span, shift, span, touches } from "../../text/span";
import { symbolsOf } from "../symbols";
import type { DocumentSymbol } from "../types";
import type { LogView } from "../view";
import { nested } from "./nested";
import { yamlSpans } from "./yaml";

/** Spans around the offset, the smallest first, each strictly inside the next; the last is the whole log. */
export function selectionsAt(view: LogView, offset: number): readonly Span[] {
  const { doc } = view;
  const whole = span(0, doc.text.length);
  const front = doc.parsed.frontMatter;
  if (front && offset < front.span.end) {
    const inside = touches(front.content, offset) ? yamlSpans(doc.frontMatter.tree.root, offset) : [];
    const words = touches(front.content, offset) ? [word(doc.text, offset)] : [];
    return nested([...words, ...inside, front.content, front.span, whole], offset);
  }
  const placed = blockAt(doc, offset);
  const inBlock = placed ? blockSpans(placed, offset - placed.start) : [];
  return nested(
    [word(doc.text, offset), ...inBlock, ...sectionSpans(symbolsOf(view), offset), whole],
    offset,
  );
}

function word(text: string, offset: number): Span | undefined {
  const start = Math.max(text.lastIndexOf("\n", offset - 1), text.lastIndexOf("\r", offset - 1)) + 1;
  const rest = text.slice(offset).search(/[\r\n]/);
  const found = wordAt(text.slice(start, rest < 0 ? text.length : offset + rest), offset - start);
  return found && shift(found.span, start);
}

function blockSpans({ start, block }: LocatedBlock, at: number): Span[] {
  const table = block.source.tables.find(({ span: own }) => touches(own, at));
  const spans = table ? tableSpans(table, at) : treeSpans(block.source.text, block.source.tree, at);
  return spans.map((each) => shift(each, start));
}

function tableSpans(table: Table, at: number): Span[] {
  const { header, rows } = table;
  const row = [header, ...rows].find(({ span: own }) => touches(own, at));
  const first = rows[0];
  const body =
    first && row !== header && at >= first.span.start ? [span(first.span.start, table.span.end)] : [];
  return [...(row ? rowSpans(row, at) : []), ...body, table.span];
}

function rowSpans(row: Row, at: number): Span[] {
  // On a pipe two cells touch; the one that ends there is meant, as a cursor stands behind what it was typed with.
  const cell = row.cells.find(({ outer }) => touches(outer, at));
  return [...(cell ? [cell.span, cell.outer] : []), row.span];
}

/** The nodes of the Markdown around a place, the smallest first. */
function treeSpans(text: string, root: Nodes, at: number): Span[] {
  const spans: Span[] = [];
  for (let node: Nodes | undefined = root; node !== undefined && "children" in node; ) {
    const inner: Nodes | undefined = node.children.find((child) => {
      const own = nodeSpan(text, child);
      return own !== undefined && touches(own, at);
    });
    const own = inner && nodeSpan(text, inner);
    if (own) spans.unshift(own);
    node = inner;
  }
  return spans;
}

/** Sections around a place, the innermost first; outline entries of other kinds are told by the tree. */
function sectionSpans(symbols: readonly DocumentSymbol[], offset: number): Span[] {
  for (const { kind, span: own, children } of symbols) {
    if (kind === "section" && touches(own, offset)) return [...sectionSpans(children, offset), own];
  }
  return [];
}
