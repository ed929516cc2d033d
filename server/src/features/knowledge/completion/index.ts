import { schemaAt } from "../../../knowledge/schema-walk";
import type { YamlPath } from "../../../syntax/yaml";
import type { KnowledgeFile } from "../../shared/knowledge-file";
import type { Completion } from "../../types";
import { yamlCursorAt } from "../place";
import { completeKeys } from "./keys";
import { completeValues } from "./values";

/** What can stand at the cursor, best first: keys that are missing there, or values that fit. */
export function completeKnowledge(file: KnowledgeFile, offset: number): readonly Completion[] {
  const place = yamlCursorAt(file, offset);
  if (!place) return [];
  const { path, where, schema } = place;
  if (where === "key") {
    // Within brackets a lone word is read as a key; in a list it is an entry.
    return completeKeys(file, place, path.slice(0, -1), "");
  }
  if (!schema) return [];
  if (schema.type === "mapping") {
    const onKeysLine = where === "value" && !place.ownLine && (place.flow || !isItem(path));
    return completeKeys(file, place, path, onKeysLine ? "braces" : "");
  }
  if (schema.type !== "list") return completeValues(file, place, offset, path, "");
  const item = [...path, 0];
  // Within brackets that are there already nothing is put around an entry.
  const around =
    place.flow && where === "blank" ? "" : where === "blank" || place.ownLine ? "dash" : "brackets";
  if (schemaAt(file.kind, item)?.type === "mapping") {
    return completeKeys(
      file,
      place,
      item,
      around === "dash" ? "dash" : around === "" ? "braces" : "brackets",
    );
  }
  return completeValues(file, place, offset, item, around);
}

/** What a digit or a point just typed may belong to; of a quantity, a year or a price it is only a digit. */
const NUMBERED: ReadonlySet<Completion["kind"]> = new Set(["device", "part", "pin"]);

/**
 * What can stand behind a digit or a point just typed: part numbers, designators and pins, and nothing anywhere else.
 */
export const completeNumbered = (file: KnowledgeFile, offset: number): readonly Completion[] =>
  completeKnowledge(file, offset).filter(({ kind }) => NUMBERED.has(kind));

const isItem = (path: YamlPath): boolean => typeof path.at(-1) === "number";
