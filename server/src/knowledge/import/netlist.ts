// The S-expression netlist of the schematic editor whose demos Debian packages as kicad-demos: `(export (version ...)
// (components ...) (nets ...))`. The layout of the lists is from memory; older writers leave the quotation marks out.

import { defined } from "../../base/defined";
import type { PartFacts } from "./builder";
import { type BoardBuilder, boardBuilder } from "./builder";
import { sayEnd } from "./end-of-lists";
import type { ImportedBoard, Importing } from "./imported";
import { firstIn, listsIn, readLists, type SList } from "./s-expression";

const WANTED = {
  records: new Set(["export/components/comp", "export/nets/net"]),
  keep: new Set(["ref", "value", "footprint", "property", "name", "node", "pin"]),
};

/** Reads a netlist: its parts, and each net with its pins. Pins that are connected to nothing may be missing from it. */
export function* readNetlist(text: string): Importing<ImportedBoard> {
  const builder = boardBuilder("netlist", false);
  const end = yield* readLists(text, WANTED, (list) => {
    if (list.head === "comp") component(list, builder);
    else net(list, builder);
    return !builder.full;
  });
  if (!builder.full) sayEnd(end, builder);
  return builder.build();
}

function component(comp: SList, builder: BoardBuilder): void {
  const ref = firstIn(comp, "ref");
  if (ref === undefined) {
    builder.problem(
      "lost",
      "A component without a designator; it is left out. Number it in the schematic.",
      comp.line,
    );
    return;
  }
  const value = firstIn(comp, "value");
  const footprint = firstIn(comp, "footprint");
  const unfitted = listsIn(comp, "property").some((property) => firstIn(property, "name") === "dnp");
  const facts = defined<PartFacts>({
    // What stands for "no value" in it.
    value: value !== undefined && value !== "~" ? value : undefined,
    package: footprint,
    unfitted: unfitted ? (true as const) : undefined,
    allPins: false,
  });
  builder.part(ref, facts, comp.line);
}

function net(list: SList, builder: BoardBuilder): void {
  const name = firstIn(list, "name");
  const nodes = listsIn(list, "node");
  if (name === undefined) {
    builder.problem(
      "lost",
      `A net of ${nodes.length} pins without a name; it is left out. Label it in the schematic and export again.`,
      list.line,
    );
    return;
  }
  builder.net(name, list.line);
  for (const node of nodes) {
    const ref = firstIn(node, "ref");
    const pin = firstIn(node, "pin");
    if (ref === undefined || pin === undefined) {
      builder.problem("lost", `Net ${name} has a pin without its part or number; it is left out.`, node.line);
      continue;
    }
    if (!builder.lists(ref))
      builder.problem("note", `Net ${name} names ${ref}, which is not among the components.`, node.line);
    builder.pin(ref, pin, name, node.line);
  }
}
