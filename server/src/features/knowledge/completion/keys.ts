import { defined } from "../../../base/defined";
import type { SchemaNode } from "../../../knowledge/schema";
import { rawSchemaAt, schemaAt, typesOf } from "../../../knowledge/schema-walk";
import type { YamlPath } from "../../../syntax/yaml";
import type { Markdown } from "../../../text/markdown";
import { schemaDocumentation } from "../../shared/documentation";
import type { KnowledgeFile } from "../../shared/knowledge-file";
import { literal } from "../../shared/snippet-text";
import type { Completion } from "../../types";
import { mapAt, type YamlCursor } from "../place";
import { CLOSE, yamlText } from "../yaml-text";
import { type EntryFrame, insertion } from "./insert";
import { missingNames } from "./names";
import { wholeFile } from "./whole-file";

/** Keys that the mapping at `path` does not have yet: those it must have first, then in the format's order. */
export function completeKeys(
  file: KnowledgeFile,
  place: YamlCursor,
  path: YamlPath,
  around: EntryFrame,
): readonly Completion[] {
  const own = rawSchemaAt(file.kind, path);
  const schema = schemaAt(file.kind, path);
  if (!own || schema?.type !== "mapping") return [];
  const present = new Set(
    (mapAt(file, path)?.entries ?? [])
      .filter((entry) => entry.keySpan.start !== place.span.start)
      .map((entry) => entry.key),
  );
  const inBraces = place.flow || around === "braces" || around === "brackets";
  const hasColon = /^[ \t]*:/.test(file.text.slice(place.span.end, place.span.end + 80));
  // A list of mappings that is begun on its key's line needs both.
  const opened = (text: string, close: string): string =>
    around === "brackets" ? `{ ${text} ${close}` : text;
  const item = (
    key: string,
    sub: SchemaNode | undefined,
    about: { description: string; documentation?: Markdown },
  ) => {
    const written = yamlText(key, inBraces);
    const stop =
      valueFor(file, sub, path.length === 0) ?? (around === "" || around === "dash" ? undefined : " $1");
    const behind = hasColon || sub?.const !== undefined ? undefined : stop;
    return insertion(
      file,
      place,
      around,
      defined({
        label: key,
        kind: "field",
        text: opened(hasColon ? written : `${written}: ${sub?.const ?? ""}`, "}"),
        snippet: behind === undefined ? undefined : opened(`${literal(written)}:${behind}`, CLOSE),
        thenSuggest: hasColon ? undefined : goesOn(sub, path.length === 0),
        ...about,
      }),
    );
  };
  const known = Object.entries(schema.properties ?? {})
    .filter(([key]) => !present.has(key))
    .sort(([, a], [, b]) => Number(b.required) - Number(a.required))
    .map(([key, about]) =>
      item(key, own.properties?.[key], {
        description: about.required ? `${about.title} · required` : about.title,
        documentation: schemaDocumentation({ ...about, ...enumOf(own.properties?.[key]) }),
      }),
    );
  const names = missingNames(file, place, path)
    .filter(({ name }) => !present.has(name))
    .map(({ name, why }) => item(name, own.additionalProperties || undefined, { description: why }));
  return [...(path.length === 0 ? wholeFile(file, place) : []), ...known, ...names];
}

const enumOf = (schema: SchemaNode | undefined) => (schema?.enum ? { enum: schema.enum } : {});

/** Whether the first place behind the key has something to choose from, so that the list may open at once. */
function goesOn(schema: SchemaNode | undefined, top: boolean): boolean {
  if (!schema || schema.const !== undefined) return false;
  const chosen = (node: SchemaNode | undefined) =>
    node?.enum !== undefined || node?.refersTo !== undefined || typesOf(node).includes("boolean");
  if (typesOf(schema).includes("object")) {
    const [first] = schema.required ?? [];
    return first === undefined || top || chosen(schema.properties?.[first]);
  }
  const inside = typesOf(schema).includes("array") ? schema.items : schema;
  const [first] = inside?.required ?? [];
  return chosen(inside) || (first !== undefined && chosen(inside?.properties?.[first]));
}

/** What follows a key's colon, with tab stops: the brackets its value wants; on the top level a block below it. */
function valueFor(file: KnowledgeFile, schema: SchemaNode | undefined, top: boolean): string | undefined {
  const types = typesOf(schema);
  const eol = file.text.includes("\r\n") ? "\r\n" : "\n";
  if (types.includes("array")) {
    const items = schema?.items;
    if (typesOf(items).includes("object")) return top ? `${eol}  - ${fields(items)}` : ` [${fields(items)}]`;
    // Sentences have commas, which brackets would take for the end of an entry.
    return top && !items?.refersTo ? `${eol}  - $1` : " [$1]";
  }
  if (!types.includes("object")) return undefined;
  return top && typeof schema?.additionalProperties === "object" ? `${eol}  $1` : ` ${fields(schema)}`;
}

/** `{ name: $1, direction: $2 }`: every key that has to be there. */
function fields(schema: SchemaNode | undefined): string {
  const keys = schema?.required ?? [];
  if (keys.length === 0) return `{ $1 ${CLOSE}`;
  const stops = keys.map((key, index) => {
    const list = typesOf(schema?.properties?.[key]).includes("array");
    return `${key}: ${list ? `[$${index + 1}]` : `$${index + 1}`}`;
  });
  return `{ ${stops.join(", ")} ${CLOSE}`;
}
