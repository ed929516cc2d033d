// The stock against one log: what was fitted and is not taken off the shelf yet, and what was taken and is not in the board
// any more. The log keeps what was taken under `stock-taken`, so that nothing is taken twice.

import type { LogContext } from "../../judge/context";
import type { FrontMatter } from "../../knowledge/load-front-matter";
import { normalPart } from "../../knowledge/part-number";
import type { LogDocument } from "../../log/document";
import { nodeAt } from "../../syntax/yaml";
import type { TextEdit } from "../../text/edits";
import { fittedParts } from "./fitted";
import { shelfOf } from "./shelf";

export interface StockMove {
  /** As the stock names it. */
  readonly part: string;
  /** Pieces to take; below zero to put back. Never more than there are. */
  readonly move: number;
  /** Pieces that were fitted and are not on the shelf. */
  readonly short: number;
  /** Place in the shop file's list, and what stands there after. */
  readonly index: number;
  readonly left: number;
}

interface StockSource {
  readonly doc: LogDocument;
  readonly front: Partial<FrontMatter>;
  readonly ctx: LogContext;
  /** Each board by itself, where the log is about several: U5 of one is not U5 of another. */
  readonly boards?: readonly Pick<StockSource, "doc">[];
}

/** None where the shop's stock is not counted. In the order of the stock. */
export function stockMoves({ doc, front, ctx, boards = [{ doc }] }: StockSource): readonly StockMove[] {
  const shop = ctx.shop?.value;
  if (!shop?.countStock) return [];
  const shelf = shelfOf(shop, ctx.library);
  const fitted = new Map<string, number>();
  for (const { part, refs, quantity } of boards.flatMap((one) => fittedParts(one.doc))) {
    const bare = refs.some((ref) => /^R\d/i.test(ref)) ? ("resistance" as const) : undefined;
    const item = shelf.find(part, bare);
    if (item) fitted.set(normalPart(item.part), (fitted.get(normalPart(item.part)) ?? 0) + quantity);
  }
  const taken = new Map([...(front.stockTaken ?? [])].map(([part, count]) => [normalPart(part), count]));
  return shop.stock.flatMap(({ part, quantity, index }): StockMove[] => {
    const key = normalPart(part);
    const open = (fitted.get(key) ?? 0) - (taken.get(key) ?? 0);
    if (open === 0) return [];
    const there = Math.max(0, Math.trunc(quantity));
    const move = open < 0 ? open : Math.min(open, there);
    return [{ part, move, short: open - move, index, left: there - move }];
  });
}

/** "take 2 x 74LS04, put 1 x 7404 back"; empty where nothing is on the shelf to be moved. */
export const movesInWords = (moves: readonly StockMove[]): string =>
  moves
    .flatMap(({ part, move }) =>
      move === 0 ? [] : [move > 0 ? `take ${move} x ${part}` : `put ${-move} x ${part} back`],
    )
    .join(", ");

export interface StockEdits {
  readonly log: readonly TextEdit[];
  readonly shop: readonly TextEdit[];
}

/** Of the log's front matter and of the shop file; undefined where one of them is written in a way that cannot be changed. */
export function stockEdits(source: StockSource, moves: readonly StockMove[]): StockEdits | undefined {
  const { doc, front, ctx } = source;
  const tree = ctx.shop?.loaded.tree;
  const end = doc.parsed.frontMatter?.content.end;
  if (!tree || end === undefined) return undefined;
  const shop: TextEdit[] = [];
  const taken = new Map(front.stockTaken ?? []);
  const there = nodeAt(doc.frontMatter.tree, ["stock-taken"]);
  // An entry that could not be read would be lost, and its part taken once more.
  if (there?.node.kind === "map" && there.node.byKey.size !== taken.size) return undefined;
  for (const { part, move, index, left } of moves) {
    if (move === 0) continue;
    const at = nodeAt(tree, ["stock", index, "quantity"])?.node;
    if (at?.kind !== "scalar") return undefined;
    shop.push({ span: at.span, newText: String(left) });
    const name = [...taken.keys()].find((one) => normalPart(one) === normalPart(part)) ?? part;
    taken.set(name, (taken.get(name) ?? 0) + move);
  }
  if (shop.length === 0) return undefined;
  const own = [...taken].filter(([, count]) => count > 0);
  const value = `{ ${own.map(([part, count]) => `${JSON.stringify(part)}: ${count}`).join(", ")} }`;
  if (there) return { shop, log: [{ span: there.valueSpan, newText: own.length === 0 ? "{}" : value }] };
  const eol = doc.text.includes("\r\n") ? "\r\n" : "\n";
  const gap = doc.text.slice(0, end).endsWith("\n") ? "" : eol;
  return {
    shop,
    log: [{ span: { start: end, end }, newText: `${gap}stock-taken: ${value}${gap === "" ? eol : ""}` }],
  };
}
