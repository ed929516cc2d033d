import { memo } from "../../../base/memo";
import { type NamedReference, referencesOf } from "../../../knowledge/semantics";
import { pinRef } from "../../../knowledge/shape-board";
import type { YamlPath, YamlTree } from "../../../syntax/yaml";
import { byRef, partLine } from "../../shared/describe";
import type { KnowledgeFile } from "../../shared/knowledge-file";
import { derivedOf } from "../derived";
import { mapAt, nodeOf, type YamlCursor } from "../place";

interface Name {
  readonly name: string;
  readonly why: string;
}

/** Names of the writer's own that the file already uses or plainly lacks where names stand as keys. */
export function missingNames(file: KnowledgeFile, place: YamlCursor, path: YamlPath): readonly Name[] {
  const parent = place.where === "key" ? place.pattern.replace(/\/?[^/]*$/, "") : place.pattern;
  const handler = HANDLERS[`${file.kind}:${parent}`];
  if (handler) return handler(file, path);
  if (path.length !== 1) return [];
  const present = mapAt(file, path)?.byKey;
  const named = namedElsewhere(file, String(path[0])).filter(({ name }) => !present?.has(name));
  return named.length > 0 || file.kind !== "board" ? named : usual(file, String(path[0]));
}

/** Rails that boards of these years have: common practice, no source. */
const USUAL_RAILS = ["+5V", "+12V", "-5V", "-12V"];

/** What such a name usually is, so that an empty mapping is not begun with an empty list. */
function usual(file: KnowledgeFile, key: string): readonly Name[] {
  const present = (mapAt(file, [key])?.entries ?? []).map((entry) => entry.key);
  const not = (name: string) => !present.includes(name);
  if (key === "rails") return USUAL_RAILS.filter(not).map((name) => ({ name, why: "a usual rail" }));
  if (key === "nets") return ["GND", "VCC"].filter(not).map((name) => ({ name, why: "a usual net" }));
  if (key !== "parts") return [];
  return ["U", "R", "C", "Q", "D", "J"].map((letter) => {
    const numbers = present.flatMap((name) => new RegExp(`^${letter}(\\d{1,4})$`).exec(name)?.[1] ?? []);
    const next = Math.max(0, ...numbers.map(Number)) + 1;
    return { name: `${letter}${next}`, why: next === 1 ? "the first of its kind" : "the next of its kind" };
  });
}

const HANDLERS: Readonly<Record<string, (file: KnowledgeFile, path: YamlPath) => readonly Name[]>> = {
  "device:pins": pinNumbers,
  "board:codes": shownCodes,
  "board:switch-banks": banks,
  "board:switch-banks/*/settings/*/meaning": patterns,
};

const references = memo((tree: YamlTree, kind: KnowledgeFile["kind"]): readonly NamedReference[] =>
  referencesOf(kind, tree),
);

function namedElsewhere(file: KnowledgeFile, key: string): readonly Name[] {
  const uses = new Map<string, number>();
  for (const { kind, text } of references(file.tree, file.kind)) {
    const name = kind === key ? text : kind === "pin" && key === "parts" ? pinRef(text)?.ref : undefined;
    if (name !== undefined) uses.set(name, (uses.get(name) ?? 0) + 1);
  }
  return [...uses]
    .sort(([a], [b]) => byRef(a, b))
    .map(([name, count]) => ({
      name,
      why: `named in ${count} ${count === 1 ? "place" : "places"}, not yet here`,
    }));
}

/** Pins the package has and the list does not. */
function pinNumbers(file: KnowledgeFile, path: YamlPath): readonly Name[] {
  const count = nodeOf(file, ["package", "pins"]);
  const most = count?.kind === "scalar" ? Number(count.value) : 0;
  if (!(most >= 1 && most <= 100)) return [];
  const present = mapAt(file, path)?.byKey;
  return Array.from({ length: most }, (_, index) => String(index + 1))
    .filter((name) => !present?.has(name))
    .map((name) => ({ name, why: `pin ${name} of ${most}` }));
}

/** What symptoms say is shown, which a code may lead to parts from. */
function shownCodes(file: KnowledgeFile, path: YamlPath): readonly Name[] {
  const present = mapAt(file, path)?.byKey;
  const shown = new Map<string, string>();
  for (const { shows, title } of derivedOf(file).board?.symptoms.values() ?? [])
    if (shows !== undefined && !present?.has(shows)) shown.set(shows, `shown with "${title}"`);
  return [...shown].map(([name, why]) => ({ name, why }));
}

function banks(file: KnowledgeFile): readonly Name[] {
  const { board, ctx } = derivedOf(file);
  return [...(board?.parts.values() ?? [])]
    .filter((part) => /^D?SW?\d/i.test(part.ref))
    .sort((a, b) => byRef(a.ref, b.ref))
    .map((part) => ({ name: part.ref, why: board ? partLine(part, board, ctx) : "" }));
}

/** Every pattern of on and off for as many switches as the setting has; beyond four there are too many to read. */
function patterns(file: KnowledgeFile, path: YamlPath): readonly Name[] {
  const switches = nodeOf(file, [...path.slice(0, -1), "switches"]);
  const count = switches?.kind === "list" ? switches.items.length : 0;
  if (switches?.kind !== "list" || count < 1 || count > 4) return [];
  const numbers = switches.items.map((item) => (item.kind === "scalar" ? item.source : "?"));
  return Array.from({ length: 2 ** count }, (_, index) => {
    const name = index.toString(2).padStart(count, "0");
    const why = numbers.map((number, at) => `switch ${number} ${name[at] === "1" ? "on" : "off"}`).join(", ");
    return { name, why };
  });
}
