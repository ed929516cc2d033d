/**
 * Files of one board one after another, and each in its place where no board is named: what the boards of one type read is worked
 * out once for all of them.
 */
export function boardByBoard<T>(all: Iterable<T>, boardsOf: (one: T) => readonly string[]): T[] {
  const named = Array.from(all, (one) => ({ one, board: boardsOf(one)[0] ?? "" }));
  return named.sort((a, b) => (a.board < b.board ? -1 : a.board > b.board ? 1 : 0)).map(({ one }) => one);
}
