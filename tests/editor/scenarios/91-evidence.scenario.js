import assert from "node:assert/strict";

const LOG = "logs/2026-030-controller.md";
const BEFORE = `---
mendlog: 1
job: 2026-030
board: regatta-controller
revision: B
owner: Example Arcade
received: 2026-03-20
stage: diagnosing
---

# Regatta controller, off and on

## Continuity

| From | To | Reading |
|------|----|---------|
`;
const AFTER = `
## First power

| Rail | Limit | Current | Voltage | Hot | Result   |
|------|-------|---------|---------|-----|----------|
| +5V  | 3 A   | 2.9 A   | 4.9 V   | U13 | stays up |

## Chip test

| Ref | Part   | Result |
|-----|--------|--------|
| U13 | 74LS14 | fail   |

## Swap test

| Ref | Part  | Result | Then     |
|-----|-------|--------|----------|
| U12 | 74145 | same   | put back |

## Heat, cold and tap test

| Ref | Test       | Result     |
|-----|------------|------------|
| U14 | cold spray | fault goes |
`;
const ROWS = ".pane .monaco-list-row";

export default {
  title:
    "continuity is typed in words; a beep, a missing beep, first power, a failed chip, a swap, heat and cold are heard",
  workspace: "../../demo",
  files: { [LOG]: BEFORE + AFTER },
  async run(editor) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();

    // A row by keys, its words from the list.
    await editor.goTo(BEFORE.split("\n").length - 1);
    await editor.press("End");
    await editor.typeText("\n| U1-9 | U2-8 | ");
    const words = (await editor.complete()).map((row) => row.split("  ")[0]);
    for (const word of ["beep", "no beep"]) assert.ok(words.includes(word), `${word} among ${words}`);
    await editor.screenshot("evidence-continuity-words");
    await editor.acceptCompletion("no beep");
    await editor.typeText(" |\n| U1-9 | U1-10 | beep |");
    await editor.press("Escape");
    await editor.save();

    const of = (code) => editor.waitForProblem((it) => it.file === LOG && it.code === code);
    editor.filterProblems("2026-030");
    const open = await of("continuity-open");
    assert.match(open.message, /^U1-9 to U2-8 does not beep; both are on A0/);
    const bridge = await of("continuity-bridge");
    assert.match(bridge.message, /^U1-9 to U1-10 beeps; they are two nets, A0 and A1/);
    assert.match((await of("rail-out-of-tolerance")).message, /draws 2\.9 A.*1\.8 A/);
    assert.match((await of("part-hot")).message, /^U13 got hot/);
    assert.match((await of("chip-test-failed")).message, /^U13 failed its test out of circuit/);
    assert.match((await of("stress-found")).message, /^U14 \(cold spray\): fault goes/);
    await editor.screenshot("evidence-problems");
    await editor.command("View: Toggle Panel Visibility");

    const over = (text, near, says) => editor.hoverWord(text, { line: editor.find(LOG, near).line, says });
    const opened = await over("no beep", "| U1-9 | U2-8", /does not beep/);
    assert.match(opened, /A0/);
    await editor.screenshot("evidence-hover-open");
    await over("beep", "| U1-9 | U1-10", /two nets/);
    await editor.screenshot("evidence-hover-bridge");
    const drawn = await over("2.9 A", "| +5V", /1\.8 A/);
    assert.match(drawn, /shorted|latched/);
    await editor.screenshot("evidence-hover-first-power");
    const failed = await over("fail", "| U13 | 74LS14", /out of circuit/);
    assert.doesNotMatch(failed, /\bproves? .*good\b/i);
    await editor.screenshot("evidence-hover-chip-test");
    const swap = await over("same", "| U12 | 74145", /\S/);
    assert.doesNotMatch(swap, /\bfitted\b(?!.*not)/i, "what was put back is not called fitted");
    await editor.screenshot("evidence-hover-swap");
    const heat = await over("Heat, cold", "## Heat", /Steps/);
    assert.ok(heat.search(/Caution/) >= 0 && heat.search(/Caution/) < heat.search(/Steps/));
    assert.match(heat, /burn/);
    await editor.screenshot("evidence-hover-procedure");

    // The view names the part, and why.
    await editor.press("Escape");
    await page.mouse.move(5, 5);
    await page.locator('.activitybar [aria-label^="Mendlog"]').first().click();
    const rows = () =>
      page.$$eval(ROWS, (all) => all.map((row) => (row.textContent ?? "").replaceAll("\u00a0", " ")));
    const row = (pattern) =>
      editor.until(`a row ${pattern}`, async () => (await rows()).find((text) => pattern.test(text)));
    await row(/^about \d+ %: U13/);
    await page
      .locator(ROWS)
      .filter({ hasText: /^about \d+ %: U13/ })
      .first()
      .click();
    await row(/U13 failed a test out of circuit/);
    await row(/U13 got hot/);
    await row(/^about \d+ %: U14/);
    assert.ok(!(await rows()).some((text) => /^about \d+ %: U12/.test(text)), "the swap did not accuse U12");
    await editor.screenshot("evidence-suspects");
  },
};
