import { type Location, type LocationLink, MarkupKind, type Hover as WireHover } from "vscode-languageserver";
import { pictureMarkdown, type Theme } from "../features/shared/picture";
import type { Definition, Hover, Target } from "../features/types";
import { fileBeside } from "../workspace/uri";
import { type LinedText, linedText, rangeOf } from "./convert";
import type { OpenDocument } from "./documents";
import { plainText } from "./plain-text";
import type { Session } from "./session";

export function wireHover(
  hover: Hover,
  { lines }: LinedText,
  { can, preferences }: Session,
  uri?: string,
): WireHover {
  const range = rangeOf(lines, hover.span);
  if (!can.hoverMarkdown) {
    return { contents: { kind: MarkupKind.PlainText, value: plainText(hover.markdown) }, range };
  }
  const value = can.pictures
    ? [withPicture(hover, preferences.theme), withPhotographs(hover, uri)].filter(Boolean).join("\n\n")
    : hover.markdown;
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

/** Wide enough to know a chip by, and two of them still beside each other. */
const WIDTH = { one: 420, two: 260 } as const;

function withPhotographs({ photographs = [] }: Hover, uri: string | undefined): string {
  const width = photographs.length > 1 ? WIDTH.two : WIDTH.one;
  return photographs
    .flatMap(({ path, alt }) => {
      const file = uri === undefined ? undefined : fileBeside(uri, path);
      // Whatever it says, a caption stays one.
      const words = alt.replace(/[\\[\]`<>!*_~|&]/g, " ");
      return file === undefined ? [] : `![${words}](${file}|width=${width})`;
    })
    .join(" ");
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
