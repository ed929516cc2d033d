import { plainValue, type YamlNode } from "../syntax/yaml";
import type { SchemaNode } from "./schema";
import { childSchema, typesOf } from "./schema-walk";

/**
 * Plain data of a node as its schema wants it. Where text is wanted a scalar gives the text typed, so that
 * `device: 7404`, `crc32: 00123e45` and `pin: 3` need no quotes and lose no zeros. A key with nothing behind
 * it counts as not given, except in a mapping of the writer's own names, where the name alone says something.
 * Mappings become objects without a prototype.
 */
export function typedValue(node: YamlNode | undefined, schema: SchemaNode | undefined): unknown {
  if (!node || !schema) return plainValue(node);
  if (node.kind === "scalar") {
    if (node.value === null || !typesOf(schema).includes("string")) return node.value;
    return node.source;
  }
  if (node.kind === "list") return node.items.map((item) => typedValue(item, schema.items));
  const out: Record<string, unknown> = Object.create(null);
  for (const [key, { value }] of node.byKey) {
    const sub = childSchema(schema, key);
    if (value.kind === "scalar" && value.value === null && sub && !typesOf(sub).includes("null")) {
      if (sub === schema.additionalProperties) out[key] = emptyOf(sub);
      continue;
    }
    out[key] = typedValue(value, sub);
  }
  return out;
}

function emptyOf(schema: SchemaNode): unknown {
  const types = typesOf(schema);
  if (types.includes("object")) return Object.create(null);
  return types.includes("array") ? [] : "";
}
