import type { YamlPath } from "../../../syntax/yaml";
import { joined, type Markdown, markdown, md } from "../../../text/markdown";
import type { KnowledgeFile } from "../../shared/knowledge-file";
import { currencies } from "../completion/currencies";
import { derivedOf } from "../derived";
import { scalarTextAt } from "../place";
import { about, aboutPin } from "./about";
import { cellDocumentation } from "./board";

type About = (file: KnowledgeFile, path: YamlPath, typed: string) => Markdown | undefined;

/** The pin of the part named beside it. */
function pinBeside(file: KnowledgeFile, path: YamlPath, typed: string): Markdown | undefined {
  const ref = scalarTextAt(file, [...path.slice(0, -1), "ref"]);
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
    return found && markdown`**${md(found.label)}** ${md(found.description ?? "")}`;
  },
  "shop:stock/*/part": (file, path, typed) => {
    const { shop } = derivedOf(file);
    const at = path.slice(0, -1);
    const quantity = scalarTextAt(file, [...at, "quantity"]);
    const price = scalarTextAt(file, [...at, "price"]);
    const location = scalarTextAt(file, [...at, "location"]);
    const stock = [
      quantity === undefined ? undefined : `${quantity} in stock`,
      price === undefined ? undefined : [price, shop?.currency].filter(Boolean).join(" "),
      location,
    ].filter(Boolean);
    const line = joined(
      stock.map((text) => md(text ?? "")),
      " · ",
    );
    const users = [...file.knowledge.boards.values()].flatMap(({ value }) => {
      const refs = [...value.parts.values()].filter(
        (part) => part.device === typed || part.fits.includes(typed),
      );
      return refs.length === 0
        ? []
        : [
            markdown`- ${md(value.title)}: ${joined(
              refs.map((part) => md(part.ref)),
              ", ",
            )}`,
          ];
    });
    return joined(
      [
        about(file, "device", typed) ?? markdown`**${md(typed)}**`,
        ...(line === "" ? [] : [line]),
        ...(users.length > 0 ? [markdown`Fits on\n${joined(users, "\n")}`] : []),
      ],
      "\n\n",
    );
  },
};
