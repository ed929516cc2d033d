// Turns schemas/*.schema.json into functions at build time, so that no program carries the compiler of schemas or waits
// for it when it starts.
import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { _, Ajv } from "ajv";
import standalone from "ajv/dist/standalone/index.js";

const ROOT = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const KNOWLEDGE = join(ROOT, "server", "src", "knowledge");

/** Each kind of file, as its schema's file is called. */
const KINDS = ["front-matter", "board", "device", "family", "limits", "maker", "procedure", "shop"];

/** Where text is wanted a scalar is text when it is looked at here: the number beside it is for other programs. */
const TEXT = ["string", "number"];

const schemaOf = (kind) =>
  JSON.parse(readFileSync(join(ROOT, "schemas", `${kind}.schema.json`), "utf8"), (key, value) =>
    key === "type" && String(value) === String(TEXT) ? "string" : value,
  );

/**
 * The compiler with this project's own words. What it makes calls `FORMATS` and `quantityFault`.
 * @param checked holds the schemas themselves against JSON Schema's own schema; a test does.
 */
export function createAjv({ checked = false } = {}) {
  const ajv = new Ajv({
    allErrors: true,
    messages: false,
    allowUnionTypes: true,
    meta: checked,
    validateSchema: checked,
    code: { source: true, esm: true, formats: _`FORMATS` },
  });
  ajv.addFormat("date", () => true);
  ajv.addVocabulary(["patternErrorMessage", "refersTo"]);
  ajv.addKeyword({
    keyword: "quantity",
    type: "string",
    schemaType: ["string", "array"],
    code(context) {
      context.fail(_`quantityFault(${context.data}, ${context.schemaValue}) !== undefined`);
    },
  });
  return ajv;
}

/** The module's source text: `VALIDATORS`, by kind of file. */
export function validatorsSource() {
  const ajv = createAjv();
  const names = Object.fromEntries(KINDS.map((kind) => [`of_${kind.replaceAll("-", "_")}`, kind]));
  const schemas = new Map(KINDS.map((kind) => [kind, schemaOf(kind)]));
  for (const [name, kind] of Object.entries(names)) ajv.addSchema(schemas.get(kind), name);
  let code = standalone.default(ajv, Object.fromEntries(Object.keys(names).map((name) => [name, name])));
  code = code.replaceAll('require("ajv/dist/runtime/ucs2length").default', "(text) => [...text].length");
  // The schemas are in every program once already.
  for (const [kind, schema] of schemas)
    code = code.replaceAll(`= ${JSON.stringify(schema)};`, `= SCHEMAS[${JSON.stringify(kind)}];`);
  if (/\brequire\(/.test(code)) throw new Error("A validator asks for a part of its compiler when it runs.");
  const lines = Object.entries(names).map(([name, kind]) => `${JSON.stringify(kind)}: ${name}`);
  return [
    `import { FORMATS } from ${JSON.stringify(join(KNOWLEDGE, "formats"))};`,
    `import { quantityFault } from ${JSON.stringify(join(KNOWLEDGE, "quantity-rule"))};`,
    `import { SCHEMAS } from ${JSON.stringify(join(KNOWLEDGE, "schema"))};`,
    code,
    `export const VALIDATORS = { ${lines.join(", ")} };`,
  ].join("\n");
}
