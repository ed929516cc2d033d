import { quantityOf } from "../quantity-rule";
import type { KeptEntry } from "./change";
import { type BoardEntry, isFields, isList } from "./entry";

export const valueWords = (value: string | readonly string[]): string =>
  typeof value === "string" ? value : value.join(", ");

/** The same however it is typed: `5 V` is `5.0V`, `74ls04` is `74LS04`. */
export function same(a: string | readonly string[], b: string | readonly string[]): boolean {
  if (typeof a !== "string" || typeof b !== "string") return valueWords(a) === valueWords(b);
  const [first, second] = [quantityOf(a), quantityOf(b)];
  // A number without a unit may be a part number.
  if (first && second && first.dimension !== "count" && second.dimension !== "count") {
    return first.dimension === second.dimension && first.value === second.value;
  }
  return a.trim().toLowerCase() === b.trim().toLowerCase();
}

/** A new entry said twice: what the second one says more is taken over, what it says otherwise is told. */
export function joinedValues(first: BoardEntry, second: BoardEntry, kept: KeptEntry[]): BoardEntry {
  if (isList(first.value) && isList(second.value)) {
    return { ...first, value: [...new Set([...first.value, ...second.value])] };
  }
  if (!isFields(first.value) || !isFields(second.value)) return first;
  const before = first.value;
  const differs = Object.entries(second.value)
    .filter(([field, draft]) => before[field] !== undefined && !same(before[field], draft))
    .map(([field, draft]) => ({ field, file: valueWords(before[field]!), draft: valueWords(draft) }));
  if (differs.length > 0) kept.push({ section: first.section, key: first.key, differs });
  return { ...first, value: { ...second.value, ...before } };
}

/** The second wins: it is no guess, or it is said to replace. */
export const merged = (first: BoardEntry, second: BoardEntry): BoardEntry =>
  first.guess || !isFields(first.value) || !isFields(second.value)
    ? second
    : { ...second, value: { ...first.value, ...second.value } };
