import { expect, test } from "vitest";
import { dateCodesIn } from "../../../server/src/review/dates/from-log";
import { openWorld } from "../../support/workspace";

async function codes(body: string, front = "received: 2026-03-02\n") {
  const { service, files } = await openWorld(`---\nmendlog: 1\nboard: example\n${front}---\n\n${body}`);
  const view = service.view(files[0]!.uri)!;
  return view.doc.blocks.flatMap(({ start, block }) =>
    block.tables.flatMap((table) =>
      dateCodesIn(table, view.ctx.board?.value, view.front).map(({ code, span, context }) => ({
        code: code.text,
        at: view.doc.text.slice(start + span.start, start + span.end),
        latest: context.latest,
        era: context.era?.from,
      })),
    ),
  );
}

test("codes stand in rows that say so and in columns made for them, nowhere else", async () => {
  const found = await codes(
    "## Inspection\n\n| Item | Result | Date code | Note |\n|-|-|-|-|\n| Chips | ok | 7931 | a 7404 |\n| Date codes | 7844 | | 7931-8012 |\n| U14 | 7404 | | |\n",
  );
  expect(found.map(({ code }) => code)).toEqual(["7931", "7844", "7931", "8012"]);
  for (const { code, at, latest, era } of found)
    expect([at, latest, era]).toEqual([code, "2026-03-02", 1978]);
});

test("a part fitted is held against the day it was fitted, never against the board's years", async () => {
  const body =
    "## Parts fitted\n\n| Part | Date | Date code |\n|-|-|-|\n| 74LS04 | 2026-03-05 | 9915 |\n| 74LS04 | | 2610 |\n";
  expect(await codes(body, "returned: 2026-03-20\n")).toEqual([
    { code: "9915", at: "9915", latest: "2026-03-05", era: undefined },
    { code: "2610", at: "2610", latest: "2026-03-20", era: undefined },
  ]);
});
