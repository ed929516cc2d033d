// What the shop's stock can give, counted down as it is promised.
import type { Library } from "../../knowledge/library";
import { normalPart } from "../../knowledge/part-number";
import type { Shop, StockItem } from "../../knowledge/types";
import { comparePassive, isMade, type Passive, passiveOf } from "./passive";

export interface StockShelf {
  /** The entry that serves for a part: the same number, the same device, or the same value rated as high or higher. */
  find(part: string, bare?: "resistance"): StockItem | undefined;
  /** The first entry whose name has these words, one with something left before one without. */
  named(words: RegExp): StockItem | undefined;
  /** How many of an entry are not promised yet. */
  left(item: StockItem): number;
  /** Promises up to `wanted` pieces and says how many there were. */
  take(item: StockItem, wanted: number): number;
}

/** The shelf before anything is promised; without a shop it is empty. Pieces count whole, and never below zero. */
export function shelfOf(shop: Shop | undefined, library: Library): StockShelf {
  const stock = shop?.stock ?? [];
  const left = new Map(stock.map((item) => [item, Math.max(0, Math.trunc(item.quantity))]));
  const byNumber = new Map<string, StockItem>();
  for (const item of stock)
    if (!byNumber.has(normalPart(item.part))) byNumber.set(normalPart(item.part), item);
  let passives: { item: StockItem; passive: Passive }[] | undefined;
  const has = (item: StockItem) => left.get(item) ?? 0;
  return {
    left: has,
    named(words) {
      const all = stock.filter(({ part }) => words.test(part));
      return all.find((item) => has(item) > 0) ?? all[0];
    },
    take(item, wanted) {
      const taken = Math.min(has(item), Math.max(0, wanted));
      left.set(item, has(item) - taken);
      return taken;
    },
    find(part, bare) {
      const same = byNumber.get(normalPart(part));
      if (same) return same;
      const known = library.device(part);
      if (known && known.device.kind !== "passive") {
        return stock.find((item) => {
          const other = library.device(item.part);
          return other?.device === known.device && other.family === known.family;
        });
      }
      const wanted = passiveOf(part, bare);
      if (!wanted) return undefined;
      passives ??= stock.flatMap((item) => {
        const passive = passiveOf(item.part);
        return passive ? [{ item, passive }] : [];
      });
      // A bare number in the stock is a part number and never a value, so ohms are written there.
      const made = wanted.dimension === "current" || isMade(wanted);
      const fit = passives.filter(({ passive }) => {
        if (passive.dimension !== wanted.dimension) return false;
        const match = comparePassive(wanted, passive);
        // What is not made any more is served by its neighbour, within the old part's tolerance.
        return match === "same" || (!made && match === "within-tolerance");
      });
      const off = ({ value }: Passive): number => Math.abs(value - wanted.value);
      const lowest = fit.sort(
        ({ passive: a }, { passive: b }) =>
          off(a) - off(b) || (a.volts ?? 0) - (b.volts ?? 0) || (a.watts ?? 0) - (b.watts ?? 0),
      );
      return (lowest.find(({ item }) => has(item) > 0) ?? lowest[0])?.item;
    },
  };
}
