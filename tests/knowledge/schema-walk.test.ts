import { expect, test } from "vitest";
import { createAjv } from "../../server/build/validators.js";
import { STAGES } from "../../server/src/knowledge/load-front-matter";
import { SCHEMAS, type SchemaKind, type SchemaNode } from "../../server/src/knowledge/schema";
import { rawSchemaAt, schemaAt } from "../../server/src/knowledge/schema-walk";
import { COLUMN_ROLES, DEVICE_KINDS, PIN_DIRECTIONS } from "../../server/src/knowledge/types";

test("what belongs at a place", () => {
  expect(schemaAt("board", ["rails", "+5V", "nominal"])).toEqual({
    title: "Nominal",
    description: "The voltage it should have, like `5 V`. Negative rails carry their sign.",
    type: "text",
    openKeys: false,
    quantity: ["voltage"],
  });
  expect(schemaAt("board", ["rails", "+5V", "tolerance"])?.quantity).toEqual(["ratio", "voltage"]);
  expect(schemaAt("front-matter", ["stage"])?.enum).toEqual(STAGES);
  expect(schemaAt("board", ["nets", "GND", 3])).toMatchObject({ type: "text", refersTo: "pin" });
  expect(schemaAt("board", ["matrices", "m", "cells", 0, 1])).toMatchObject({ title: "Cell", type: "text" });
  expect(schemaAt("board", ["parts"])).toMatchObject({ type: "mapping", openKeys: true });
  expect(schemaAt("board", ["parts", "U1", "socketed"])?.type).toBe("yes-no");
  expect(schemaAt("shop", ["stock", 0, "quantity"])?.type).toBe("number");
  expect(schemaAt("shop", ["stock"])?.type).toBe("list");
});

test("keys of a mapping, in order, with what must be there", () => {
  const rail = schemaAt("board", ["rails", "any name"])!;
  expect(Object.keys(rail.properties ?? {})).toEqual([
    "nominal",
    "tolerance",
    "ripple",
    "load",
    "regulator",
    "input",
    "dropout",
    "reservoir",
    "rectifier",
    "mains",
    "net",
    "test-point",
    "source",
  ]);
  expect(rail.properties?.nominal?.required).toBe(true);
  expect(rail.properties?.ripple).toMatchObject({ title: "Ripple", required: false });
  expect(schemaAt("front-matter", [])?.properties?.mendlog?.required).toBe(true);
});

test.each([
  [["nothing"]],
  [["id", "deeper"]],
  [["rails", "+5V", "colour"]],
  [["__proto__"]],
  [["constructor"]],
  [["era", 0]],
])("the format has no place %j", (path) => {
  expect(schemaAt("board", path)).toBeUndefined();
});

test("a part may have any name, and a field of one's own anything in it", () => {
  expect(schemaAt("board", ["parts", "constructor", "device"])?.title).toBe("Device");
  expect(schemaAt("board", ["x-own", "thing"])).toBeUndefined();
  expect(schemaAt("board", ["x-own"])?.type).toBe("anything");
});

/** Every schema node that a file's place can lead to. */
function* places(schema: SchemaNode, path: string): Generator<[string, SchemaNode]> {
  yield [path, schema];
  for (const [key, sub] of Object.entries(schema.properties ?? {})) yield* places(sub, `${path}/${key}`);
  if (schema.items) yield* places(schema.items, `${path}/0`);
  if (schema.additionalProperties) yield* places(schema.additionalProperties, `${path}/*`);
}

test.each(Object.keys(SCHEMAS) as SchemaKind[])(
  "%s: every place says what it is, and closes its mapping",
  (kind) => {
    for (const [path, schema] of places(SCHEMAS[kind], kind)) {
      expect(schema.title, path).toMatch(/^\S.*\S$/);
      expect(schema.description, path).toMatch(/[.;]$/);
      expect(schema.type, path).toBeDefined();
      if (schema.type === "object") {
        expect(schema.additionalProperties, path).toBeDefined();
        const open = typeof schema.additionalProperties === "object";
        expect(schema.propertyNames !== undefined, path).toBe(open);
      }
      if (schema.pattern) expect(schema.patternErrorMessage, path).toBeDefined();
    }
  },
);

test("the schemas are valid JSON Schema, draft 7", () => {
  const ajv = createAjv({ checked: true });
  for (const schema of Object.values(SCHEMAS)) {
    expect(schema).toHaveProperty("$schema", "http://json-schema.org/draft-07/schema#");
    expect(() => ajv.compile(schema)).not.toThrow();
  }
  expect(() => ajv.compile({ type: "texts" })).toThrow();
});

test("lists of words are those of the program", () => {
  expect(rawSchemaAt("device", ["kind"])?.enum).toEqual(DEVICE_KINDS);
  expect(rawSchemaAt("device", ["pins", "1", "direction"])?.enum).toEqual(PIN_DIRECTIONS);
  expect(rawSchemaAt("procedure", ["columns", 0, "role"])?.enum).toEqual(COLUMN_ROLES);
  expect(rawSchemaAt("procedure", ["wide", "rows"])?.enum).toEqual(COLUMN_ROLES);
});
