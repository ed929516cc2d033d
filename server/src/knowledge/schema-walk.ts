import { defined } from "../base/defined";
import type { YamlPath } from "../syntax/yaml";
import { BOTH_WAYS } from "./quantity-rule";
import { SCHEMAS, type SchemaKind, type SchemaNode } from "./schema";

/** What a schema says of one place in a file: what hover shows and completion offers. */
export interface SchemaPlace {
  readonly title: string;
  readonly description: string;
  /** "text", "number", "yes-no", "mapping" or "list". */
  readonly type: "text" | "number" | "yes-no" | "mapping" | "list" | "anything";
  readonly enum?: readonly string[];
  /** Keys that a mapping has by name, in the order they are best written. */
  readonly properties?: Readonly<Record<string, { title: string; description: string; required: boolean }>>;
  /** True where a mapping's keys are names of the writer's choosing, as in `parts`. */
  readonly openKeys: boolean;
  readonly quantity?: readonly string[];
  readonly refersTo?: string;
}

/** The schema of the value under `key` (or at a list position) of a value with schema `schema`. */
export function childSchema(schema: SchemaNode | undefined, key: string | number): SchemaNode | undefined {
  if (!schema) return undefined;
  if (typeof key === "number" || (schema.items && /^\d+$/.test(key))) return schema.items;
  if (schema.properties && Object.hasOwn(schema.properties, key)) return schema.properties[key];
  for (const [pattern, sub] of Object.entries(schema.patternProperties ?? {})) {
    if (new RegExp(pattern, "u").test(key)) return sub;
  }
  return schema.additionalProperties || undefined;
}

/**
 * The JSON types that a schema allows; empty where it names none and so allows all. Where text is wanted a number stands in
 * the schema beside it for other programs, which take `pin: 3` for one; here it is its text.
 */
export function typesOf(schema: SchemaNode | undefined): readonly string[] {
  if (schema?.type === undefined) return [];
  if (typeof schema.type === "string") return [schema.type];
  return schema.type.includes("string") ? schema.type.filter((type) => type !== "number") : schema.type;
}

/** The raw schema at a path of keys and list positions; undefined where the format has no such place. */
export function rawSchemaAt(kind: SchemaKind, path: YamlPath): SchemaNode | undefined {
  let schema: SchemaNode | undefined = SCHEMAS[kind];
  for (const step of path) schema = childSchema(schema, step);
  return schema;
}

/** What belongs at `path`, in words; undefined where the format has no such place. */
export function schemaAt(kind: SchemaKind, path: YamlPath): SchemaPlace | undefined {
  const schema = rawSchemaAt(kind, path);
  if (!schema) return undefined;
  const required = new Set(schema.required);
  const properties = schema.properties && {
    properties: Object.fromEntries(
      Object.entries(schema.properties).map(([key, sub]) => [
        key,
        { title: sub.title ?? key, description: sub.description ?? "", required: required.has(key) },
      ]),
    ),
  };
  return defined({
    title: schema.title ?? "",
    description: schema.description ?? "",
    type: plainType(schema),
    openKeys: typeof schema.additionalProperties === "object",
    enum: schema.enum,
    ...properties,
    quantity: schema.quantity ? [schema.quantity].flat().filter((kind) => kind !== BOTH_WAYS) : undefined,
    refersTo: schema.refersTo || undefined,
  });
}

function plainType(schema: SchemaNode): SchemaPlace["type"] {
  const types = typesOf(schema);
  if (types.includes("object")) return "mapping";
  if (types.includes("array")) return "list";
  if (types.includes("boolean")) return "yes-no";
  if (types.includes("integer") || types.includes("number")) return "number";
  return types.includes("string") ? "text" : "anything";
}
