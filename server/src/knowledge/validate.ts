import { VALIDATORS } from "virtual:mendlog-validators";
import type { ErrorObject } from "ajv";
import type { Problem, YamlTree } from "../syntax/yaml";
import { errorPath, explainAll } from "./explain";
import type { SchemaKind } from "./schema";

export type { Problem } from "../syntax/yaml";

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
  const check = VALIDATORS[kind];
  if (check(value)) return { problems: [], whole: true };
  const errors = check.errors ?? [];
  const problems = explainAll(kind, errors, tree);
  const whole = !errors.some((error) => error.instancePath === "" && error.keyword === "type");
  if (whole) for (const error of errors) takeOut(value, error);
  return { problems, whole };
}

function takeOut(value: unknown, error: ErrorObject): void {
  const path = errorPath(error);
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
