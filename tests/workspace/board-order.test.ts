import { describe, expect, it } from "vitest";
import { boardByBoard } from "../../server/src/workspace/board-order";

const one = (uri: string, ...boards: string[]) => ({ uri, boards });

describe("files board by board", () => {
  it("stand by the id of their first board, those without one first, and keep their order otherwise", () => {
    const files = [
      one("e", "regatta"),
      one("d"),
      one("a", "Regatta", "cabinet"),
      one("c", "cabinet"),
      one("b"),
    ];
    const more = [one("x", "regatta"), one("w", "cabinet", "regatta"), one("v", "é"), one("u", "")];
    const ordered = boardByBoard([...files, ...more], ({ boards }) => boards);
    expect(ordered.map(({ uri }) => uri).join("")).toBe("dbuacwexv");
  });

  it("are what sorting them by that alone gives", () => {
    const files = Array.from({ length: 500 }, (_, n) => one(`${n}`, `board ${(n * 7919) % 23}`));
    const sorted = [...files].sort((a, b) =>
      a.boards[0]! < b.boards[0]! ? -1 : a.boards[0]! > b.boards[0]! ? 1 : 0,
    );
    expect(boardByBoard(files, ({ boards }) => boards)).toEqual(sorted);
  });
});
