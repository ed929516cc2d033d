import type { ProvingItem } from "../../knowledge/types";

/** The item with that id or title: marks, case and blanks do not count, nor "the", "all" and "every" before it. */
export function itemNamed(typed: string, items: readonly ProvingItem[]): ProvingItem | undefined {
  const wanted = fold(typed);
  if (wanted === "") return undefined;
  return (
    items.find(({ id }) => fold(id) === wanted) ??
    items.find(({ title }) => fold(title) === wanted) ??
    onlyOne(items.filter(({ title }) => bare(title) === bare(typed)))
  );
}

const onlyOne = <T>(found: readonly T[]): T | undefined => (found.length === 1 ? found[0] : undefined);

export const fold = (text: string): string =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();

const bare = (text: string): string => fold(text).replace(/^(?:(?:the|all|every|each)\s+)+/, "");
