import { expect, test } from "vitest";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { checkProblems } from "./problems";

const HEAD = `mendlog-board: 1
id: regatta
title: Regatta
parts: { U2: { device: "2716" }, U7: { device: "2114" }, U8: { device: "2114" } }
rom-sets: { one: { title: First, images: [{ ref: U2 }] } }
`;
const check = (rest: string) => checkProblems((text) => loadBoard(text), HEAD + rest);

test("memory that says all there is to say", () => {
  const board = check(`memory:
  - { ref: U7, data: [0, 1, 2, 3], from: "0000", to: "03FF" }
  - { ref: U8, data: [4, 5, 6, 7] }
`);
  expect(board?.memory).toEqual([
    { ref: "U7", data: [0, 1, 2, 3], range: { from: 0, to: 0x3ff } },
    { ref: "U8", data: [4, 5, 6, 7] },
  ]);
});

test("memory that cannot be", () => {
  check(`memory:
  - { ref: U7, data: [0, 1, 2] }
               ^^^^ wrong-width: 3 data lines
  - { ref: U8, data: [4, 4, 5, 6], from: "0400", to: "03FF" }
                         ^ line-twice
                                                     ^^^^^^ reversed-range
  - { ref: U8, data: [7], from: "0" }
           ^^ duplicate-id
                                ^^^ half-a-range
  - { ref: U2, data: [0] }
           ^^ memory-is-rom: ROM set
  - { ref: U9, data: [99] }
           ^^ unknown-part
                      ^^ out-of-range: at most 15
`);
});
