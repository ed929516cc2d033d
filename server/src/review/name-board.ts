// Where in a log's front matter its board is named.
import type { LogDocument } from "../log/document";
import { isNull, type YamlEntry } from "../syntax/yaml";
import type { TextEdit } from "../text/edits";
import { type Span, span } from "../text/span";

export interface BoardName {
  /** The empty field, else the log's first one: where a missing name is spoken of. */
  readonly span: Span;
  /** The edit that names a board. */
  readonly name: (id: string) => TextEdit;
}

/** Undefined for a log that names its board, or whose front matter is none. */
export function missingBoardName(doc: LogDocument): BoardName | undefined {
  const { root } = doc.frontMatter.tree;
  // A set names its boards under `boards`.
  if (root?.kind !== "map" || root.byKey.has("boards")) return undefined;
  const field = root.byKey.get("board");
  // A board that cannot be read as one is spoken of where it stands.
  if (field && !isEmpty(field)) return undefined;
  const version = root.byKey.get("mendlog");
  const at = field ?? version;
  if (!at) return undefined;
  const name = field ? inField(doc, field) : belowOf(doc, root.byKey.get("job") ?? at, at);
  return { span: span(at.keySpan.start, valueEnd(doc.text, at)), name };
}

const isEmpty = ({ value }: YamlEntry): boolean =>
  isNull(value) || (value.kind === "scalar" && value.value === "");

function behindColon(text: string, { keySpan }: YamlEntry): number {
  const colon = /^[ \t]*:/.exec(text.slice(keySpan.end, lineEnd(text, keySpan.end)));
  return keySpan.end + (colon?.[0].length ?? 0);
}

/** End of a field with what stands behind its colon on the same line; of an empty one the colon's. */
function valueEnd(text: string, field: YamlEntry): number {
  const colon = behindColon(text, field);
  const { start, end } = field.value.span;
  return end > start && start >= colon && end <= lineEnd(text, colon) ? end : colon;
}

type Place = (id: string) => TextEdit;

/** An empty field is filled in, and keeps the comment behind it. */
function inField({ text }: LogDocument, field: YamlEntry): Place {
  const old = span(behindColon(text, field), valueEnd(text, field));
  return (id) => ({ span: old, newText: ` ${scalar(id)}` });
}

/** A field of its own below that of the job, or the first one where the job's takes several lines. */
function belowOf({ text }: LogDocument, job: YamlEntry, version: YamlEntry): Place {
  const oneLine = job.value.span.end <= lineEnd(text, job.keySpan.start);
  const end = lineEnd(text, (oneLine ? job : version).keySpan.start);
  const eol = text.startsWith("\r\n", end) ? "\r\n" : "\n";
  return (id) => ({ span: span(end, end), newText: `${eol}board: ${scalar(id)}` });
}

/** An id of figures alone would be read as a number. */
const scalar = (id: string): string => (/^[A-Za-z][\w.-]*$/.test(id) ? id : JSON.stringify(id));

function lineEnd(text: string, from: number): number {
  const at = text.slice(from).search(/\r?\n|$/);
  return from + at;
}
