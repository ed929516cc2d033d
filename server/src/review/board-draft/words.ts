import type { BoardDraft } from "../../knowledge/board-file/draft";

/** "12 parts, 3 rails and 1 net"; "nothing" of a draft with nothing in it. */
export function draftWords({ parts, rails, nets, matrices, symptoms }: BoardDraft): string {
  const words = [
    ...count(parts.length, "part"),
    ...count(rails.length, "rail"),
    ...count(nets.length, "net"),
    ...count(matrices.length, "matrix", "matrices"),
    ...count(symptoms.length, "symptom"),
  ];
  if (words.length < 2) return words[0] ?? "nothing";
  return `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
}

const count = (n: number, word: string, words = `${word}s`): string[] =>
  n === 0 ? [] : [`${n} ${n === 1 ? word : words}`];
