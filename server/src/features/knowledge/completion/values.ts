import { rawSchemaAt, schemaAt } from "../../../knowledge/schema-walk";
import type { YamlPath } from "../../../syntax/yaml";
import type { KnowledgeFile } from "../../shared/knowledge-file";
import type { Completion } from "../../types";
import { nodeOf, typedAt, type YamlCursor } from "../place";
import { yamlText } from "../yaml-text";
import { choices } from "./choices";
import { EXTRAS } from "./extras";
import { type EntryFrame, insertion } from "./insert";
import type { Value, ValueQuery } from "./provider";
import { quantities } from "./quantities";
import { REFERENCES } from "./references";

export function completeValues(
  file: KnowledgeFile,
  place: YamlCursor,
  offset: number,
  path: YamlPath,
  around: EntryFrame,
): readonly Completion[] {
  const schema = schemaAt(file.kind, path);
  if (!schema) return [];
  const pattern = path.length > place.path.length ? `${place.pattern}/*` : place.pattern;
  const query: ValueQuery = { file, path, pattern, typed: typedAt(file, place, offset) };
  const given = siblings(file, place, path);
  const flow = place.flow || around === "brackets";
  return valuesFor(query, schema)
    .filter(({ label }) => !given.has(label))
    .map((value) =>
      insertion(file, place, around, {
        kind: "value",
        text: schema.type === "text" ? yamlText(value.label, flow) : value.label,
        ...value,
      }),
    );
}

function valuesFor(query: ValueQuery, schema: NonNullable<ReturnType<typeof schemaAt>>): readonly Value[] {
  const fixed = rawSchemaAt(query.file.kind, query.path)?.const;
  if (fixed !== undefined) return [{ label: String(fixed), kind: "keyword" }];
  if (schema.enum) return choices(schema.enum, query);
  if (schema.type === "yes-no") return ["true", "false"].map((label) => ({ label, kind: "keyword" }));
  if (schema.quantity) return quantities(schema.quantity, query);
  const provider = EXTRAS[`${query.file.kind}:${query.pattern}`] ?? REFERENCES[schema.refersTo ?? ""];
  if (provider) return provider(query);
  return query.path.at(-1) === "source" ? SOURCES : [];
}

const SOURCES: readonly Value[] = [
  { label: "common practice, no source", description: "what the trade does, written down nowhere" },
  { label: "from memory", description: "not looked up" },
];

/** Other entries of the same list: a name stands in it once. */
function siblings(file: KnowledgeFile, place: YamlCursor, path: YamlPath): ReadonlySet<string> {
  const list = typeof path.at(-1) === "number" ? nodeOf(file, path.slice(0, -1)) : undefined;
  return new Set(
    list?.kind !== "list"
      ? []
      : list.items.flatMap((item) =>
          item.kind === "scalar" && item.span.start !== place.span.start ? item.source : [],
        ),
  );
}
