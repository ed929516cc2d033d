import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { type MarkedTable, previewOf } from "../../../server/src/features/preview";
import { demoLogs, openDemo } from "../../support/demo";
import { openWorld } from "../../support/workspace";

async function previewed(log: string): Promise<{ text: string; tables: MarkedTable[] }> {
  const { service, files } = await openWorld(log);
  const view = service.view(files[0]?.uri ?? "");
  if (!view) throw new Error("no log");
  return { text: view.doc.text, tables: [...previewOf(view)] };
}

const DIODE = exampleLog(`## Diode check

| Ref | Pin | Reading | Note |
|-----|-----|---------|------|
| U14 | 1   | 0.58    | x    |
| U14 | 2   | 1.42    |      |
| U14 | 3   | -       |      |
| U14 | 4   | 0.57    |      |
| U14 | 5   | 0,5x    |      |
`);

describe("marks", () => {
  test("give each reading's verdict in its cell; what was not measured has none", async () => {
    const { text, tables } = await previewed(DIODE);
    const [table] = tables;
    const told = table?.marks.map(({ at, column, text: cell, verdict }) => [
      text.slice(at, text.indexOf("\n", at)).split("|")[2]?.trim(),
      column,
      cell,
      verdict,
    ]);
    expect(told).toEqual([
      ["1", 2, "0.58", "within-limits"],
      ["2", 2, "1.42", "out-of-limits"],
      ["4", 2, "0.57", "within-limits"],
      ["5", 2, "0,5x", "unjudged"],
    ]);
    expect(text.slice(table?.start).startsWith("| Ref | Pin")).toBe(true);
    expect(text.slice(table?.heading).startsWith("## Diode check")).toBe(true);
    expect(table?.marks[1]).toMatchObject({ glyph: "▲", words: "Out of limits" });
    expect(table?.marks[1]?.sentence).toContain("1.42");
  });

  test("never call a part good, and say the same as the hover", async () => {
    const service = await openDemo();
    for (const [uri, log] of demoLogs) {
      service.open(uri, log);
      const view = service.view(uri);
      const tables = view ? [...previewOf(view)] : [];
      for (const { marks, pictures } of tables) {
        for (const { words, sentence } of marks)
          expect(`${words} ${sentence}`).not.toMatch(/\b(good|passed)\b/i);
        for (const { alt } of pictures) expect(alt).not.toMatch(/\b(good|passed)\b/i);
      }
    }
  });

  test("where nothing is known of the board every reading is said to be unjudged, or judged by its family alone", async () => {
    const { tables } = await previewed(DIODE.replace(/board: \S+/, "board: nowhere"));
    expect(tables[0]?.marks.length).toBeGreaterThan(0);
    for (const { verdict } of tables[0]?.marks ?? []) expect(["unjudged", "impossible"]).toContain(verdict);
    expect(tables[0]?.pictures).toEqual([]);
  });

  test.each([
    ["a row of dashes too short", DIODE.replace("|-----|-----|---------|------|", "|-----|-----|")],
    ["an unknown heading", DIODE.replace("## Diode check", "## Something")],
    ["no table", exampleLog("Words.\n")],
  ])("%s gives no table", async (_, log) => {
    expect((await previewed(log)).tables).toEqual([]);
  });
});

describe("pictures", () => {
  test("a table that reads some pins of a chip has its outline, with this table's verdicts alone", async () => {
    const after = DIODE.replace("## Diode check", "## Diode check before repair");
    const second = DIODE.slice(DIODE.indexOf("## Diode check"))
      .replace("## Diode check", "## Diode check after repair")
      .replace("1.42", "0.59");
    const { tables } = await previewed(`${after}\n${second}`);
    expect(tables.map(({ pictures }) => pictures.length)).toEqual([1, 1]);
    expect(tables[0]?.pictures[0]?.alt).toMatch(/U14.*out of limits: pin 2/i);
    expect(tables[1]?.pictures[0]?.alt).not.toMatch(/out of limits/i);
  });

  test("a table of two pins is too little for an outline", async () => {
    const { tables } = await previewed(DIODE.replace(/\| U14 \| [45].*\n/g, ""));
    expect(tables[0]?.pictures).toEqual([]);
  });

  test("a matrix is drawn as it stood after its table", async () => {
    const service = await openDemo();
    const [uri = "", log = ""] = demoLogs.find(([each]) => each.endsWith("2026-018-controller.md")) ?? [];
    const at = log.indexOf("\n## Diode check");
    const grid = /## Switch matrix\n[\s\S]*?(?=\n## )/.exec(log)?.[0] ?? "";
    const mended = grid.replace("## Switch matrix", "## Switch matrix after repair").replaceAll("dead", "ok");
    service.open(uri, `${log.slice(0, at)}\n${mended}${log.slice(at)}`);
    const view = service.view(uri);
    const alts = [...(view ? previewOf(view) : [])].flatMap(({ pictures }) =>
      pictures.filter(({ alt }) => /rows by/.test(alt)).map(({ alt }) => alt),
    );
    expect(alts).toHaveLength(2);
    expect(alts[0]).toMatch(/dead: 15/);
    expect(alts[1]).not.toMatch(/dead/);
  });
});
