import { Ajv, type ErrorObject, type ValidateFunction } from "ajv";
import type { Problem, YamlTree } from "../syntax/yaml";
import { explainAll, pathOf } from "./explain";
import { quantityFault } from "./quantity-rule";
import { SCHEMAS, type SchemaKind } from "./schema";

export type { Problem } from "../syntax/yaml";

let ajv: Ajv | undefined;
const validators = new Map<SchemaKind, ValidateFunction>();

function validator(kind: SchemaKind): ValidateFunction {
  const known = validators.get(kind);
  if (known) return known;
  ajv ??= createAjv();
  const made = ajv.compile(SCHEMAS[kind]);
  validators.set(kind, made);
  return made;
}

/**
 * `checked` holds the schemas themselves against JSON Schema's own schema, which costs more than all the rest
 * at start-up; a test does it instead.
 */
export function createAjv({ checked = false } = {}): Ajv {
  const made = new Ajv({
    allErrors: true,
    verbose: true,
    messages: false,
    allowUnionTypes: true,
    meta: checked,
    validateSchema: checked,
  });
  made.addFormat("date", isDate);
  made.addVocabulary(["patternErrorMessage", "refersTo"]);
  made.addKeyword({
    keyword: "quantity",
    type: "string",
    schemaType: ["string", "array"],
    validate: (wanted: string | string[], text: string) => quantityFault(text, wanted) === undefined,
  });
  return made;
}

/** A day of the calendar as ISO 8601 writes it: 2024-02-29 is one, 2023-02-29 is not. */
export function isDate(text: string): boolean {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!match) return false;
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  const date = new Date(0);
  date.setUTCFullYear(year, month - 1, day);
  return date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
}

/**
 * Holds `value` (see `typedValue`) against the schema of its kind. Gives the problems in file order, and takes
 * out of `value` whatever they are about: what remains is valid except that required keys may be missing.
 * `whole` is false where the file is not of this kind at all.
 */
export function validate(
  kind: SchemaKind,
  value: unknown,
  tree: YamlTree,
): { problems: Problem[]; whole: boolean } {
  const check = validator(kind);
  if (check(value)) return { problems: [], whole: true };
  const errors = check.errors ?? [];
  const problems = explainAll(kind, errors, tree);
  const whole = !errors.some((error) => error.instancePath === "" && error.keyword === "type");
  if (whole) for (const error of errors) takeOut(value, error);
  return { problems, whole };
}

function takeOut(value: unknown, error: ErrorObject): void {
  const path = pathOf(error);
  if (error.keyword === "required" || error.propertyName !== undefined) return;
  if (error.keyword === "additionalProperties") path.push(error.params.additionalProperty as string);
  else if (error.keyword === "propertyNames") path.push(error.params.propertyName as string);
  const last = path.pop();
  if (last === undefined) return;
  let holder = value;
  for (const step of path) {
    if (typeof holder !== "object" || holder === null) return;
    holder = (holder as Record<string, unknown>)[step];
  }
  if (Array.isArray(holder)) holder[Number(last)] = undefined;
  else if (typeof holder === "object" && holder !== null) delete (holder as Record<string, unknown>)[last];
}
