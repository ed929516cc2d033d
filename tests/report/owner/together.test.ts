// What was measured wrong is nothing that was found on the owner's board.
import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { foundIn } from "../../../server/src/report/owner/found";
import { openAt } from "../../support/workspace";

const table = (readings: string): string =>
  `## Diode check U14\n\n| Pin | Reading |\n|---|---|\n${readings
    .split(" ")
    .map((one, i) => `| ${i + 1} | ${one} |\n`)
    .join("")}`;

const found = async (readings: string): Promise<number> => {
  const { view } = await openAt(`${exampleLog(table(readings))}$0`);
  return foundIn(view as Parameters<typeof foundIn>[0]).length;
};

test("a table read with the lead off ground says nothing of the board, and a dead chip does", async () => {
  expect(await found("OL OL OL OL OL OL OL OL OL OL OL OL OL OL")).toBe(0);
  expect(await found("OL OL OL OL OL OL 0.001 OL OL OL OL OL OL 0.312")).toBe(1);
});
