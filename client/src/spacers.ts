// Hints of one column are of one width, so that the table stays in line; where there is nothing to say they are blanks. The
// editor draws a ground below a hint, and a ground below nothing looks like a box to fill in: blanks are drawn as plain room.
import {
  type CancellationToken,
  type InlayHint,
  type ProviderResult,
  type Range,
  Range as RangeOf,
  type TextDocument,
  window,
  workspace,
} from "vscode";

type Next = (document: TextDocument, within: Range, token: CancellationToken) => ProviderResult<InlayHint[]>;

const BLANK = /^\u00a0+$/;
/** The editor's own font size where nobody set one, in pixels. */
const USUAL_SIZE = 14;
/** Left of a hint that asks for room the editor leaves a third of the font's size, in whole pixels: from memory, and seen to be in line. */
const roomBeside = (size: number): string => `0 0 0 ${Math.floor(size / 3)}px`;
const room = window.createTextEditorDecorationType({});

/** The hints that say something; the others become room in the editors of the document. */
export async function withoutBlanks(
  document: TextDocument,
  within: Range,
  token: CancellationToken,
  next: Next,
): Promise<InlayHint[] | null | undefined> {
  const hints = await next(document, within, token);
  if (!hints || token.isCancellationRequested || !drawsAsText(document)) return hints;
  const size = workspace.getConfiguration("editor", document).get<number>("fontSize") ?? USUAL_SIZE;
  const margin = roomBeside(size);
  const isBlank = ({ label }: InlayHint): boolean => typeof label === "string" && BLANK.test(label);
  const blanks = hints.filter(isBlank).map(({ position, label }) => ({
    range: new RangeOf(position, position),
    renderOptions: { after: { contentText: String(label), margin } },
  }));
  for (const editor of window.visibleTextEditors)
    if (editor.document === document) editor.setDecorations(room, blanks);
  return hints.filter((hint) => !isBlank(hint));
}

/** Where hints have a size of their own, or come and go with a key, only a hint is as wide and as fleeting as a hint. */
function drawsAsText(document: TextDocument): boolean {
  const hints = workspace.getConfiguration("editor.inlayHints", document);
  return (
    hints.get("enabled") === "on" &&
    !hints.get("fontSize") &&
    !hints.get("fontFamily") &&
    !hints.get("padding")
  );
}
