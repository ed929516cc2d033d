import { isNull, type YamlNode } from "../../syntax/yaml";
import { type Fields, isFields } from "./entry";
import { fieldOf, isAlias, lineNumberOf } from "./open";
import { isPlainField, type Planning, patchOf } from "./planning";

/** The device of a part that is there, or that is about to be. */
export function planDevice(planning: Planning, ref: string, device: string): void {
  const { file } = planning;
  if (ofPlanned(planning, ref, (fields) => ({ ...fields, device }))) return;
  const node = partNode(planning, ref);
  if (!node) return;
  const patch = patchOf(planning, "parts", ref, node);
  const typed = patch.set.get("device") ?? fieldOf(node, "device");
  if (typed === device) return;
  if (typed === undefined || isPlainField(file, node, "device")) patch.set.set("device", device);
  else {
    refuse(
      planning,
      ref,
      `The device of \`${ref}\` in line ${lineNumberOf(file.text, node.span.start)} is written in a way that cannot be replaced. Change it by hand.`,
    );
  }
}

/** One more part number that may be fitted there. */
export function fitPart(planning: Planning, ref: string, part: string): void {
  const { file } = planning;
  const more = (list: readonly string[]) => (list.includes(part) ? list : [...list, part]);
  if (ofPlanned(planning, ref, (fields) => ({ ...fields, fits: more([fields.fits ?? []].flat()) }))) return;
  const node = partNode(planning, ref);
  if (!node) return;
  const value = node.kind === "map" ? node.byKey.get("fits")?.value : undefined;
  if (value && !isNull(value) && (value.kind !== "list" || isAlias(file, value))) {
    refuse(
      planning,
      ref,
      `\`fits\` of \`${ref}\` in line ${lineNumberOf(file.text, node.span.start)} is not written as a list, \`["7404"]\`. Write it so, then try again.`,
    );
    return;
  }
  const { append } = patchOf(planning, "parts", ref, node);
  const known = append.get("fits") ?? [];
  if (![...(fieldOf(node, "fits") ?? []), ...known].includes(part)) append.set("fits", [...known, part]);
}

/** True where the part is a new one of the plan, which then gets the fields. */
function ofPlanned({ plan, fresh }: Planning, ref: string, change: (fields: Fields) => Fields): boolean {
  const at = fresh.get(`parts ${ref}`);
  const planned = at === undefined ? undefined : plan.fresh[at];
  if (!planned || planned.guess || !isFields(planned.value)) return false;
  plan.fresh[at!] = { ...planned, value: change(planned.value) };
  return true;
}

/** The part as the file has it; where it has none that can be changed, that is told. */
function partNode(planning: Planning, ref: string): YamlNode | undefined {
  const { file } = planning;
  const node = planning.nodeOf("parts", ref);
  if (!node) refuse(planning, ref, `There is no part \`${ref}\` in the board file. Add it first.`);
  else if (isAlias(file, node) || !(isNull(node) || node.kind === "map")) {
    const line = lineNumberOf(file.text, node.span.start);
    refuse(
      planning,
      ref,
      `\`${ref}\` in line ${line} is not written as \`{ device: … }\`. Write it so, then try again.`,
    );
  } else return node;
  return undefined;
}

const refuse = ({ plan }: Planning, ref: string, reason: string): void => {
  plan.leftOut.push({ section: "parts", key: ref, reason });
};
