import { expect, test } from "vitest";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { BOARD } from "../support/judged";
import { type Files, run } from "./memory";

const LOG =
  "---\nmendlog: 1\njob: 2026-003\nboard: trial\nreference: true\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U6 | 3 | 0.58 |\n";
const files: Files = { "boards/trial.board.yaml": BOARD, "logs/good.md": LOG };
const limits = (args: readonly string[], more: Files = {}) =>
  run(["board", "limits", ...args], { ...files, ...more });

const last = (text: string) => loadBoard(text).value?.expected.at(-1);

test("prints the board file with the limits in it, and what it did on standard error", async () => {
  const { code, out, err, written } = await limits(["logs/good.md"]);
  expect([code, written.size]).toEqual([0, 0]);
  expect(out.startsWith(BOARD.trimEnd())).toBe(true);
  expect(last(out)).toMatchObject({ ref: "U6", pin: "3", low: "0.53 V", high: "0.63 V" });
  expect(err).toMatch(
    /^mendlog: 1 limit proposed for the board file: check them, because every reading outside them /,
  );
});

test("writes the board file itself, or a new one beside it, and prints the path", async () => {
  const own = await limits(["logs/good.md", "-o", "boards/trial.board.yaml"]);
  expect([own.code, own.out]).toEqual([0, "boards/trial.board.yaml\n"]);
  expect(last(own.written.get("/w/boards/trial.board.yaml") ?? "")).toMatchObject({
    pin: "3",
    high: "0.63 V",
  });
  const fresh = await limits(["logs/good.md", "-o", "new.board.yaml"]);
  expect([...fresh.written.keys()]).toEqual(["/w/new.board.yaml"]);
});

test("never writes over another file", async () => {
  const other = BOARD.replace("id: trial", "id: other");
  const { code, err, written } = await limits(["logs/good.md", "-o", "boards/other.board.yaml"], {
    "boards/other.board.yaml": other,
  });
  expect([code, written.size]).toEqual([2, 0]);
  expect(err).toContain("is not the board file that the limits are for: that is boards/trial.board.yaml");
  const log = await limits(["logs/good.md", "-o", "logs/good.md"]);
  expect([log.code, log.written.size]).toEqual([2, 0]);
});

test.each([
  [["logs/none.md"], {}, /logs\/none\.md/],
  [["logs"], {}, /is a folder/],
  [["logs/good.md"], { "logs/good.md": LOG.replace("reference: true\n", "") }, /reference: true/],
  [["logs/good.md"], { "logs/good.md": LOG.replace("board: trial\n", "") }, /names no board/],
  [
    ["logs/good.md"],
    { "logs/good.md": LOG.replace("trial", "halden") },
    /"halden", which no board file describes/,
  ],
  [[], {}, /Name a log of the board/],
  [["a.md", "b.md"], {}, /One log names the board/],
] as const)("%j is refused with a reason", async (args, more, says) => {
  const { code, out, err } = await limits(args, more);
  expect([code, out]).toEqual([2, ""]);
  expect(err).toMatch(says);
});

test("says how it is used", async () => {
  const { code, out } = await limits(["--help"]);
  expect(code).toBe(0);
  expect(out).toContain("mendlog board limits [options] LOG");
});
