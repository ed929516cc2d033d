import type { YamlPath } from "../../../syntax/yaml";
import { md } from "../../../text/markdown";
import type { KnowledgeFile } from "../../shared/knowledge-file";
import { currencies } from "../completion/currencies";
import { derivedOf } from "../derived";
import { textOf } from "../place";
import { about, aboutPin } from "./about";
import { cellDocumentation } from "./board";

type About = (file: KnowledgeFile, path: YamlPath, typed: string) => string | undefined;

/** The pin of the part named beside it. */
function pinBeside(file: KnowledgeFile, path: YamlPath, typed: string): string | undefined {
  const ref = textOf(file, [...path.slice(0, -1), "ref"]);
  return ref === undefined ? undefined : aboutPin(file, `${ref}.${typed}`);
}

/** Values whose place says what they are about, by kind of file and pattern of the path. */
export const SPECIAL: Readonly<Record<string, About>> = {
  "board:clocks/*/pin": pinBeside,
  "board:expected/*/pin": pinBeside,
  "board:matrices/*/cells/*/*": (file, path) => {
    const matrix = derivedOf(file).board?.matrices.get(String(path[1]));
    return matrix && cellDocumentation(matrix, Number(path[3]), Number(path[4]));
  },
  "board:resets/*/pin": pinBeside,
  "shop:currency": (_file, _path, typed) => {
    const found = currencies().find(({ label }) => label === typed);
    return found && `**${found.label}** ${md(found.description ?? "")}`;
  },
  "shop:stock/*/part": (file, path, typed) => {
    const { shop } = derivedOf(file);
    const at = path.slice(0, -1);
    const quantity = textOf(file, [...at, "quantity"]);
    const price = textOf(file, [...at, "price"]);
    const location = textOf(file, [...at, "location"]);
    const stock = [
      quantity === undefined ? undefined : `${quantity} in stock`,
      price === undefined ? undefined : [price, shop?.currency].filter(Boolean).join(" "),
      location,
    ].filter(Boolean);
    const line = stock.map((text) => md(text ?? "")).join(" · ");
    const users = [...file.knowledge.boards.values()].flatMap(({ value }) => {
      const refs = [...value.parts.values()].filter(
        (part) => part.device === typed || part.fits.includes(typed),
      );
      return refs.length === 0
        ? []
        : [`- ${md(value.title)}: ${refs.map((part) => md(part.ref)).join(", ")}`];
    });
    return [
      about(file, "device", typed) ?? `**${md(typed)}**`,
      ...(line === "" ? [] : [line]),
      ...(users.length > 0 ? [`Fits on\n${users.join("\n")}`] : []),
    ].join("\n\n");
  },
};
