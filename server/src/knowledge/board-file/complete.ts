import type { BoardSection } from "./change";
import { type BoardEntry, isFields, isList } from "./entry";
import { type BoardText, entriesOf, fieldOf } from "./open";
import type { Plan } from "./planning";

/** What an entry names that has to stand in the file too. */
interface Named {
  readonly section: BoardSection;
  readonly key: string;
}

/**
 * The bare entries that the plan's entries need beside them: a net's parts, a part's circuit, a rail's net. A
 * board file that names something it does not have is reported line by line, and whoever wrote the pin said that
 * the part is there. `because` are the entries that name it.
 */
export function bareEntries(file: BoardText, plan: Plan): { entry: BoardEntry; because: BoardEntry[] }[] {
  const bare = new Map<string, { entry: BoardEntry; because: BoardEntry[] }>();
  const known = new Map<BoardSection, ReadonlySet<string>>();
  const guessed = new Map<string, BoardEntry>();
  const written = new Set<string>();
  for (const entry of plan.fresh) {
    if (entry.guess) guessed.set(`${entry.section} ${entry.key}`, entry);
    else written.add(`${entry.section} ${entry.key}`);
  }
  const isThere = (section: BoardSection, key: string): boolean => {
    if (!known.has(section)) known.set(section, new Set(entriesOf(file, section).keys()));
    return known.get(section)!.has(key) || written.has(`${section} ${key}`);
  };
  for (const entry of [...plan.fresh.filter(({ guess }) => !guess), ...plan.patches.map(patched)]) {
    for (const { section, key } of namedBy(entry)) {
      if (isThere(section, key)) continue;
      const id = `${section} ${key}`;
      const before = bare.get(id);
      if (before) before.because.push(entry);
      else {
        const title = guessed.get(id)?.value;
        const value =
          section === "nets"
            ? []
            : section === "parts"
              ? {}
              : title && isFields(title)
                ? title
                : { title: inWords(key) };
        const from = entry.from === undefined ? {} : { from: entry.from };
        bare.set(id, { entry: { section, key, value, ...from }, because: [entry] });
      }
    }
  }
  return [...bare.values()];
}

/** What a patch brings, as an entry; of an expected reading all of it, as its ends have to fit each other. */
export function patched({ section, key, node, set, append, from }: Plan["patches"][number]): BoardEntry {
  const source = from.size > 0 ? { from: [...from].join("; ") } : {};
  const pins = append.get("");
  if (pins) return { section, key, value: pins, ...source };
  const typed = section === "expected" ? EXPECTED.map((field) => [field, fieldOf(node, field)] as const) : [];
  const known = Object.fromEntries(
    typed.flatMap(([field, text]) => (text === undefined ? [] : [[field, text]])),
  );
  return {
    section,
    key,
    value: { ...known, ...Object.fromEntries(append), ...Object.fromEntries(set) },
    ...source,
  };
}

const EXPECTED = ["procedure", "ref", "pin", "rail", "low", "high", "source"];

function namedBy({ section, value }: BoardEntry): Named[] {
  if (section === "grounds" && typeof value === "string") return [{ section: "nets", key: value }];
  if (isList(value)) {
    // A pin without its part is reported as no pin.
    return value.flatMap((pin): Named[] =>
      pin.indexOf(".") > 0 ? [{ section: "parts", key: pin.slice(0, pin.indexOf(".")) }] : [],
    );
  }
  if (!isFields(value)) return [];
  const to = (target: BoardSection, field: string): Named[] =>
    [value[field] ?? []].flat().map((key) => ({ section: target, key }));
  if (section === "rails") return to("nets", "net");
  if (section === "parts") return to("circuits", "circuit");
  if (section === "matrices") return [...to("nets", "rows"), ...to("nets", "columns")];
  return section === "expected" ? to("parts", "ref") : [];
}

/** `switch-matrix` is "Switch matrix". */
function inWords(id: string): string {
  const words = id.replace(/[-_.]+/g, " ").trim() || id;
  return words.charAt(0).toUpperCase() + words.slice(1);
}
