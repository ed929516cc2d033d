import { defined } from "../../../base/defined";
import type { DeviceMatch } from "../../../knowledge/library";
import { deviceMarkdown } from "../../shared/part-text";
import { derivedOf } from "../derived";
import type { Provider, Value } from "./provider";

/** Device texts are sent whole, so only for a list short enough to be looked through. */
const MAX_DOCUMENTED = 40;

/** Part numbers that begin with what is typed: the very one, those this file uses already, then the library's order. */
export const devices: Provider = ({ file, typed }) => {
  const { library } = file.knowledge;
  const { board, shop } = derivedOf(file);
  const used = new Set([
    ...[...(board?.parts.values() ?? [])].flatMap((part) => part.device ?? []),
    ...(shop ? onBoards(file.knowledge.boards.values()) : []),
  ]);
  const wanted = typed.toUpperCase();
  const offered = new Map<string, DeviceMatch>();
  const own = new Set<string>();
  for (const name of used) {
    const key = name.toUpperCase();
    const match = name !== typed && key.startsWith(wanted) ? library.device(name) : undefined;
    if (match) offered.set(key, { ...match, typed: name });
    if (match) own.add(key);
  }
  for (const match of library.devicesMatching(typed)) {
    const key = match.typed.toUpperCase();
    // Written as the file writes it, placed as the library has it.
    const before = offered.get(key);
    offered.delete(key);
    offered.set(key, before ?? match);
  }
  const first = (key: string) => (key === wanted ? 2 : own.has(key) ? 1 : 0);
  const ordered = [...offered].sort(([a], [b]) => first(b) - first(a)).map(([, match]) => match);
  const documented = ordered.length <= MAX_DOCUMENTED;
  return ordered.map((match): Value => {
    const { device, family, typed: label } = match;
    return defined({
      label,
      kind: "device",
      description: [device.title, family?.title, device.package.name, `${device.package.pins} pins`]
        .filter(Boolean)
        .join(" · "),
      documentation: documented ? deviceMarkdown(label, device, family, library) : undefined,
    });
  });
};

function onBoards(
  boards: Iterable<{ readonly value: { readonly parts: ReadonlyMap<string, { device?: string }> } }>,
) {
  return [...boards].flatMap(({ value }) => [...value.parts.values()].flatMap((part) => part.device ?? []));
}
