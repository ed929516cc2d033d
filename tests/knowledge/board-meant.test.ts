import { expect, test } from "vitest";
import { boardMeant } from "../../server/src/knowledge/board-meant";

const BOARDS = ["halden-6809", "regatta-controller", "regatta-display", "mp_lamp_driver"];

test.each([
  ["halden", "halden-6809"],
  ["hald", "halden-6809"],
  ["Halden 6809", "halden-6809"],
  ["halden6809", "halden-6809"],
  ["halden-68", "halden-6809"],
  ["6809", "halden-6809"],
  ["6809-halden", "halden-6809"],
  ["halden-6809-rev-b", "halden-6809"],
  ["haldne-6809", "halden-6809"],
  ["controller", "regatta-controller"],
  ["lamp", "mp_lamp_driver"],
  ["mp-lamp-driver", "mp_lamp_driver"],
  ["regata-display", "regatta-display"],
  ["haldn", "halden-6809"],
  ["hadlen", "halden-6809"],
  ["6809 halde", "halden-6809"],
])("%s means %s", (typed, expected) => {
  expect(boardMeant(typed, BOARDS)).toBe(expected);
});

test.each([
  ["regatta", "two boards begin with it"],
  ["ha", "two letters begin too much"],
  ["6808", "no board has that number"],
  ["kestrel", "no board is like it"],
  ["golden", "two letters are others"],
  ["regatt", "two boards begin with it"],
  ["--", "there is no word in it"],
  ["", "nothing is typed"],
])("%j means none: %s", (typed) => {
  expect(boardMeant(typed, BOARDS)).toBeUndefined();
});

test("a whole word is nearer than another word with one letter changed", () => {
  expect(boardMeant("halden", ["holden", "halden-6809"])).toBe("halden-6809");
});

test("of ids one of which begins the other, the shorter is not lost behind the longer", () => {
  expect(boardMeant("Halden", ["halden", "halden-6809"])).toBe("halden");
});
