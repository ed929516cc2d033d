import { describe, expect, it, test } from "vitest";
import { deviceOffers, insertionOf, tableOffers } from "../../../server/src/features/insert-table";
import type { LogView } from "../../../server/src/features/view";
import { applyEdits } from "../../../server/src/text/edits";
import { demoText, openDemo } from "../../support/demo";
import { checkNoRefactor, refactorsOf } from "../../support/refactor";
import { openAt } from "../../support/workspace";

const FRONT = "---\nmendlog: 1\nboard: example\n---\n\n";

async function inserted(body: string, id: string, front = FRONT): Promise<string> {
  const { view, offset } = await openAt(front + body);
  const made = insertionOf(view, id, offset);
  if (!made.ok) return made.reason;
  return applyEdits(view.doc.text, [made]).slice(front.length);
}

const RAILS = `| Rail    | Reading | Ripple | Note |
|---------|---------|--------|------|
| +5V     |         |        |      |
| +9V raw |         |        |      |
| +24V    |         |        |      |`;

describe("a table from the palette", () => {
  test("goes on the empty line under its heading", async () => {
    expect(await inserted("## Supply rails, loaded\n\n$0\n\nText\n", "rails:supply-rails")).toBe(
      `## Supply rails, loaded\n\n${RAILS}\n\nText\n`,
    );
  });

  test("brings its heading where there is none that fits, behind what the section holds", async () => {
    const text = await inserted(
      "## Inspection\n\n$0\n\n| Item | Result |\n|-|-|\n| Case | ok |\n\n## Work done\n",
      "matrix:switches",
    );
    expect(text).toBe(
      "## Inspection\n\n\n\n| Item | Result |\n|-|-|\n| Case | ok |\n\n## Switch matrix\n\n| Row \\ Col | 1   | 2   | 3   |\n|-----------|-----|-----|-----|\n| 1         |     |     |     |\n| 2         |     |     |     |\n| 3         |     |     | -   |\n\n## Work done\n",
    );
  });

  test("goes to the end of the log from the front matter, with the log's own line ends", async () => {
    const text = `${FRONT}Text`.replaceAll("\n", "\r\n");
    const { view } = await openAt(`$0${text}`);
    const made = insertionOf(view, "rails:supply-rails", 10);
    expect(made.ok && applyEdits(text, [made])).toBe(
      `${FRONT}Text\n\n## Supply rails\n\n${RAILS}\n`.replaceAll("\n", "\r\n"),
    );
  });

  test.each([
    ["ahead of it", "## Inspection\n\nText$0\n\n"],
    ["in its place", "## Inspection\n\nText\n\n"],
  ])("never goes into the list of suspects, which is written anew: %s", async (_, body) => {
    const list =
      "<!-- mendlog-suspects: written -->\n\n## Suspects\n\n1. U14\n\n<!-- mendlog-suspects-end -->\n";
    const marked = body.includes("$0") ? list : list.replace("\n\n## S", "\n$0\n## S");
    const text = await inserted(body + marked, "chip:U15");
    expect(text).toContain(list);
    expect(text).toContain("Text\n\n");
    expect(text).toMatch(/^\| U15 /m);
  });

  test.each([
    ["inside a listing", "## Diode check\n\n```\n$0\n```\n"],
    ["in a line of prose", "## Diode check\n\nSo$0me\n"],
    ["in a table", "## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1$0 | 0.5 |\n"],
    ["right below a row", "## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 0.5 |\n$0\n"],
  ])("goes behind the section from %s", async (_, body) => {
    const text = await inserted(body, "chip:U15");
    const before = body.replace("$0", "");
    expect(text.startsWith(before.trimEnd())).toBe(true);
    expect(text.slice(before.trimEnd().length)).toMatch(/^\n+\| Ref \| Pin \| Reading \| Note/);
    const { view } = await openAt(`$0${FRONT}${text}`);
    expect(view.doc.blocks.flatMap(({ block }) => block.tables).at(-1)?.readings).toHaveLength(14);
  });

  test("is refused where something is left open at the end, and where there is no such table", async () => {
    expect(await inserted("Text\n\n```\nopen$0\n", "chip:U15")).toContain("not closed");
    expect(await inserted("$0\n", "chip:U99")).toContain('no table "chip:U99"');
    expect(await inserted("$0\n", "matrix:switches", FRONT.replace("example", "unknown"))).toContain(
      "no table",
    );
  });

  test("is there without any board: the first rail, and every chip by its number", async () => {
    const front = "---\nmendlog: 1\n---\n\n";
    const { view } = await openAt(`$0${front}`);
    expect(tableOffers(view).map(({ id }) => id)).toEqual([
      "rails:resistance-to-ground",
      "rails:first-power",
      "rails:supply-rails",
    ]);
    const chips = deviceOffers(view);
    expect(chips[0]?.label).toBe("7400");
    expect(chips.find(({ label }) => label === "6821")?.description).toContain("· 40 pins");
    expect(await inserted("## Supply rails\n\n$0\n", "rails:supply-rails", front)).toBe(
      "## Supply rails\n\n| Rail | Reading | Ripple | Note |\n|------|---------|--------|------|\n| +5V  |         |        |      |\n",
    );
    const text = await inserted("## Diode check\n\n$0\n", "device:74LS00", front);
    expect(text).toContain("| Ref | Device | Pin | Reading | Note       |\n");
    expect(text).toMatch(/\n\| U\? {2}\| 74LS00 \| 1 {3}\|/);
    const at = await openAt(`${front}## Diode check\n\n$0\n`);
    const made = insertionOf(at.view, "device:74LS00", at.offset);
    expect(made.ok && made.snippet.match(/\$\{1:U\?\}|\$1 /g)).toHaveLength(14);
    expect(made.ok && made.snippet.match(/\$\{\d+: {5}\}/g)).toHaveLength(14);
  });

  test("lists what the log has said so far, as it does with a board file", async () => {
    const { view } = await openAt(
      "---\nmendlog: 1\nboard: nowhere\n---\n\n## Parts on the board\n\n| Ref | Device | Circuit |\n|-|-|-|\n| U5 | 7404 | clock |\n| U6 | 7474 | clock |\n\n## Supply rails\n\n| Rail | Reading |\n|-|-|\n| -12V | -12.1 |\n\n## Switch matrix\n\n| Row / column | 1 | 2 |\n|-|-|-|\n| 1 | ok | ok |\n\n$0\n",
    );
    expect(tableOffers(view).map(({ id, description }) => `${id} ${description}`)).toEqual([
      "rails:resistance-to-ground -12V",
      "rails:first-power -12V",
      "rails:supply-rails -12V",
      "matrix:switches 1 rows, 2 columns",
      "circuit:clock U5, U6",
      "chip:U5 7404 hex inverter · 14 pins",
      "chip:U6 7474 dual D flip-flop with preset and clear · 14 pins",
    ]);
  });

  test("can be any of those of the demo's board, and each is then read as a table", async () => {
    const service = await openDemo();
    const uri = "mem:/demo/logs/2026-018-controller.md";
    const text = demoText(uri);
    const view = (of: string): LogView => {
      service.open(uri, of);
      return service.view(uri) as LogView;
    };
    const before = view(text);
    const offers = tableOffers(before);
    expect(offers.map(({ kind }) => kind).filter((kind, i, all) => all[i - 1] !== kind)).toEqual([
      "rails",
      "matrix",
      "circuit",
      "chip",
    ]);
    const tablesOf = ({ doc }: LogView) => doc.blocks.flatMap(({ block }) => block.tables);
    const count = tablesOf(before).length;
    for (const { id } of offers) {
      const made = insertionOf(view(text), id, text.length);
      if (!made.ok) return expect.fail(`${id}: ${made.reason}`);
      const after = tablesOf(view(applyEdits(text, [made])));
      expect(after).toHaveLength(count + 1);
      expect(after.at(-1)?.source.rows.length).toBeGreaterThan(1);
      expect(made.snippet).toContain("${1:");
    }
  });
});

describe("on an empty line", () => {
  it("are the tables that belong under the heading", async () => {
    expect((await refactorsOf("## Supply rails, loaded\n\n$0\n")).titles).toEqual([
      "Insert a row for each rail",
    ]);
    expect((await refactorsOf("## Diode check U14\n\n$0\n")).titles).toEqual([
      "Insert a row for each pin of U14",
    ]);
    expect((await refactorsOf("## Switch matrix\n$0\n")).take("Insert")).toContain(
      "## Switch matrix\n\n| Row \\ Col | 1   |",
    );
  });

  it("are those the log has none of, with a heading, where there is no heading of readings", async () => {
    const { titles, take } = await refactorsOf(
      "# Board\n\n## Supply rails\n\n| Rail | Reading |\n|-|-|\n| +5V | 5 |\n\n## Notes\n\n$0\n",
    );
    expect(titles).toEqual([
      'Insert a row for each rail, under "Resistance to ground"',
      'Insert a row for each rail, under "First power"',
      'Insert the grid of "Switch matrix", under "Switch matrix"',
    ]);
    expect(take("Insert a row for each rail")).toContain("## Notes\n\n## Resistance to ground\n\n| Rail");
  });

  it.each([
    ["prose", "Te$0xt\n"],
    ["code", "```\n$0\n```\n"],
    ["a place before other text that would come under the heading", "## Notes\n\n$0\n\nText\n"],
    ["a comment", "<!--\n$0\n-->\n"],
  ])("are none in %s", async (_where, body) => {
    await checkNoRefactor(body, "Insert");
  });
});
