import type { Fits } from "../syntax/yaml";
import { nearest } from "../text/nearest";
import { SCHEMAS, type SchemaKind, type SchemaNode } from "./schema";
import { childSchema, typesOf } from "./schema-walk";

const fitting = new Map<SchemaKind, Fits>();

/** What files of a kind have a place for: so a line indented wrongly can be told from the place it fell into. */
export function fitsOf(kind: SchemaKind): Fits {
  const known = fitting.get(kind);
  if (known) return known;
  const made: Fits = (path, form) => {
    let schema: SchemaNode | undefined = SCHEMAS[kind];
    let named = false;
    for (const step of path) {
      named = typeof step === "string" && Object.hasOwn(schema?.properties ?? {}, step);
      const holder: SchemaNode | undefined = schema;
      if (typeof step === "string" && !named && !mayBeKey(holder, step)) return "no";
      schema = childSchema(holder, step);
      if (!schema) return isSlip(holder, step) ? "slip" : "no";
    }
    return mayBe(schema, form) ? (named ? "named" : "yes") : "no";
  };
  fitting.set(kind, made);
  return made;
}

const isSlip = (schema: SchemaNode | undefined, step: string | number): boolean =>
  nearest(String(step), Object.keys(schema?.properties ?? {})) !== undefined;

function mayBeKey(schema: SchemaNode | undefined, key: string): boolean {
  const pattern = schema?.propertyNames?.pattern;
  return pattern === undefined || new RegExp(pattern, "u").test(key);
}

function mayBe(schema: SchemaNode | undefined, form: Parameters<Fits>[1]): boolean {
  const types = typesOf(schema);
  if (form === "none" || types.length === 0) return true;
  if (form === "mapping") return types.includes("object");
  if (form === "list") return types.includes("array");
  return types.some((type) => type !== "object" && type !== "array");
}
