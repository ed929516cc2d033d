import type { BoardBuilder } from "./builder";
import type { SEnd } from "./s-expression";

/** Says where a file of lists ends too early, or goes on behind its end. */
export function sayEnd({ open, line, extra, crowded }: SEnd, builder: BoardBuilder): void {
  if (open) {
    builder.problem(
      "lost",
      `The file ends in line ${line} in the middle of "(${open.head}", begun in line ${open.line}: it was cut off, or a parenthesis is missing. Everything before it was read; export or copy the file again.`,
      line,
    );
  }
  if (crowded !== undefined) {
    builder.problem(
      "refused",
      `One net or part fills the file up to line ${crowded}: this is no single control board, and nothing of it was taken. Export the one board you repair.`,
      crowded,
    );
  }
  if (extra !== undefined) {
    builder.problem(
      "lost",
      "The board ends before this line, and the rest was not read: a parenthesis too many, or two files in one.",
      extra,
    );
  }
}
