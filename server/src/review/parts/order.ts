// What all open jobs together need and the shelf does not have.

import { defined } from "../../base/defined";
import { minorDigits } from "../../compute/money/currency";
import {
  add,
  type Decimal,
  decimalText,
  parseDecimal,
  round,
  times,
  whole,
  ZERO,
} from "../../compute/money/decimal";
import type { Library } from "../../knowledge/library";
import { normalPart } from "../../knowledge/part-number";
import { type PartOrder, piecesReceived, type Shop } from "../../knowledge/types";
import { type PartsList, partsList } from "./list";
import { type StockShelf, shelfOf } from "./shelf";
import type { PartsSource } from "./suggest";

/** One part number over all open jobs. What is needed comes from the shelf, is on the way, or is ordered. */
export interface OrderLine {
  readonly kind: "part" | "socket" | "consumable";
  readonly part: string;
  readonly needed: number;
  readonly fromShelf: number;
  readonly order: number;
  /** Pieces that were ordered and have not come: they are not ordered again. */
  readonly onTheWay: number;
  readonly jobs: readonly {
    readonly job: string;
    readonly refs: readonly string[];
    readonly quantity: number;
  }[];
  readonly location?: string;
  /** Of one piece and of all that are ordered, as decimal text. */
  readonly price?: string;
  readonly total?: string;
  /** What may be fitted instead and is left on the shelf after all jobs. */
  readonly instead: readonly { readonly part: string; readonly caution: string; readonly stock: number }[];
}

/** What a shop has to order, and for which jobs. */
export interface OrderList {
  readonly currency?: string;
  /** Open jobs in the order they are served. */
  readonly jobs: readonly string[];
  readonly lines: readonly OrderLine[];
  /** Of all that has a price. */
  readonly total: string;
  /** Parts to be ordered whose price is not known. */
  readonly unpriced: readonly string[];
}

/** True for a job that may still take parts. */
export const isOpen = (stage: string | undefined): boolean => stage !== "returned" && stage !== "scrapped";

/**
 * @param sources logs of one shop; those that are not open are left out
 * @param nameOf what a job is called where its log has no number
 */
export function orderList(
  sources: readonly PartsSource[],
  shop: Shop | undefined,
  library: Library,
  nameOf: (source: PartsSource) => string,
): OrderList {
  const shelf = shelfOf(shop, library);
  const open = sources
    .filter(({ front }) => isOpen(front.stage))
    .sort(
      (a, b) =>
        (a.front.received ?? "9").localeCompare(b.front.received ?? "9") ||
        nameOf(a).localeCompare(nameOf(b)),
    );
  const lists = open.map((source) => ({ job: nameOf(source), list: partsList(source, shelf) }));
  const lines = coveredBy(shop?.orders ?? [], merged(lists, shelf)).map((line) => priced(line, shop));
  const toOrder = lines.filter(({ order }) => order > 0);
  const total = toOrder.reduce<Decimal>(
    (all, { total: one }) => add(all, parseDecimal(one ?? "0") ?? ZERO),
    ZERO,
  );
  return defined({
    currency: shop?.currency === undefined ? undefined : shop.currency,
    jobs: lists.map(({ job }) => job),
    lines,
    total: decimalText(round(total, minorDigits(shop?.currency), "half-even")),
    unpriced: toOrder.filter(({ total: one }) => one === undefined).map(({ part }) => part),
  });
}

/** What is on the way is asked for no more. Orders are of a part by its number. */
function coveredBy(orders: readonly PartOrder[], lines: readonly OrderLine[]): readonly OrderLine[] {
  const coming = new Map<string, number>();
  for (const order of orders) {
    const key = normalPart(order.part);
    coming.set(key, (coming.get(key) ?? 0) + Math.max(0, order.quantity - piecesReceived(order)));
  }
  return lines.map((line) => {
    const onTheWay = Math.min(line.order, coming.get(normalPart(line.part)) ?? 0);
    return onTheWay === 0 ? line : { ...line, onTheWay, order: line.order - onTheWay };
  });
}

type Draft = { -readonly [K in keyof OrderLine]: OrderLine[K] };

function merged(lists: readonly { job: string; list: PartsList }[], shelf: StockShelf): OrderLine[] {
  const lines = new Map<string, Draft>();
  for (const { job, list } of lists) {
    for (const { what, order, price, stock } of list.consumables) {
      if (order === 0) continue;
      const part = stock?.part ?? what;
      const key = `consumable ${normalPart(part)}`;
      // One reel or bottle serves all jobs that want some of it.
      const line =
        lines.get(key) ??
        defined({
          kind: "consumable",
          part,
          needed: order,
          fromShelf: 0,
          order,
          onTheWay: 0,
          jobs: [],
          instead: [],
          price,
        });
      line.jobs = [...line.jobs, { job, refs: [], quantity: order }];
      lines.set(key, line);
    }
    for (const { kind, part, quantity, order, refs, stock, price, substitutes } of list.suggested) {
      const key = normalPart(part);
      const line = lines.get(key) ?? {
        kind,
        part,
        needed: 0,
        fromShelf: 0,
        order: 0,
        onTheWay: 0,
        jobs: [],
        instead: [],
      };
      lines.set(key, line);
      line.needed += quantity;
      line.order += order;
      line.fromShelf += quantity - order;
      line.jobs = [...line.jobs, { job, refs, quantity }];
      if (stock?.location !== undefined) line.location = stock.location;
      if (price !== undefined) line.price = price;
      const known = new Set(line.instead.map(({ part: other }) => normalPart(other)));
      const more = substitutes.filter(({ part: other }) => !known.has(normalPart(other)));
      line.instead = [...line.instead, ...more.map((one) => ({ ...one, stock: one.stock ?? 0 }))];
    }
  }
  // What is left is known only when every job has been served.
  return [...lines.values()].map((line) => ({
    ...line,
    instead:
      line.order === 0
        ? []
        : line.instead.flatMap(({ part, caution }) => {
            const item = shelf.find(part);
            const stock = item ? shelf.left(item) : 0;
            return stock > 0 ? [{ part, caution, stock }] : [];
          }),
  }));
}

function priced(line: OrderLine, shop: Shop | undefined): OrderLine {
  const price = line.price === undefined ? undefined : parseDecimal(line.price);
  if (!price) return line;
  const places = minorDigits(shop?.currency);
  const rounding = shop?.quote?.rounding ?? "half-away-from-zero";
  return { ...line, total: decimalText(round(times(price, whole(line.order)), places, rounding)) };
}
