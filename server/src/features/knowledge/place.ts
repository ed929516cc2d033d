import { rawSchemaAt, type SchemaPlace, schemaAt } from "../../knowledge/schema-walk";
import {
  nodeAt,
  pathAt,
  type YamlMap,
  type YamlNode,
  type YamlPath,
  type YamlPlace,
} from "../../syntax/yaml";
import { startOfBlanks } from "../../text/blanks";
import { contains, slice, span } from "../../text/span";
import type { KnowledgeFile } from "../shared/knowledge-file";

/** Where the cursor is in the file and what the format wants there. Spans never reach past one line. */
export interface YamlCursor extends YamlPlace {
  /** `path` with the writer's own names and list positions as "*": ["parts", "*", "device"]. */
  readonly pattern: string;
  readonly schema: SchemaPlace | undefined;
}

/** Undefined inside a comment, inside text of several lines and behind closed brackets, where nothing can be added. */
export function yamlCursorAt(file: KnowledgeFile, offset: number): YamlCursor | undefined {
  if (inComment(file, offset)) return undefined;
  const place = afterValue(file, pathAt(file.tree, offset), offset);
  if (!place) return undefined;
  // Behind a bracket that is closed already the whole of it would be what is being typed.
  if (/[\r\n]|^[{[]/.test(slice(file.text, place.span))) return undefined;
  return { ...place, pattern: patternOf(file, place.path), schema: schemaAt(file.kind, place.path) };
}

/** Within brackets nothing new begins before a comma: a blank behind a value belongs to the value, as in `5 |`. */
function afterValue({ text, tree }: KnowledgeFile, place: YamlPlace, offset: number): YamlPlace | undefined {
  if (place.where !== "blank" || !place.flow) return place;
  const typed = startOfBlanks(text, offset);
  if (/[[{,\s]/.test(text[typed - 1] ?? ",")) return place;
  const before = pathAt(tree, typed);
  const open =
    before.where === "value" && before.span.end === typed && !/^["']/.test(slice(text, before.span));
  return open ? { ...before, span: span(before.span.start, offset) } : undefined;
}

/** A `#` at a line's beginning or behind a blank, unless it is within a text. */
function inComment({ text, tree }: KnowledgeFile, offset: number): boolean {
  const lineStart = text.lastIndexOf("\n", offset - 1) + 1;
  for (let at = text.indexOf("#", lineStart); at >= 0 && at < offset; at = text.indexOf("#", at + 1)) {
    if (at > lineStart && !/\s/.test(text[at - 1]!)) continue;
    if (!contains(pathAt(tree, at).span, at)) return true;
  }
  return false;
}

function patternOf({ kind }: KnowledgeFile, path: YamlPath): string {
  return path
    .map((step, depth) => {
      const named = rawSchemaAt(kind, path.slice(0, depth))?.properties;
      return named && Object.hasOwn(named, step) ? step : "*";
    })
    .join("/");
}

/** The node at a path, and the mapping there; the whole file for the empty path. */
export const nodeOf = ({ tree }: KnowledgeFile, path: YamlPath): YamlNode | undefined =>
  nodeAt(tree, path)?.node;

/** The mapping at a path of keys; undefined where there is something else or nothing. */
export function mapAt(file: KnowledgeFile, path: YamlPath): YamlMap | undefined {
  const node = nodeOf(file, path);
  return node?.kind === "map" ? node : undefined;
}

/** Text of the scalar at a path; undefined where nothing was typed there. */
export function scalarTextAt(file: KnowledgeFile, path: YamlPath): string | undefined {
  const node = nodeOf(file, path);
  return node?.kind === "scalar" && node.source !== "" ? node.source : undefined;
}

/** Text of the scalar that the place is on, without quotes; what is before the cursor for `until`. */
export function typedAt(file: KnowledgeFile, place: YamlPlace, until = place.span.end): string {
  return slice(file.text, span(place.span.start, Math.max(place.span.start, until))).replace(
    /^["']|["']$/g,
    "",
  );
}
