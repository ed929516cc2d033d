import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../../server/src/checks/example-board";
import {
  diagnosisOf,
  listedSuspect,
  logDiagnosisSteps,
  rankedFor,
  shareText,
  writeSuspects,
} from "../../../../server/src/features/shared/diagnosis";
import type { LogView } from "../../../../server/src/features/view";
import { applyEdits } from "../../../../server/src/text/edits";
import { demoText, openDemo } from "../../../support/demo";
import { TWO_WRONG_DROPS as BODY } from "../../../support/tables";
import { checkFindings, openAt } from "../../../support/workspace";

const viewOf = async (text: string): Promise<LogView> => (await openAt(`${text}$0`)).view;
const written = async (text: string): Promise<string> => {
  const result = writeSuspects(await viewOf(text));
  if (!result.ok) throw new Error(result.reason);
  return applyEdits(text, result.edit ? [result.edit] : []);
};

describe("the ranked suspects", () => {
  test("each with the evidence for, against and not yet taken", async () => {
    const view = await viewOf(exampleLog(BODY));
    const found = diagnosisOf(view)!;
    const [first] = rankedFor(found, 1).map((ranked) => listedSuspect(view, found, ranked));
    expect(first).toMatchObject({ name: "U14", title: expect.stringContaining("74LS04") });
    expect(first?.for).toEqual(["U14 pin 2 reads high or open on ROW_1.", "U14 pin 4 reads high or open."]);
    expect(first?.notTaken).toEqual([]);
    expect(first?.share).toBeGreaterThan(0.9);
  });

  test.each([
    [0.004, "under 1 %"],
    [0.034, "about 3 %"],
    [0.62, "about 60 %"],
    [0.971, "about 97 %"],
    [0.999, "over 99 %"],
  ])("%d is said as %s", (share, text) => {
    expect(shareText(share)).toBe(text);
  });

  test.each(["2026-018-controller", "2026-013-driver", "2026-016-controller"])(
    "nothing that is written calls a part sound or sure: %s",
    async (name) => {
      const service = await openDemo();
      const uri = `mem:/demo/logs/${name}.md`;
      service.open(uri, demoText(uri));
      const result = writeSuspects(service.view(uri)!);
      const text = result.ok ? (result.edit?.newText ?? "") : "";
      expect(text).toContain("## Suspects");
      expect(text).not.toMatch(/\b(good|pass(ed|es)?|proven|fine|certain(ly)?|ok)\b/i);
    },
  );
});

describe("the section", () => {
  test("comes behind all else, ranked, with its bound and the next reading", async () => {
    const text = await written(exampleLog(BODY));
    expect(text.startsWith(exampleLog(BODY))).toBe(true);
    const section = text.slice(exampleLog(BODY).length);
    expect(section).toMatch(/^\n<!-- mendlog-suspects: .* -->\n\n## Suspects\n\n/);
    expect(section).toMatch(/\n1\. \*\*U14\*\* \(74LS04 [^\n]*\): (about|over) \d+ %\n {3}- for: U14 pin 2/);
    expect(section).toMatch(/\n\*\*Next reading:\*\* [^\n]*about \d+ (?:s|min)\.\n/);
    expect(section).toMatch(/\nComplete[^\n]*\n\n<!-- mendlog-suspects-end -->\n$/);
  });

  test("adds no finding and takes none away", async () => {
    const marked = exampleLog(BODY)
      .replace("| 1.42    |", "| 1.42    |\n              ^^^^ diode-out-of-window: U14 pin 2")
      .replace("| OL      |", "| OL      |\n              ^^ diode-out-of-window: U14 pin 4");
    const section = (await written(exampleLog(BODY))).slice(exampleLog(BODY).length);
    await checkFindings(marked + section);
  });

  test("is written anew between its comments, and only there", async () => {
    const once = await written(exampleLog(BODY));
    expect(await written(once)).toBe(once);
    const edited = once
      .replace("## Suspects", "## Suspects\n\nAn idea of my own")
      .replace("# A board", "# A board of Anna's");
    const behind = `${edited}\n## Work done\n\nNothing yet.\n`;
    const again = await written(behind);
    expect(again).toBe(`${once.replace("# A board", "# A board of Anna's")}\n## Work done\n\nNothing yet.\n`);
  });

  test("a comment left alone is no section: nothing below it is lost", async () => {
    const half = `${exampleLog(BODY)}\n<!-- mendlog-suspects: mine -->\n\nKeep this.\n`;
    const text = await written(half);
    expect(text.startsWith(half)).toBe(true);
    // The newer pair is the one that is replaced from then on.
    expect(await written(text)).toBe(text);
    const fenced = `${exampleLog(BODY)}\n\`\`\`\n<!-- mendlog-suspects: x -->\n<!-- mendlog-suspects-end -->\n\`\`\`\n`;
    expect((await written(fenced)).startsWith(fenced)).toBe(true);
  });

  test("keeps the log's line ends and leaves one empty line before it", async () => {
    const windows = exampleLog(BODY).replaceAll("\n", "\r\n");
    const text = await written(windows);
    expect(text.replaceAll("\r\n", "")).not.toContain("\n");
    expect(text).toContain("\r\n\r\n<!-- mendlog-suspects");
    const unended = exampleLog(BODY).trimEnd();
    expect(await written(unended)).toContain("0.58    |\n\n<!-- mendlog-suspects");
    expect(await written(`${exampleLog(BODY)}\n`)).not.toContain("\n\n\n");
  });

  test("is not begun where nothing was found, and says so where it stands", async () => {
    const clean = exampleLog(BODY.replace("1.42", "0.58").replace("OL", "0.57"));
    expect(writeSuspects(await viewOf(clean))).toEqual({
      ok: false,
      reason: expect.stringContaining("nothing is suspected"),
    });
    const stale = (await written(exampleLog(BODY))).replace("1.42", "0.58").replace("OL", "0.57");
    const text = await written(stale);
    expect(text).toContain("Nothing was found wrong, so nothing is suspected.");
    expect(text).not.toContain("1. **");
  });

  test("a log without a known board, and a request that is no longer wanted", async () => {
    const strange = exampleLog(BODY).replace("board: example", "board: nowhere");
    expect(writeSuspects(await viewOf(strange))).toMatchObject({
      ok: false,
      reason: expect.stringContaining("board file"),
    });
    const view = await viewOf(exampleLog(BODY));
    const steps = logDiagnosisSteps(view);
    for (let i = 0; i < 5; i += 1) expect(steps.next().done).toBe(false);
    // A diagnosis that was left leaves nothing behind that a later one would take for whole.
    expect(writeSuspects(view)).toEqual(writeSuspects(await viewOf(exampleLog(BODY))));
    expect(writeSuspects(view)).toMatchObject({ ok: true });
  });

  test("a part's name from the board file makes no Markdown of its own", async () => {
    const fixture = `//- b.board.yaml
mendlog-board: 1
id: b
title: Board
parts:
  R1: { value: "4k7 *new* <b>", circuit: c }
circuits:
  c: { title: "A | B" }
nets:
  N_1: [R1.1]
//- log.md
---
mendlog: 1
board: b
---

## Resistance

| Ref | Reading |
|-----|---------|
| R1  | 9.9 M   |
`;
    const { view } = await openAt(`${fixture}$0`);
    const result = writeSuspects(view);
    const text = result.ok ? (result.edit?.newText ?? "") : "";
    expect(text).toContain("\\*new\\* \\<b>");
    expect(text).toContain("A \\| B");
  });
});
