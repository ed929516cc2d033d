import { isNull, type YamlNode } from "../../syntax/yaml";
import type { BoardChange, BoardSection, Kept, LeftOut } from "./change";
import { joined, merged, same, shown } from "./compare";
import { type Entry, entryOf, type Fields, isFields, isList } from "./entry";
import { type BoardText, entriesOf, fieldOf, isAlias, lineOf, textsOf } from "./open";
import { valueText } from "./render";

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
  readonly fresh: Entry[];
  readonly patches: Patch[];
  readonly kept: Kept[];
  readonly leftOut: LeftOut[];
}

/** Holds the changes against the file and against each other. */
export function planChanges(file: BoardText, changes: readonly BoardChange[]): Plan {
  const plan: Plan = { fresh: [], patches: [], kept: [], leftOut: [] };
  const there = new Map<BoardSection, ReadonlyMap<string, YamlNode>>();
  const fresh = new Map<string, number>();
  const patches = new Map<string, Patch>();
  const owners = pinOwners(file);

  const nodeOf = (section: BoardSection, key: string): YamlNode | undefined => {
    let entries = there.get(section);
    if (!entries) {
      entries = entriesOf(file, section);
      there.set(section, entries);
    }
    return entries.get(key);
  };

  const patchOf = (section: BoardSection, key: string, node: YamlNode): Patch => {
    const id = `${section} ${key}`;
    const patch = patches.get(id) ?? {
      section,
      key,
      node,
      set: new Map(),
      append: new Map(),
      from: new Set(),
    };
    patches.set(id, patch);
    return patch;
  };

  /** Leaves out pins that another net has: a pin is on one net only, and the one typed first wins. */
  const ownPins = (entry: Entry): Entry => {
    if (entry.section !== "nets" || !isList(entry.value) || entry.guess) return entry;
    const others = entry.value.filter((pin) => (owners.get(pin) ?? entry.key) !== entry.key);
    for (const pin of entry.value) if (!owners.has(pin)) owners.set(pin, entry.key);
    if (others.length === 0) return entry;
    plan.kept.push({
      section: "nets",
      key: entry.key,
      differs: others.map((pin) => ({ field: pin, file: owners.get(pin)!, draft: entry.key })),
    });
    return { ...entry, value: entry.value.filter((pin) => !others.includes(pin)) };
  };

  const add = (given: Entry, replace: boolean): void => {
    const { section, key } = given;
    const entry = ownPins(given);
    if (isList(given.value) && given.value.length > 0 && entry.value.length === 0) return;
    const node = nodeOf(section, key);
    const at = fresh.get(`${section} ${key}`);
    if (entry.guess && (node || at !== undefined)) return;
    if (node) meet(node, entry, replace);
    else if (at === undefined) {
      fresh.set(`${section} ${key}`, plan.fresh.length);
      plan.fresh.push(entry);
    } else {
      const before = plan.fresh[at]!;
      plan.fresh[at] = before.guess || replace ? merged(before, entry) : joined(before, entry, plan.kept);
    }
  };

  const meet = (node: YamlNode, entry: Entry, replace: boolean): void => {
    const { section, key, value, from } = entry;
    if (section === "grounds") return;
    const keep = (field: string, file: string, draft: string): void => {
      plan.kept.push({ section, key, differs: [{ field, file, draft }] });
    };
    if (!(isNull(node) || node.kind === (isList(value) ? "list" : "map"))) {
      keep("", file.text.slice(node.span.start, node.span.end), valueText(value));
      return;
    }
    const fixed = isAlias(file, node);
    const patch = patchOf(section, key, node);
    if (isList(value)) {
      const has = new Set(node.kind === "list" ? textsOf(node) : []);
      const known = patch.append.get("") ?? [];
      const more = value.filter((pin) => !has.has(pin) && !known.includes(pin));
      if (fixed) {
        if (more.length > 0) keep("pins", shown(textsOf(node)), more.join(", "));
        return;
      }
      if (more.length > 0) patch.append.set("", [...known, ...more]);
      if (more.length > 0 && from !== undefined) patch.from.add(from);
      return;
    }
    const differs: { field: string; file: string; draft: string }[] = [];
    for (const [field, draft] of Object.entries(value as Fields)) {
      const typed = patch.set.get(field) ?? fieldOf(node, field);
      if (typed !== undefined && same(typed, draft)) continue;
      if (!fixed && (typed === undefined || (replace && isPlainField(file, node, field)))) {
        patch.set.set(field, draft);
        if (from !== undefined) patch.from.add(from);
      } else differs.push({ field, file: shown(typed ?? ""), draft: shown(draft) });
    }
    if (differs.length > 0) plan.kept.push({ section, key, differs });
  };

  /** One field of a part that is there, or that is about to be. */
  const touch = (ref: string, field: "device" | "fits", text: string): void => {
    const refuse = (reason: string) => plan.leftOut.push({ section: "parts", key: ref, reason });
    const at = fresh.get(`parts ${ref}`);
    const planned = at === undefined ? undefined : plan.fresh[at];
    if (planned && !planned.guess && isFields(planned.value)) {
      const list = planned.value.fits ?? [];
      const value = field === "device" ? text : list.includes(text) ? list : [...list, text];
      plan.fresh[at!] = { ...planned, value: { ...planned.value, [field]: value } };
      return;
    }
    const node = nodeOf("parts", ref);
    if (!node) {
      refuse(`There is no part \`${ref}\` in the board file. Add it first.`);
      return;
    }
    const line = lineOf(file.text, node.span.start);
    if (isAlias(file, node) || !(isNull(node) || node.kind === "map")) {
      refuse(`\`${ref}\` in line ${line} is not written as \`{ device: … }\`. Write it so, then try again.`);
      return;
    }
    const patch = patchOf("parts", ref, node);
    const typed = patch.set.get(field) ?? fieldOf(node, field);
    if (field === "device") {
      if (typed === text) return;
      if (typed !== undefined && !isPlainField(file, node, field)) {
        refuse(
          `The device of \`${ref}\` in line ${line} is written in a way that cannot be replaced. Change it by hand.`,
        );
      } else patch.set.set(field, text);
      return;
    }
    const value = node.kind === "map" ? node.byKey.get("fits")?.value : undefined;
    if (value && !isNull(value) && (value.kind !== "list" || isAlias(file, value))) {
      refuse(
        `\`fits\` of \`${ref}\` in line ${line} is not written as a list, \`["7404"]\`. Write it so, then try again.`,
      );
      return;
    }
    const known = patch.append.get("fits") ?? [];
    if (!(typed ?? []).includes(text) && !known.includes(text)) patch.append.set("fits", [...known, text]);
  };

  for (const change of changes) {
    const entry = entryOf(change);
    if (entry) add(entry, change.kind === "expected" && change.replace === true);
  }
  // A part may be added and then have its device said, in whatever order that was asked for.
  for (const change of changes) {
    if (change.kind === "device") touch(change.ref, "device", change.device);
    else if (change.kind === "fits") touch(change.ref, "fits", change.part);
  }
  for (const patch of patches.values()) {
    for (const [field, value] of patch.set) {
      const typed = fieldOf(patch.node, field);
      if (typed !== undefined && shown(typed) === shown(value)) patch.set.delete(field);
    }
    if (patch.set.size + patch.append.size > 0) plan.patches.push(patch);
  }
  return plan;
}

/** Text on one line that one edit can replace. */
function isPlainField(file: BoardText, node: YamlNode, field: string): boolean {
  const value = node.kind === "map" ? node.byKey.get(field)?.value : undefined;
  if (value?.kind !== "scalar" || isAlias(file, value)) return false;
  const typed = file.text.slice(value.span.start, value.span.end);
  return !typed.includes("\n") && !/^[|>]/.test(typed);
}

function pinOwners(file: BoardText): Map<string, string> {
  const owners = new Map<string, string>();
  for (const [net, node] of entriesOf(file, "nets")) {
    if (node.kind !== "list") continue;
    for (const pin of textsOf(node)) if (!owners.has(pin)) owners.set(pin, net);
  }
  return owners;
}
