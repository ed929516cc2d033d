import { schemaAt } from "../../../knowledge/schema-walk";
import { parseQuantity } from "../../../quantity/quantity";
import { code, joined, type Markdown, markdown, md } from "../../../text/markdown";
import { schemaDocumentation } from "../../shared/documentation";
import type { KnowledgeFile } from "../../shared/knowledge-file";
import type { Hover } from "../../types";
import { typedAt, type YamlCursor, yamlCursorAt } from "../place";
import { about, aboutPin } from "./about";
import { SPECIAL } from "./special";

/** What a name stands for, else what the format says of the place; undefined where nothing is written. */
export function hoverKnowledge(file: KnowledgeFile, offset: number): Hover | undefined {
  const place = yamlCursorAt(file, offset);
  if (!place || place.where === "blank" || place.span.start === place.span.end) return undefined;
  const markdown =
    place.where === "key" ? (aboutEntry(file, place) ?? aboutKey(file, place)) : aboutValue(file, place);
  return markdown === undefined ? undefined : { span: place.span, markdown };
}

/** A name of the writer's own, like a designator under `parts`. */
function aboutEntry(file: KnowledgeFile, { path }: YamlCursor): Markdown | undefined {
  const [top, name] = path;
  return path.length === 2 && typeof top === "string" && typeof name === "string"
    ? about(file, top, name)
    : undefined;
}

function aboutKey(file: KnowledgeFile, { path, schema }: YamlCursor): Markdown | undefined {
  if (!schema) return undefined;
  const parent = schemaAt(file.kind, path.slice(0, -1));
  const required = parent?.properties?.[String(path.at(-1))]?.required;
  return joined(
    [
      schemaDocumentation(schema),
      ...(schema.type === "yes-no" ? [markdown`One of: \`true\`, \`false\``] : []),
      ...(schema.quantity && !schema.quantity.includes("any")
        ? [markdown`A quantity: ${joined(schema.quantity.map(md), " or ")}.`]
        : []),
      ...(required ? [markdown`Required.`] : []),
    ],
    "\n\n",
  );
}

function aboutValue(file: KnowledgeFile, place: YamlCursor): Markdown | undefined {
  const typed = typedAt(file, place);
  const special = SPECIAL[`${file.kind}:${place.pattern}`]?.(file, place.path, typed);
  if (special !== undefined) return special;
  const { schema } = place;
  if (!schema) return undefined;
  const named =
    schema.refersTo === "pin"
      ? aboutPin(file, typed)
      : schema.refersTo === undefined
        ? undefined
        : about(file, schema.refersTo, typed);
  if (named !== undefined) return named;
  // The entries of a list of sentences are about nothing but themselves.
  if (typeof place.path.at(-1) === "number" && !schema.refersTo && !schema.enum && !schema.quantity)
    return undefined;
  return joined([schemaDocumentation(schema), ...(schema.quantity ? quantityLine(typed) : [])], "\n\n");
}

/** "4k7 ohm" in base units, where that is not what is typed. */
function quantityLine(typed: string): Markdown[] {
  const read = parseQuantity(typed);
  if (!read.ok || read.quantity.unit === "%") return [];
  const plain = `${read.quantity.value} ${read.quantity.unit}`.trim();
  return plain === typed ? [] : [markdown`${code(typed)} is ${md(plain)}.`];
}
