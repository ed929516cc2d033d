import type { Location, LocationLink, Hover as WireHover } from "vscode-languageserver";
import { pictureMarkdown, type Theme } from "../features/shared/picture";
import type { Definition, Hover, Target } from "../features/types";
import { cutAt, joined, type Markdown, markdown, md, target, trimmedMarkdown } from "../text/markdown";
import { fileBeside } from "../workspace/uri";
import { contentOf } from "./content";
import { type LinedText, linedText, toLspRange } from "./convert";
import type { OpenDocument } from "./documents";
import type { Session } from "./session";

export function toLspHover(
  hover: Hover,
  { lines }: LinedText,
  { can, preferences }: Session,
  uri?: string,
): WireHover {
  const range = toLspRange(lines, hover.span);
  if (!can.hoverMarkdown) {
    return { contents: contentOf(hover.markdown, false), range };
  }
  const value = can.pictures
    ? joined([withPicture(hover, preferences.theme), withPhotographs(hover, uri)], "\n\n")
    : hover.markdown;
  return { contents: contentOf(value, true), range };
}

/** The words with the picture among them. */
function withPicture({ markdown: words, picture }: Hover, theme: Theme): Markdown {
  const drawn = picture?.draw();
  if (!picture || !drawn) return words;
  const [above, below] = cutAt(words, picture.at);
  const parts = [above, pictureMarkdown(drawn, theme), below].map(trimmedMarkdown);
  return joined(
    parts.filter((part) => part !== ""),
    "\n\n",
  );
}

/** Wide enough to know a chip by, and two of them still beside each other. */
const WIDTH = { one: 420, two: 260 } as const;

function withPhotographs({ photographs = [] }: Hover, uri: string | undefined): Markdown | undefined {
  const width = photographs.length > 1 ? WIDTH.two : WIDTH.one;
  const shown = photographs.flatMap(({ path, alt }) => {
    const file = uri === undefined ? undefined : fileBeside(uri, path);
    // A caption has no marks at all: what reads it out would read them too.
    const words = md(alt.replace(/[\\[\]`<>!*_~|&]/g, " "));
    return file === undefined ? [] : markdown`![${words}](${target(file)}|width=${width})`;
  });
  return shown.length === 0 ? undefined : joined(shown, " ");
}

/** A target whose file cannot be read any more is left out. */
export async function toLspDefinition(
  { origin, targets }: Definition,
  document: OpenDocument,
  session: Session,
): Promise<LocationLink[] | Location[]> {
  const found = await Promise.all(targets.map((target) => locationOf(target, session)));
  const places = found.filter((place) => place !== undefined);
  if (!session.can.definitionLinks) return places;
  const originSelectionRange = toLspRange(document.lines, origin);
  return places.map(({ uri, range }) => ({
    originSelectionRange,
    targetUri: uri,
    targetRange: range,
    targetSelectionRange: range,
  }));
}

/** Undefined where the file cannot be read any more. */
export async function locationOf(
  { uri, span }: Target,
  { documents, service }: Session,
): Promise<Location | undefined> {
  const known = documents.text(uri);
  const text = known === undefined ? await service.read(uri) : undefined;
  const lined = known ?? (text === undefined ? undefined : linedText(text));
  return lined && { uri: documents.clientUri(uri), range: toLspRange(lined.lines, span) };
}
