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

test("nothing moves, so there is nothing to hold still for those who ask for it", () => {
  expect(css).not.toMatch(/animation|transition|scroll-behavior|@keyframes/);
});

/** The block behind a condition, its braces balanced. */
function blockOf(condition: string): string {
  const from = css.indexOf(condition);
  expect(from).toBeGreaterThan(0);
  let depth = 0;
  for (let at = css.indexOf("{", from); at < css.length; at++) {
    if (css[at] === "{") depth += 1;
    if (css[at] === "}") depth -= 1;
    if (depth === 0) return css.slice(from, at);
  }
  throw new Error(`${condition} is not closed`);
}

test("on paper the colours are the light ones in every theme, and what is folded is there", () => {
  const print = blockOf("@media print");
  for (const [name, colour] of Object.entries(PALETTES.light))
    expect(print).toContain(`${inkVariable(name as InkName)}: ${name === "panel" ? "#ffffff" : colour};`);
  for (const body of ["body.vscode-dark", "body.vscode-high-contrast", "body"])
    expect(print).toMatch(new RegExp(`\\n  ${body.replace(".", "\\.")}[,:. ]`));
  expect(print).toContain("::details-content");
});

test("where the system forces its colours a picture keeps its pairs of ink and ground", () => {
  expect(blockOf("@media (forced-colors: active)")).toContain("forced-color-adjust: none");
});
