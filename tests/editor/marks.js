// What stands beside and around a log's words: hints between them, their colours, the boxes around them.

/** The line on the screen that has this in it, hints included, with plain spaces; empty where there is none. */
export async function lineText(editor, near) {
  return (await editor.editorText()).split("\n").find((line) => line.includes(near)) ?? "";
}

/** The colour in which the first place of a text is drawn, as the browser says it. */
export const colourOf = (editor, text) =>
  editor.until(`"${text}" on the screen`, () =>
    editor.page.evaluate((wanted) => {
      const spans = [...document.querySelectorAll(".editor-instance .view-line span > span")];
      const found = spans.find((span) => (span.textContent ?? "").replaceAll("\u00a0", " ").includes(wanted));
      return found && getComputedStyle(found).color;
    }, text),
  );
