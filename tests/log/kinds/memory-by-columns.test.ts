// A memory test is one by its own columns, whatever two digits were written and read back: those are no pins and no drops.
import { expect, test } from "vitest";
import { openAt } from "../../support/workspace";

const codes = async (columns: string, ...rows: readonly string[]) => {
  const line = `|${columns
    .split("|")
    .map(() => "---")
    .join("|")}|`;
  const { service, uri } = await openAt(
    `//- log.md\n---\nmendlog: 1\n---\n\n## Parts\n\n| Ref | Device |\n|---|---|\n| U7 | 2114 |\n| U8 | 2114 |\n\n## Memory test\n\n| ${columns} |\n${line}\n${rows.map((row) => `| ${row} |`).join("\n")}\n$0`,
  );
  return service.findings(uri).map(({ code }) => code);
};

test.each(["05", "55", "08"])("%s written and read back is a pass", async (byte) => {
  expect(
    await codes(
      "Ref | Address | Wrote | Read | Result",
      `U7 | 0000 | ${byte} | ${byte} | pass`,
      `U8 | 0001 | ${byte} | ${byte} | pass`,
    ),
  ).toEqual([]);
});

test("a bit that comes back wrong is the chip's", async () => {
  expect(
    await codes(
      "Ref | Address | Wrote | Read | Failing bits | Result | Note",
      "U7 | 0000 | 05 | 05 | | pass |",
      "U7 | 0001 | 0A | 08 | 1 | fail | again",
    ),
  ).toEqual(["memory-chip-suspect"]);
});
