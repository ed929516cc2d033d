// What came of the shop's orders and is not counted in its stock yet. An order keeps under `stocked` what was added of it, so
// that nothing is added twice.

import { columnAt, lineEnd, lineStart } from "../../knowledge/board-file/open";
import { scalarText } from "../../knowledge/board-file/render";
import type { Library } from "../../knowledge/library";
import { type PartOrder, piecesReceived, type Shop, type StockItem } from "../../knowledge/types";
import { nodeAt, type YamlMap, type YamlNode, type YamlTree } from "../../syntax/yaml";
import type { TextEdit } from "../../text/edits";
import { shelfOf } from "./shelf";

export interface Arrival {
  readonly order: PartOrder;
  /** Pieces to add to the stock; below zero to take out again what was added and did not come. Never 0. */
  readonly move: number;
  /** The entry that counts them; absent where the stock has none. */
  readonly item?: StockItem;
}

/** None where the stock is not counted, nor of an order with a number that could not be read. In the order of the file. */
export function arrivals(shop: Shop, tree: YamlTree, library: Library): readonly Arrival[] {
  if (!shop.countStock) return [];
  const shelf = shelfOf(shop, library);
  return (shop.orders ?? []).flatMap((order): Arrival[] => {
    const typed = nodeAt(tree, ["orders", order.index])?.node;
    if (typed?.kind !== "map" || isUnread(typed, "received", order.received)) return [];
    if (isUnread(typed, "received-quantity", order.receivedQuantity)) return [];
    if (isUnread(typed, "stocked", order.stocked)) return [];
    const move = piecesReceived(order) - (order.stocked ?? 0);
    if (move === 0) return [];
    const item = shelf.find(order.part);
    return [item ? { order, move, item } : { order, move }];
  });
}

const isUnread = (order: YamlMap, key: string, value: unknown): boolean =>
  value === undefined && order.byKey.has(key);

/** Notes under `stocked` all that came; undefined where the order is written in a way that cannot be added to. */
export function stockedEdit(text: string, tree: YamlTree, order: PartOrder): TextEdit | undefined {
  const typed = nodeAt(tree, ["orders", order.index])?.node;
  if (typed?.kind !== "map") return undefined;
  const all = String(piecesReceived(order));
  const there = typed.byKey.get("stocked")?.value;
  if (there) return { span: there.span, newText: all };
  // Dates and numbers stand on one line; a note may not.
  const beside = typed.byKey.get("received") ?? typed.byKey.get("received-quantity");
  if (!beside) return undefined;
  const { end } = beside.value.span;
  if (typed.flow) return { span: { start: end, end }, newText: `, stocked: ${all}` };
  const at = lineEnd(text, end);
  const eol = text.includes("\r\n") ? "\r\n" : "\n";
  const indent = " ".repeat(columnAt(text, beside.keySpan.start));
  return { span: { start: at, end: at }, newText: `${eol}${indent}stocked: ${all}` };
}

/** Counts them; a part that the stock does not have is added to a list of lines. Undefined where neither can be done. */
export function countedEdit(text: string, tree: YamlTree, arrival: Arrival): TextEdit | undefined {
  const { order, move, item } = arrival;
  if (item) {
    const left = item.quantity + move;
    const at = nodeAt(tree, ["stock", item.index, "quantity"])?.node;
    return at?.kind === "scalar" && left >= 0 ? { span: at.span, newText: String(left) } : undefined;
  }
  const stock = nodeAt(tree, ["stock"])?.node;
  if (stock?.kind !== "list" || stock.flow || move < 0) return undefined;
  const last = stock.items.at(-1);
  // An entry of several lines may end in words that go on below.
  if (!last || !isOneLine(text, last)) return undefined;
  const at = lineEnd(text, last.span.end);
  const eol = text.includes("\r\n") ? "\r\n" : "\n";
  const dash = /^\s*-\s+/.exec(text.slice(lineStart(text, last.span.start), last.span.start))?.[0];
  if (dash === undefined) return undefined;
  const newText = `${eol}${dash}{ part: ${scalarText(order.part)}, quantity: ${move} }`;
  return { span: { start: at, end: at }, newText };
}

const isOneLine = (text: string, { kind, span }: YamlNode): boolean =>
  kind === "map" && !text.slice(span.start, span.end).includes("\n");
