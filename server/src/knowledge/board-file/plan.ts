import { isNull, type YamlNode } from "../../syntax/yaml";
import type { BoardChange } from "./change";
import { joinedValues, merged, same, valueWords } from "./compare";
import { type BoardEntry, entryOf, type Fields, isList } from "./entry";
import { type BoardText, fieldOf, isAlias, nodeTexts } from "./open";
import { idOfEntry, isPlainField, type Plan, type Planning, patchOf, startPlan } from "./planning";
import { valueText } from "./render";
import { fitPart, planDevice } from "./touch";

/** Holds the changes against the file and against each other. */
export function planChanges(file: BoardText, changes: readonly BoardChange[]): Plan {
  const planning = startPlan(file);
  const { plan, patches } = planning;
  for (const change of changes) {
    const entry = entryOf(change);
    if (entry) add(planning, entry, change.kind === "expected" && change.replace === true);
  }
  // A part may be added and then have its device said, in whatever order that was asked for.
  for (const change of changes) {
    if (change.kind === "device") planDevice(planning, change.ref, change.device);
    else if (change.kind === "fits") fitPart(planning, change.ref, change.part);
  }
  for (const patch of patches.values()) {
    // Said to be another and then this one again.
    for (const [field, value] of patch.set) {
      const typed = fieldOf(patch.node, field);
      if (typed !== undefined && valueWords(typed) === valueWords(value)) patch.set.delete(field);
    }
    if (patch.set.size + patch.append.size > 0) plan.patches.push(patch);
  }
  return plan;
}

function add(planning: Planning, given: BoardEntry, replace: boolean): void {
  const { plan, fresh } = planning;
  const entry = ownPins(planning, given);
  if (isList(given.value) && given.value.length > 0 && entry.value.length === 0) return;
  const node = planning.nodeOf(entry.section, entry.key);
  const at = fresh.get(idOfEntry(entry));
  if (entry.guess && (node || at !== undefined)) return;
  if (node) meet(planning, node, entry, replace);
  else if (at === undefined) {
    fresh.set(idOfEntry(entry), plan.fresh.length);
    plan.fresh.push(entry);
  } else {
    const before = plan.fresh[at]!;
    plan.fresh[at] = before.guess || replace ? merged(before, entry) : joinedValues(before, entry, plan.kept);
  }
}

/** Leaves out pins that another net has: a pin is on one net only, and the one said first wins. */
function ownPins({ owners, plan }: Planning, entry: BoardEntry): BoardEntry {
  const { section, key, value } = entry;
  if (section !== "nets" || !isList(value) || entry.guess) return entry;
  const others = value.filter((pin) => (owners.get(pin) ?? key) !== key);
  for (const pin of value) if (!owners.has(pin)) owners.set(pin, key);
  if (others.length === 0) return entry;
  const differs = others.map((pin) => ({ field: pin, file: owners.get(pin)!, draft: key }));
  plan.kept.push({ section, key, differs });
  return { ...entry, value: value.filter((pin) => !others.includes(pin)) };
}

/** An entry that is there: what it lacks is added, what it says otherwise stays and is told. */
function meet(planning: Planning, node: YamlNode, entry: BoardEntry, replace: boolean): void {
  const { file, plan } = planning;
  const { section, key, value } = entry;
  if (section === "grounds") return;
  if (!isNull(node) && node.kind !== (isList(value) ? "list" : "map")) {
    const typed = file.text.slice(node.span.start, node.span.end);
    plan.kept.push({ section, key, differs: [{ field: "", file: typed, draft: valueText(value) }] });
  } else if (isList(value)) meetList(planning, node, entry, value);
  else meetFields(planning, node, entry, value as Fields, replace);
}

function meetList(planning: Planning, node: YamlNode, entry: BoardEntry, pins: readonly string[]): void {
  const { section, key, from } = entry;
  const patch = patchOf(planning, section, key, node);
  const typed = node.kind === "list" ? nodeTexts(node) : [];
  const known = new Set([...typed, ...(patch.append.get("") ?? [])]);
  const more = pins.filter((pin) => !known.has(pin));
  if (more.length === 0) return;
  if (isAlias(planning.file, node)) {
    const differs = [{ field: "pins", file: valueWords(typed), draft: more.join(", ") }];
    planning.plan.kept.push({ section, key, differs });
    return;
  }
  patch.append.set("", [...(patch.append.get("") ?? []), ...more]);
  if (from !== undefined) patch.from.add(from);
}

function meetFields(
  planning: Planning,
  node: YamlNode,
  { section, key, from }: BoardEntry,
  fields: Fields,
  replace: boolean,
): void {
  const { file, plan } = planning;
  const fixed = isAlias(file, node);
  const patch = patchOf(planning, section, key, node);
  const differs: { field: string; file: string; draft: string }[] = [];
  for (const [field, draft] of Object.entries(fields)) {
    const typed = patch.set.get(field) ?? fieldOf(node, field);
    if (typed !== undefined && same(typed, draft)) continue;
    if (!fixed && (typed === undefined || (replace && isPlainField(file, node, field)))) {
      patch.set.set(field, draft);
      if (from !== undefined) patch.from.add(from);
    } else differs.push({ field, file: valueWords(typed ?? ""), draft: valueWords(draft) });
  }
  if (differs.length > 0) plan.kept.push({ section, key, differs });
}
