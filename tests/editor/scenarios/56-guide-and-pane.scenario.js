import assert from "node:assert/strict";

const LOG = "logs/guided.md";
const PIECE = `---
mendlog: 1
board: regatta-controller
stage: diagnosing
---

# Regatta controller: a row is dead

## Diode check

| Ref | Pin | Reading | Note |
|-----|-----|---------|------|
| U14 | 2   | OL      |      |
`;
/** The colours that the pane is looked at in, each with its workbench and the class of the page. */
const THEMES = {
  light: ["Default Light Modern", ".vs", "vscode-light"],
  dark: ["Default Dark Modern", ".vs-dark", "vscode-dark"],
  "high-contrast": ["Default High Contrast", ".hc-black", "vscode-high-contrast"],
  "high-contrast-light": ["Default High Contrast Light", ".hc-light", "vscode-high-contrast-light"],
};

export default {
  title:
    "guided from reading to reading by keys alone, with a pane that is read from two metres in every theme",
  workspace: "../../demo",
  files: { [LOG]: PIECE },
  settings: {},
  async run(editor, { say }) {
    const { page } = editor;
    await editor.openFile(LOG);
    await editor.awake();
    const frame = () =>
      editor.until("the pane", async () => {
        for (const each of page.frames())
          if (await each.$("main#shown section.reading").catch(() => null)) return each;
        return undefined;
      });
    const guideText = async () =>
      (
        (await page
          .locator("#mendlog\\.mendlog\\.guide, [id$='mendlog.guide']")
          .first()
          .textContent()
          .catch(() => "")) ?? ""
      )
        .replaceAll("\u00a0", " ")
        .trim();

    await editor.byKey("mendlog.showPane");
    const pane = await frame();
    await editor.until("the pin that comes next", async () =>
      /U\d+ pin \d+/.test(await pane.textContent("section.next")),
    );
    await editor.focusEditor();

    // The cursor goes into a row that was not there.
    const before = editor.readFile(LOG).split("\n").length;
    await editor.byKey("mendlog.guide");
    const first = await editor.until(
      "where to put the probe",
      async () => /^U\d+ pin \d+/.exec(await guideText())?.[0],
    );
    const [, ref, pin] = /^(U\d+) pin (\d+)$/.exec(first);
    const { line } = await editor.cursor();
    await editor.screenshot("guide-1-led");
    await editor.typeText("0.58");
    await editor.press("Enter");
    await editor.until("the verdict in the pane", async () =>
      /0\.58/.test(await pane.textContent("section.reading")),
    );
    const words = await pane.textContent("section.reading .verdict");
    assert.match(words, /Within limits|Out of limits|Suspect|Cannot be a reading/);
    assert.equal(await pane.locator("section.reading .shape svg").count(), 1, "the verdict has a shape");
    // The next one, in a row of its own.
    await editor.until(
      "the next pin",
      async () => /^U\d+ pin \d+/.test(await guideText()) && (await editor.cursor()).line !== line,
    );
    assert.match(await pane.textContent("p.said"), /Next: /);
    // One undo takes back the reading, its row's padding and the way on together; where the machine is busy the editor may
    // have closed the step of the reading before the way on came, and it takes two. Redoing takes two in any case.
    const led = await editor.editorText();
    const typed = (text) => text.split("\n").filter((row) => row.includes("0.58")).length;
    await editor.press("Control+Z");
    await editor.until("something taken back", async () => (await editor.editorText()) !== led);
    if (typed(await editor.editorText()) > 0) {
      say("     the way on was a step of its own");
      await editor.press("Control+Z");
    }
    await editor.until("the reading taken back", async () => typed(await editor.editorText()) === 0);
    await editor.press("Control+Shift+Z");
    await editor.until("the reading alone", async () => typed(await editor.editorText()) === 1);
    await editor.press("Control+Shift+Z");
    await editor.until("the reading again", async () => (await editor.editorText()) === led);
    await editor.screenshot("guide-2-next");
    // Leaving costs nothing: what was typed stands, and Enter is Enter again.
    await editor.press("Escape");
    await editor.until("nobody leading", async () => (await guideText()) === "");
    await editor.save();
    const saved = editor.readFile(LOG);
    assert.match(saved, new RegExp(`^\\| ${ref} +\\| ${pin} +\\| 0\\.58 `, "m"));
    assert.ok(saved.split("\n").length > before);

    for (const [name, [theme, workbench, own]] of Object.entries(THEMES)) {
      editor.writeFile(".vscode/settings.json", JSON.stringify({ "workbench.colorTheme": theme }));
      await page.waitForSelector(`.monaco-workbench${workbench}`);
      await editor.until(`the pane in ${name}`, async () =>
        (await (await frame()).evaluate(() => document.body.className).catch(() => ""))
          .split(" ")
          .includes(own),
      );
      await editor.screenshot(`pane-${name}`);
    }
    const size = page.viewportSize();
    // Two editors and a side bar have no room beside each other there: the editor would cut the last one off.
    await editor.command("View: Close Primary Side Bar");
    await page.setViewportSize({ width: 760, height: 600 });
    const fits = await editor.until("the pane in a narrow window", async () =>
      (await frame()).evaluate(() => ({
        wide: document.documentElement.scrollWidth - document.documentElement.clientWidth,
        letters: Number.parseFloat(getComputedStyle(document.querySelector(".value, .pin")).fontSize),
      })),
    );
    await editor.screenshot("pane-760");
    assert.ok(fits.wide <= 0, "nothing sticks out sideways");
    // A digit 40 CSS pixels high is about 1 cm on a usual screen: read from two metres.
    assert.ok(fits.letters >= 40, `letters of ${fits.letters} px`);
    await page.setViewportSize(size);
  },
};
