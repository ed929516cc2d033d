import { type Location, type LocationLink, MarkupKind, type Hover as WireHover } from "vscode-languageserver";
import { pictureMarkdown, type Theme } from "../features/shared/picture";
import type { Definition, Hover, Target } from "../features/types";
import { type LinedText, linedText, rangeOf } from "./convert";
import type { OpenDocument } from "./documents";
import { plainText } from "./plain-text";
import type { Session } from "./session";

export function wireHover(hover: Hover, { lines }: LinedText, { can, preferences }: Session): WireHover {
  const range = rangeOf(lines, hover.span);
  if (!can.hoverMarkdown) {
    return { contents: { kind: MarkupKind.PlainText, value: plainText(hover.markdown) }, range };
  }
  const value = can.pictures ? withPicture(hover, preferences.theme) : hover.markdown;
  return { contents: { kind: MarkupKind.Markdown, value }, range };
}

/** The words with the picture among them. */
function withPicture({ markdown, picture }: Hover, theme: Theme): string {
  const drawn = picture?.draw();
  if (!picture || !drawn) return markdown;
  return [markdown.slice(0, picture.at), pictureMarkdown(drawn, theme), markdown.slice(picture.at)]
    .map((part) => part.trim())
    .filter((part) => part !== "")
    .join("\n\n");
}

/** A target whose file cannot be read any more is left out. */
export async function wireDefinition(
  { origin, targets }: Definition,
  document: OpenDocument,
  session: Session,
): Promise<LocationLink[] | Location[]> {
  const found = await Promise.all(targets.map((target) => placeOf(target, session)));
  const places = found.filter((place) => place !== undefined);
  if (!session.can.definitionLinks) return places;
  const originSelectionRange = rangeOf(document.lines, origin);
  return places.map(({ uri, range }) => ({
    originSelectionRange,
    targetUri: uri,
    targetRange: range,
    targetSelectionRange: range,
  }));
}

/** Undefined where the file cannot be read any more. */
export async function placeOf(
  { uri, span }: Target,
  { documents, service }: Session,
): Promise<Location | undefined> {
  const known = documents.text(uri);
  const text = known === undefined ? await service.read(uri) : undefined;
  const lined = known ?? (text === undefined ? undefined : linedText(text));
  return lined && { uri: documents.clientUri(uri), range: rangeOf(lined.lines, span) };
}
