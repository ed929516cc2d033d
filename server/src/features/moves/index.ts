// What has to be written differently when files are renamed or moved: the paths that lead to them, and those that lead
// out of them.
import type { LogDocument } from "../../log/document";
import { type NamedPath, pathsOf } from "../../log/paths";
import type { TextEdit } from "../../text/edits";
import type { KnowledgeFile } from "../shared/knowledge-file";
import { pathsInYaml } from "../shared/paths/in-yaml";
import { relativePath, resolvePath } from "../shared/paths/relative";

/** A file or a folder with all that is in it, by uris in the core's spelling without a slash at their end. */
export interface FileMove {
  readonly from: string;
  readonly to: string;
}

/** Where a file will be. */
export function movedTo(uri: string, moves: readonly FileMove[]): string {
  for (const { from, to } of moves) {
    if (uri === from) return to;
    if (uri.startsWith(`${from}/`)) return to + uri.slice(from.length);
  }
  return uri;
}

/** True where a text may lead to something that moves, or moves itself: only then it has to be read closely. */
export function mayBeTouched(uri: string, text: string, moves: readonly FileMove[]): boolean {
  if (movedTo(uri, moves) !== uri) return true;
  const name = (from: string): string => from.slice(from.lastIndexOf("/") + 1);
  return moves.some(({ from }) => text.includes(name(from)) || text.includes(plain(name(from))));
}

/** @param markdown false where somebody else sees to Markdown's own links and images */
export function moveEditsOfLog(doc: LogDocument, moves: readonly FileMove[], markdown: boolean): TextEdit[] {
  return pathsOf(doc).flatMap((path) => {
    if (path.kind === "link" && !markdown) return [];
    const next = newPath(doc.uri, path.path, moves);
    return next === undefined ? [] : [{ span: path.span, newText: spelled(next, path, doc.text) }];
  });
}

/** A word that only looks like a path must not change when the file that has it moves: the caller knows what is there. */
export function moveEditsOfKnowledge(
  { uri, tree }: KnowledgeFile,
  moves: readonly FileMove[],
  exists: (uri: string) => boolean,
): TextEdit[] {
  return pathsInYaml(tree).flatMap(({ span, path }) => {
    const target = resolvePath(uri, path);
    if (target === undefined || !exists(target)) return [];
    const next = newPath(uri, path, moves);
    return next === undefined ? [] : [{ span, newText: next }];
  });
}

/** Undefined where the path stays as it is. */
function newPath(uri: string, path: string, moves: readonly FileMove[]): string | undefined {
  const target = resolvePath(uri, path);
  if (target === undefined) return undefined;
  const [self, there] = [movedTo(uri, moves), movedTo(target, moves)];
  if (self === uri && there === target) return undefined;
  const next = relativePath(self, there);
  if (next === undefined || resolvePath(self, path) === there) return undefined;
  return path.startsWith("./") && !next.startsWith("../") ? `./${next}` : next;
}

function spelled(path: string, { kind, angled, span }: NamedPath, text: string): string {
  if (kind === "cell")
    return text.slice(span.start, span.end).includes("\\") ? path.replaceAll("/", "\\") : path;
  if (angled && !/[<>\r\n]/.test(path)) return path;
  return path
    .split("/")
    .map((part) =>
      encodeURI(part).replace(/[()#?]/g, (char) => `%${char.charCodeAt(0).toString(16).toUpperCase()}`),
    )
    .join("/");
}

function plain(name: string): string {
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}
