import { schemaAt } from "../../knowledge/schema-walk";
import type { YamlPlace } from "../../syntax/yaml";
import { slice } from "../../text/span";
import { md } from "../describe";
import { boardDocumentation, symptomDocumentation } from "../documentation";
import type { Hover } from "../types";
import type { LogView } from "../view";

export function hoverFront(view: LogView, place: YamlPlace): Hover | undefined {
  const key = place.path[0];
  if (place.where === "blank" || typeof key !== "string") return undefined;
  const about = place.where === "value" ? aboutValue(view, key, place) : undefined;
  if (about !== undefined) return { span: place.span, markdown: about };
  const schema = schemaAt("front-matter", place.where === "key" ? place.path : [key]);
  if (!schema) return undefined;
  const values = schema.enum ? `\n\nOne of: ${schema.enum.map((v) => `\`${v}\``).join(", ")}` : "";
  return { span: place.span, markdown: `**${md(schema.title)}**\n\n${schema.description}${values}` };
}

function aboutValue(view: LogView, key: string, place: YamlPlace): string | undefined {
  const board = view.ctx.board?.value;
  const typed = slice(view.doc.text, place.span).replace(/^["']|["']$/g, "");
  switch (key) {
    case "board":
      return board && boardDocumentation(board);
    case "revision": {
      const note = board?.revisions.get(typed);
      return note === undefined ? undefined : `**Revision ${md(typed)}**: ${md(note)}`;
    }
    case "meter": {
      const meter = view.ctx.meter;
      if (!meter) return undefined;
      const ranges = meter.ranges.map((range) => {
        const accuracy = range.accuracy
          ? `± (${range.accuracy.reading} + ${range.accuracy.counts} counts)`
          : "accuracy not given";
        return `| ${range.function} | ${range.range} | ${accuracy} |`;
      });
      return `**${md(meter.title)}**\n\n| Function | Range | Accuracy |\n|---|---|---|\n${ranges.join("\n")}`;
    }
    case "rom-set": {
      const set = board?.romSets.get(typed);
      return (
        set &&
        `**${md(set.title)}**\n\n${set.images.map((image) => `- ${image.ref}${image.crc32 === undefined ? "" : `: CRC-32 \`${image.crc32}\``}`).join("\n")}`
      );
    }
    case "symptoms": {
      const symptom = board?.symptoms.get(typed);
      return symptom && board ? symptomDocumentation(symptom, board) : undefined;
    }
    default:
      return undefined;
  }
}
