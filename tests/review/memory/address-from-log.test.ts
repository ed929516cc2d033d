// Failing addresses noted without their data, and what they have in common.

import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { memoryChips } from "../../../server/src/compute/memory/chips";
import { tablesOf } from "../../../server/src/log/document";
import { patternIn } from "../../../server/src/review/memory/address-from-log";
import { checkHover } from "../../support/features";
import { words } from "../../support/words";
import { openAt } from "../../support/workspace";

const HEAD = "## Memory test\n\n| Address | Result |\n|---|---|\n";
const FAIL = ["0100", "0121", "0342", "0163", "0384", "01A9", "03C6", "01F7"];
const rows = (list: readonly string[], result = "fail") =>
  list.map((at) => `| ${at} | ${result} |\n`).join("");

async function pattern(body: string) {
  const { view } = await openAt(`${exampleLog(body)}$0`);
  const [first] = [...tablesOf(view.doc)];
  const board = view.ctx.board?.value;
  return first && board && patternIn(first.table, memoryChips(board, view.ctx.library));
}

test("eight addresses that agree on a line name it", async () => {
  const found = await pattern(HEAD + rows(["0000"], "pass") + rows(FAIL) + rows(["02FF"], "pass"));
  expect(found?.lines).toEqual([8]);
  expect(words(found)).toMatch(
    /^All 8 failing addresses have A8 high\. None of the 2 addresses that passed is like that\. Check the select .*\.$/,
  );
  expect(found?.says.more).toBe("Tested: 0000 to 03C6.");
});

describe("near miss", () => {
  test.each([
    ["seven are too few", HEAD + rows(["0000"], "pass") + rows(FAIL.slice(1)) + rows(["02FF"], "pass")],
    ["one that passed is like them", HEAD + rows(["0000", "0102"], "pass") + rows(FAIL)],
    ["they agree on nothing", HEAD + rows([...FAIL.slice(1), "0011", "0200", "00FC"])],
    ["nothing failed", HEAD + rows(FAIL, "pass")],
    ["no address", "## Memory test\n\n| Ref | Result |\n|---|---|\n| U32 | fail |\n"],
  ])("%s", async (_, body) => expect(await pattern(body)).toBeUndefined());
});

test("its hover says so at each failing address", async () => {
  const body = `${HEAD}${rows(["0000"], "pass")}${rows(FAIL)}`.replace("| 0342 |", "| 03$042 |");
  await checkHover(exampleLog(body), "0342", "All 8 failing addresses have A8 high");
});
