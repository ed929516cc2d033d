import type { DeviceMatch } from "../../../knowledge/library";
import { deviceMarkdown } from "../../hover/part";
import { derivedOf } from "../derived";
import type { Provider, Value } from "./values";

/** Device texts are sent whole, so only for a list short enough to be looked through. */
const MAX_DOCUMENTED = 40;

/** Part numbers: those this file uses already, then the library's that begin with what is typed. */
export const devices: Provider = ({ file, typed }) => {
  const { library } = file.knowledge;
  const { board, shop } = derivedOf(file);
  const used = new Set([
    ...[...(board?.parts.values() ?? [])].flatMap((part) => part.device ?? []),
    ...(shop ? onBoards(file.knowledge.boards.values()) : []),
  ]);
  const wanted = typed.toUpperCase();
  const offered = new Map<string, DeviceMatch>();
  for (const name of used) {
    const match = name !== typed && name.toUpperCase().startsWith(wanted) ? library.device(name) : undefined;
    if (match) offered.set(name.toUpperCase(), { ...match, typed: name });
  }
  for (const match of library.devicesMatching(typed)) {
    const key = match.typed.toUpperCase();
    if (!offered.has(key)) offered.set(key, match);
  }
  const documented = offered.size <= MAX_DOCUMENTED;
  return [...offered.values()].map((match): Value => {
    const { device, family, typed: label } = match;
    return {
      label,
      kind: "device",
      description: [device.title, family?.title, device.package.name, `${device.package.pins} pins`]
        .filter(Boolean)
        .join(" · "),
      ...(documented ? { documentation: deviceMarkdown(label, device, family) } : {}),
    };
  });
};

function onBoards(
  boards: Iterable<{ readonly value: { readonly parts: ReadonlyMap<string, { device?: string }> } }>,
) {
  return [...boards].flatMap(({ value }) => [...value.parts.values()].flatMap((part) => part.device ?? []));
}
