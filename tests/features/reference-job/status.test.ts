import { expect, test } from "vitest";
import { hoverLog } from "../../../server/src/features/hover";
import { paragraphsOf } from "../../support/features";
import { openWorld } from "../../support/workspace";

const LOG =
  "---\nmendlog: 1\njob: 2026-003\nboard: example\nreference: true\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 0.58 |\n| U14 | 2 | 1.42 |\n| U15 | 1 | >0.5 |\n";

async function hover(text: string, others = "") {
  const { service } = await openWorld(`//- log.md\n${text}${others}`);
  const view = service.view("mem:/ws/log.md")!;
  return hoverLog(view, view.doc.text.indexOf("true"))?.markdown ?? "";
}

test("over the key's value stands how much of the job counts for other boards", async () => {
  const told = await hover(LOG);
  // 1.42 V is off the family's window before any repair, and a bound is no value.
  expect(told).toMatchInlineSnapshot(`
    "**Reference job**

    \`true\` where this board is known to work: what it reads is then what other boards of its type are held against. Left out otherwise.

    ---

    Its readings at 1 place are used for other boards of example, once the log is saved. The other 2 of its readings are not: read again later, of a replaced part, out of limits before the repair, or not one value."
  `);
});

test("a board that came back stands for none", async () => {
  const back = "//- back.md\n---\nmendlog: 1\njob: 2026-020\nboard: example\ncomeback-of: 2026-003\n---\n";
  expect(paragraphsOf(await hover(LOG, back)).at(-1)).toMatchInlineSnapshot(
    `"It is not used: the board came back as 2026-020, so what was missed may be among its readings."`,
  );
});

test("a log that names no board stands for none", async () => {
  expect(paragraphsOf(await hover(LOG.replace("board: example\n", ""))).at(-1)).toMatchInlineSnapshot(
    `"It is not used yet: the log does not say which board it is of."`,
  );
});
