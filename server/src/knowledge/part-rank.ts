// The order in which part numbers are offered, wherever they are: in board files, in stock and in logs.
import { as74, normalPart } from "./part-number";
import type { Device, Family } from "./types";

/** Behind every family and every number of an entry's own. */
const OTHER_NAMES = 1_000;

const byNumber = new Intl.Collator("en", { numeric: true });

/**
 * Compares part numbers (see `normalPart`): classic ones come first, which have no letters between their digits, the
 * 74 series before the rest (7400, then 6802, 8080A); then those that have them: the 74 series family by family in the
 * order of the device files, entries' own numbers (2N2222), and last the other names of entries (68A02). Among equals
 * by number.
 */
export function partOrder(
  devices: Iterable<Device>,
  families: ReadonlyMap<string, Family>,
): (a: string, b: string) => number {
  const own = new Set<string>();
  const places = new Map<string, number>();
  for (const device of devices) {
    own.add(normalPart(device.id));
    for (const [at, id] of device.families.entries()) {
      const letters = families.get(id)?.letters?.toUpperCase();
      // Each file lists its families in the same order and leaves out what was never made: the furthest place is it.
      if (letters !== undefined) places.set(letters, Math.max(places.get(letters) ?? 0, at));
    }
  }
  const known = new Map<string, number>();
  const rank = (part: string): number => {
    const before = known.get(part);
    if (before !== undefined) return before;
    const found = rankOf(part, own, places);
    known.set(part, found);
    return found;
  };
  return (a, b) => rank(a) - rank(b) || byNumber.compare(a, b);
}

function rankOf(part: string, own: ReadonlySet<string>, places: ReadonlyMap<string, number>): number {
  const letters = as74(part)?.letters;
  if (letters === "") return 0;
  if (letters !== undefined) return 2 + (places.get(letters) ?? OTHER_NAMES);
  if (/^[A-Z]*\d*[A-Z]*$/.test(part)) return 1;
  // 2N2222A stands beside 2N2222.
  return own.has(part) || own.has(part.replace(/[A-Z]+$/, "")) ? 2 : 2 + OTHER_NAMES;
}
