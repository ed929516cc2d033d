import { isNull, type YamlNode } from "../../syntax/yaml";
import { quantityOf } from "../quantity-rule";
import type { BoardChange, BoardSection, Kept, LeftOut } from "./change";
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
    const keep = (field: string, file: string, draft: string) =>
      plan.kept.push({ section, key, differs: [{ field, file, draft }] });
    if (isAlias(file, node) || !(isNull(node) || node.kind === (isList(value) ? "list" : "map"))) {
      keep("", file.text.slice(node.span.start, node.span.end), valueText(value));
      return;
    }
    const patch = patchOf(section, key, node);
    if (isList(value)) {
      const has = new Set(node.kind === "list" ? textsOf(node) : []);
      const known = patch.append.get("") ?? [];
      const more = value.filter((pin) => !has.has(pin) && !known.includes(pin));
      if (more.length > 0) patch.append.set("", [...known, ...more]);
      if (more.length > 0 && from !== undefined) patch.from.add(from);
      return;
    }
    const differs: { field: string; file: string; draft: string }[] = [];
    for (const [field, draft] of Object.entries(value as Fields)) {
      const typed = patch.set.get(field) ?? fieldOf(node, field);
      if (typed !== undefined && same(typed, draft)) continue;
      if (typed === undefined || (replace && isPlainField(file, node, field))) {
        patch.set.set(field, draft);
        if (from !== undefined) patch.from.add(from);
      } else differs.push({ field, file: shown(typed), draft: shown(draft) });
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
    if (change.kind === "device") touch(change.ref, "device", change.device);
    else if (change.kind === "fits") touch(change.ref, "fits", change.part);
    else add(entryOf(change)!, change.kind === "expected" && change.replace === true);
  }
  plan.patches.push(...[...patches.values()].filter(({ set, append }) => set.size + append.size > 0));
  return plan;
}

/** A new entry said twice: what the second one says more is taken over, what it says otherwise is told. */
function joined(first: Entry, second: Entry, kept: Kept[]): Entry {
  if (isList(first.value) && isList(second.value)) {
    return { ...first, value: [...new Set([...first.value, ...second.value])] };
  }
  if (!isFields(first.value) || !isFields(second.value)) return first;
  const before = first.value;
  const differs = Object.entries(second.value)
    .filter(([field, draft]) => before[field] !== undefined && !same(before[field], draft))
    .map(([field, draft]) => ({ field, file: shown(before[field]!), draft: shown(draft) }));
  if (differs.length > 0) kept.push({ section: first.section, key: first.key, differs });
  return { ...first, value: { ...second.value, ...before } };
}

/** The second wins: it is no guess, or it is said to replace. */
const merged = (first: Entry, second: Entry): Entry =>
  first.guess || !isFields(first.value) || !isFields(second.value)
    ? second
    : { ...second, value: { ...first.value, ...second.value } };

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

const shown = (value: string | readonly string[]): string =>
  typeof value === "string" ? value : value.join(", ");

/** The same however it is typed: `5 V` is `5.0V`, `74ls04` is `74LS04`. */
function same(a: string | readonly string[], b: string | readonly string[]): boolean {
  if (typeof a !== "string" || typeof b !== "string") return shown(a) === shown(b);
  const [first, second] = [quantityOf(a), quantityOf(b)];
  // A number without a unit may be a part number.
  if (first && second && first.dimension !== "count" && second.dimension !== "count") {
    return first.dimension === second.dimension && first.value === second.value;
  }
  return a.trim().toLowerCase() === b.trim().toLowerCase();
}
