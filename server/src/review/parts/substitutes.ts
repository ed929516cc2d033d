import { defined } from "../../base/defined";
import type { Library } from "../../knowledge/library";
import { normalPart } from "../../knowledge/part-number";
import type { Part } from "../../knowledge/types";
import type { StockShelf } from "./shelf";

/** Another part that may stand at a place, with what it asks of those who fit it. */
export interface OtherPart {
  readonly part: string;
  readonly caution: string;
  /** How many are on the shelf and not promised; absent where the stock does not list it. */
  readonly stock?: number;
}

/** What the board file allows first, then what the library knows, each once. */
export function substitutesFor(part: Part, library: Library, shelf: StockShelf): OtherPart[] {
  const device = part.device === undefined ? undefined : library.device(part.device)?.device;
  const cautions = new Map(
    (device?.substitutes ?? []).map((one) => [normalPart(one.part), one.caution] as const),
  );
  const found = new Map<string, { part: string; caution: string }>();
  for (const fit of part.fits) {
    const key = normalPart(fit);
    found.set(key, { part: fit, caution: cautions.get(key) ?? "the board file allows it here" });
  }
  for (const { part: other, caution } of device?.substitutes ?? []) {
    const key = normalPart(other);
    if (!found.has(key) && key !== normalPart(part.device ?? "")) found.set(key, { part: other, caution });
  }
  return [...found.values()].map((one) => {
    const item = shelf.find(one.part);
    return defined({ ...one, stock: item ? shelf.left(item) : undefined });
  });
}
