import assert from "node:assert/strict";

const LOG = "logs/new.md";
const TEXT = `---
mendlog: 1
board: regatta-controller
stage: received
---

## Diode check

| Ref | Pin | Reading | Note |
|-----|-----|---------|------|
| U14 | 1   | 0.552   |      |
| U14`;

export default {
  title: "Ctrl+Shift+Space shows what the cell takes, follows from cell to cell, and never comes up unasked",
  workspace: "../../demo",
  files: { [LOG]: TEXT },
  async run(editor) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();
    const hints = page.locator(".parameter-hints-widget.visible");
    await editor.goTo(TEXT.split("\n").length, 6);
    await editor.typeText(" | ");
    assert.equal(await hints.count(), 0, "nothing comes up while a row is typed");
    await editor.press("Escape");
    await editor.press("Control+Shift+Space");
    await hints.waitFor();
    const active = async () => ((await hints.locator(".parameter.active").textContent()) ?? "").trim();
    await editor.until("the pin column", async () => (await active()).startsWith("Pin"));
    await editor.screenshot("expected-pin");
    await editor.typeText("3 | ");
    await editor.until("the reading column", async () => (await active()).startsWith("Reading"));
    assert.match((await hints.textContent()) ?? "", /U14 pin 3/);
    await editor.screenshot("expected-reading");
    await editor.press("Escape");
    await editor.press("Escape");

    const stage = editor.find(LOG, "stage: ");
    await editor.goTo(stage.line, stage.column + 7);
    await editor.press("Control+Shift+Space");
    await hints.waitFor();
    await editor.until("the stages", async () =>
      /received \| diagnosing/.test((await hints.textContent()) ?? ""),
    );
    await editor.screenshot("expected-field");
  },
};
