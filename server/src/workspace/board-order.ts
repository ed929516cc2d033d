/**
 * Files of one board one after another, and each in its place where no board is named: what the boards of one type read is worked
 * out once for all of them.
 */
export function boardByBoard<T>(all: Iterable<T>, boardsOf: (one: T) => readonly string[]): T[] {
  const byBoard = new Map<string, T[]>();
  for (const one of all) {
    const board = boardsOf(one)[0] ?? "";
    const same = byBoard.get(board);
    if (same) same.push(one);
    else byBoard.set(board, [one]);
  }
  // There are few boards: to sort ten thousand logs would hold up a key.
  return [...byBoard.keys()].sort().flatMap((board) => byBoard.get(board)!);
}
