// The stylesheet of the preview says the pictures' colours again, because a style cannot import them.
import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { type InkName, inkVariable, PALETTES } from "../../server/src/pictures/svg";

const css = readFileSync(new URL("../../client/media/preview.css", import.meta.url), "utf8");

test.each([
  ["light", "body"],
  ["dark", "body.vscode-dark"],
  ["high-contrast", "body.vscode-high-contrast:not(.vscode-high-contrast-light)"],
  ["high-contrast-light", "body.vscode-high-contrast-light"],
] as const)("the colours of %s are those of the pictures", (theme, selector) => {
  const block = css.slice(css.indexOf(`\n${selector} {`)).split("}")[0] ?? "";
  for (const [name, colour] of Object.entries(PALETTES[theme])) {
    // These two are the editor's own.
    if (name === "panel" || name === "text") continue;
    expect(block).toContain(`${inkVariable(name as InkName)}: ${colour};`);
  }
});

test("panel and text are the editor's, and nothing is fetched", () => {
  expect(css).toContain(`${inkVariable("panel")}: var(--vscode-editor-background, ${PALETTES.light.panel})`);
  expect(css).toContain(`${inkVariable("text")}: var(--vscode-editor-foreground, ${PALETTES.light.text})`);
  expect(css).not.toMatch(/url\(|@import/);
});
