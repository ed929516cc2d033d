import assert from "node:assert/strict";

export default {
  title: "in a German editor the commands, the views and the questions speak German",
  workspace: "../../demo",
  locale: "de",
  async run(editor) {
    await editor.openFile("logs/2026-018-controller.md");
    await editor.awake();
    await editor.quickInput(">Mendlog: ");
    const rows = await editor.until("German titles", async () => {
      const all = (await editor.quickRows()).join("\n");
      return all.includes("Bericht für den Besitzer schreiben") && all;
    });
    assert.doesNotMatch(rows, /Write the owner's report|Start a new log/);
    await editor.screenshot("german-palette");
    await editor.press("Escape");
    await editor.command("Mendlog: Neues Protokoll anlegen");
    await editor.until(
      "the German question",
      async () =>
        (await editor.page.locator(".quick-input-widget input.input").first().getAttribute("placeholder")) ===
        "Welche Platine ist es? Eine wählen oder eingeben, wie sie heißt",
    );
    await editor.screenshot("german-question");
    await editor.press("Escape");
  },
};
