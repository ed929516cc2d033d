import type { YamlNode } from "../../syntax/yaml";
import type { BoardSection, KeptEntry, LeftOut } from "./change";
import type { BoardEntry } from "./entry";
import { type BoardText, entriesOf, isAlias, nodeTexts } from "./open";

/** What an entry that is there gets. */
export interface Patch {
  readonly section: BoardSection;
  readonly key: string;
  readonly node: YamlNode;
  /** Fields that it lacks, or whose value is to be another. */
  readonly set: Map<string, string | readonly string[]>;
  /** What is put behind the last of a list: a net's pins under "", else by field. */
  readonly append: Map<string, string[]>;
  readonly from: Set<string>;
}

/** What is to be done with the file, before it is edits. */
export interface Plan {
  /** New entries, in order; at most one for a section and key. */
  readonly fresh: BoardEntry[];
  readonly patches: Patch[];
  readonly kept: KeptEntry[];
  readonly leftOut: LeftOut[];
}

/** A plan in the making: what the changes so far came to, by section and key. */
export interface Planning {
  readonly file: BoardText;
  readonly plan: Plan;
  /** Places in `plan.fresh`. */
  readonly fresh: Map<string, number>;
  readonly patches: Map<string, Patch>;
  /** The net of each pin, the file's and the changes'. */
  readonly owners: Map<string, string>;
  nodeOf(section: BoardSection, key: string): YamlNode | undefined;
}

export function startPlan(file: BoardText): Planning {
  const there = new Map<BoardSection, ReadonlyMap<string, YamlNode>>();
  return {
    file,
    plan: { fresh: [], patches: [], kept: [], leftOut: [] },
    fresh: new Map(),
    patches: new Map(),
    owners: pinOwners(file),
    nodeOf(section, key) {
      const entries = there.get(section) ?? entriesOf(file, section);
      there.set(section, entries);
      return entries.get(key);
    },
  };
}

export const idOfEntry = ({ section, key }: Pick<BoardEntry, "section" | "key">): string =>
  `${section} ${key}`;

/** What is planned for the entry that is there as `node`. */
export function patchOf({ patches }: Planning, section: BoardSection, key: string, node: YamlNode): Patch {
  const id = idOfEntry({ section, key });
  const known = patches.get(id);
  if (known) return known;
  const patch = { section, key, node, set: new Map(), append: new Map(), from: new Set<string>() };
  patches.set(id, patch);
  return patch;
}

/** Text on one line that one edit can replace. */
export function isPlainField(file: BoardText, node: YamlNode, field: string): boolean {
  const value = node.kind === "map" ? node.byKey.get(field)?.value : undefined;
  if (value?.kind !== "scalar" || isAlias(file, value)) return false;
  const typed = file.text.slice(value.span.start, value.span.end);
  return !typed.includes("\n") && !/^[|>]/.test(typed);
}

function pinOwners(file: BoardText): Map<string, string> {
  const owners = new Map<string, string>();
  for (const [net, node] of entriesOf(file, "nets")) {
    if (node.kind !== "list") continue;
    for (const pin of nodeTexts(node)) if (!owners.has(pin)) owners.set(pin, net);
  }
  return owners;
}
