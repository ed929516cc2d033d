// The rails that a block reads, by the names it gives them.
import type { LogBlock } from "../model";
import { railNamed } from "./rail-name";
import type { LocatedStatement, RailStated } from "./statement";

export function railsStated(block: LogBlock): LocatedStatement<RailStated>[] {
  const found = new Map<string, LocatedStatement<RailStated>>();
  for (const table of block.tables) {
    for (const { cells } of table.rows) {
      const named = cells.rail && railNamed(cells.rail.text);
      if (!cells.rail || !named || found.has(named.name)) continue;
      found.set(named.name, { kind: "rail", ...named, span: cells.rail.span });
    }
  }
  return [...found.values()];
}
