// What a swap noted under the work done tells the diagnosis: what was put back tells, what stayed is history.
import { expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { timelineOf } from "../../../server/src/log/timeline";
import { swapObservations } from "../../../server/src/review/diagnosis/parts/swaps";
import { openWorld } from "../../support/workspace";

const told = async (action: string, note: string) => {
  const log = exampleLog(
    `## Work done\n\n| Ref | Action | Note |\n|---|---|---|\n| U14 | ${action} | ${note} |\n`,
  );
  const { service } = await openWorld(log);
  const view = service.view("mem:/ws/log.md")!;
  return swapObservations(timelineOf(view.doc), view.ctx.board!.value).map(({ finding, against }) =>
    finding?.kind === "sign" ? finding.sign : against?.map(({ by }) => by).join(),
  );
};

test.each([
  ["tried another one", "works, put back", ["swap-better"]],
  ["tried another one", "no change, put back", ["swap-same"]],
  ["replaced", "works", []],
  ["swapped", "works, left in", []],
  ["tried another one", "worse, put back", []],
])("%s: %s", async (action, note, wanted) => {
  expect(await told(action, note)).toEqual(wanted);
});
