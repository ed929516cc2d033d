// What is known of a board that no file describes, in words.
import type { LogContext } from "../judge/context";

/** "12 parts and 3 rails are known from this log and 2 others"; undefined where nothing is. */
export function knownOfBoard({ board, stated }: LogContext): string | undefined {
  if (!board || !stated) return undefined;
  const { parts, rails, matrices } = board.value;
  const words = [
    ...count(parts.size, "part"),
    ...count(rails.size, "rail"),
    ...count(matrices.size, "matrix", "matrices"),
  ];
  if (words.length === 0) return undefined;
  const what = words.length > 1 ? `${words.slice(0, -1).join(", ")} and ${words.at(-1)}` : words[0];
  const isOne = parts.size + rails.size + matrices.size === 1;
  const others = stated.jobs === 0 ? "" : ` and ${stated.jobs} ${stated.jobs === 1 ? "other" : "others"}`;
  return `${what} ${isOne ? "is" : "are"} known from this log${others}`;
}

const count = (n: number, word: string, words = `${word}s`): string[] =>
  n === 0 ? [] : [`${n} ${n === 1 ? word : words}`];
