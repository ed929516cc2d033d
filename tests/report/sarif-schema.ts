import { readFileSync } from "node:fs";
import { Ajv } from "ajv";

const file = new URL("./sarif-2.1.0-rtm.5.schema.json", import.meta.url);

/** The schema is draft-04, whose `id` is the `$id` of the draft that ajv reads; it uses no other word that changed. */
const { id, $schema: _, ...schema } = JSON.parse(readFileSync(file, "utf8"));
const ajv = new Ajv({
  allErrors: true,
  strict: false,
  unicodeRegExp: false,
  formats: { uri, "uri-reference": reference, "date-time": true },
});
const validate = ajv.compile({ $id: id, ...schema });

/** What the official schema has against a SARIF log; empty where it is valid. */
export function sarifErrors(log: unknown): string[] {
  return validate(log) ? [] : (validate.errors ?? []).map((e) => `${e.instancePath} ${e.message}`);
}

function uri(text: string): boolean {
  return URL.canParse(text);
}

function reference(text: string): boolean {
  return !/[\s<>"{}|\\^`]/.test(text) && URL.canParse(text, "file:///base/");
}
