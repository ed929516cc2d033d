// What a board file says of its working memory, held against itself.
import { nodeAt, type YamlPath } from "../syntax/yaml";
import type { Reporter } from "./semantics";
import type { Board } from "./types";

export function checkMemory(report: Reporter, board: Board): void {
  const seen = new Set<string>();
  const list = nodeAt(report.tree, ["memory"])?.node;
  for (let index = 0; list?.kind === "list" && index < list.items.length; index++) {
    const at = (key: string): YamlPath => ["memory", index, key];
    const lines = scalarsAt(report, at("data"));
    if (![0, 1, 4, 8].includes(lines.length)) {
      report.at(
        at("data"),
        "wrong-width",
        `${lines.length} data lines are given; a memory chip has 1, 4 or 8.`,
        {
          on: "key",
        },
      );
    }
    const twice = lines.find(({ text }, i) => lines.findIndex((other) => other.text === text) < i);
    if (twice)
      report.at(
        twice.path,
        "line-twice",
        `Data line ${twice.text} is given twice. Each bit has a line of its own.`,
      );
    const end = (key: string): number | undefined => {
      const node = nodeAt(report.tree, at(key))?.node;
      return node?.kind === "scalar" ? Number.parseInt(node.source.replace(/["']/g, ""), 16) : undefined;
    };
    const [from, to] = [end("from"), end("to")];
    if (from !== undefined && to !== undefined && from > to)
      report.at(at("to"), "reversed-range", "The last address is below the first. Swap the two.");
    else if ((from === undefined) !== (to === undefined))
      report.at(
        at(from === undefined ? "to" : "from"),
        "half-a-range",
        "A range has a first and a last address. Write both, or neither where there is one bank only.",
      );
    const ref = nodeAt(report.tree, at("ref"))?.node;
    if (ref?.kind !== "scalar") continue;
    if (seen.has(ref.source))
      report.at(at("ref"), "duplicate-id", `\`${ref.source}\` is twice in \`memory\`. Keep one.`);
    seen.add(ref.source);
    const set = [...board.romSets.values()].find(({ images }) =>
      images.some((image) => image.ref === ref.source),
    );
    if (set)
      report.at(
        at("ref"),
        "memory-is-rom",
        `\`${ref.source}\` holds a program in ROM set \`${set.id}\`; working memory is what can be written.`,
      );
  }
}

function scalarsAt(
  report: Reporter,
  path: YamlPath,
): readonly { readonly path: YamlPath; readonly text: string }[] {
  const node = nodeAt(report.tree, path)?.node;
  if (node?.kind !== "list") return [];
  return node.items.flatMap((item, index) =>
    item.kind === "scalar" ? [{ path: [...path, index], text: item.source }] : [],
  );
}
