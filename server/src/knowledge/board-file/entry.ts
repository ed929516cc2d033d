import { defined } from "../../base/defined";
import { SCHEMAS } from "../schema";
import type { BoardChange, BoardPlace, BoardSection } from "./change";
import type { DraftExpected, Learned } from "./draft";

/** Text by field, lists for the fields that are lists, in the order they are written in. */
export type Fields = Readonly<Record<string, string | readonly string[]>>;

/** One entry of a section as data: a ground's name, a net's pins, the fields of everything else. */
export interface BoardEntry extends BoardPlace {
  readonly value: string | readonly string[] | Fields;
  readonly from?: string;
  readonly guess?: true;
}

const WRITTEN: readonly BoardSection[] = [
  "grounds",
  "rails",
  "circuits",
  "parts",
  "nets",
  "matrices",
  "expected",
  "symptoms",
];

/** All top-level keys in the order in which a new section finds its place. */
export const KEY_ORDER: readonly string[] = Object.keys(SCHEMAS.board.properties ?? {});

export const SECTIONS: readonly BoardSection[] = WRITTEN.toSorted(
  (a, b) => KEY_ORDER.indexOf(a) - KEY_ORDER.indexOf(b),
);

/** Sections that are lists; the others are mappings of names. */
export const isListSection = (section: BoardSection): boolean =>
  section === "grounds" || section === "expected";

export const isList = (value: BoardEntry["value"]): value is readonly string[] => Array.isArray(value);

export const isFields = (value: BoardEntry["value"]): value is Fields =>
  typeof value === "object" && !isList(value);

/** What tells one expected reading from another: the procedure and the place. */
export const expectedKey = (place: Readonly<Record<string, string | undefined>>): string => {
  const { procedure = "", ref, pin, rail } = place;
  const at = ref === undefined ? (rail ?? "") : pin === undefined ? ref : `${ref}.${pin}`;
  // A rail and a part may have one name; only the rail is said to be one.
  return `${procedure} ${ref === undefined && rail !== undefined ? "rail " : ""}${at}`;
};

/** The entry that a change asks for; undefined for the changes of one field. */
export function entryOf(change: BoardChange): BoardEntry | undefined {
  switch (change.kind) {
    case "ground":
      return { section: "grounds", key: change.name, value: change.name };
    case "rail": {
      const { name, nominal, tolerance, ripple, net, source } = change.entry;
      return entry("rails", name, { nominal, tolerance, ripple, net, source }, change.entry);
    }
    case "circuit":
      return entry("circuits", change.entry.id, { title: change.entry.title }, change.entry);
    case "part": {
      const { ref, device, value, package: box, circuit, note } = change.entry;
      return entry("parts", ref, { device, value, package: box, circuit, note }, change.entry);
    }
    case "net":
      return {
        ...entry("nets", change.entry.name, {}, change.entry),
        value: [...new Set(change.entry.pins)],
      };
    case "matrix": {
      const { id, kind, title, rows, columns } = change.entry;
      return entry("matrices", id, { kind, title, rows, columns }, change.entry);
    }
    case "symptom":
      return entry("symptoms", change.entry.id, { title: change.entry.title }, change.entry);
    case "expected":
      return entry(
        "expected",
        expectedKey(expectedFields(change.entry)),
        expectedFields(change.entry),
        change.entry,
      );
    default:
      return undefined;
  }
}

const expectedFields = ({ procedure, ref, pin, rail, low, high, source }: DraftExpected) => ({
  procedure,
  ref,
  pin,
  rail,
  low,
  high,
  source,
});

function entry(
  section: BoardSection,
  key: string,
  fields: Readonly<Record<string, string | readonly string[] | undefined>>,
  { from, guess }: Learned,
): BoardEntry {
  const value: Record<string, string | readonly string[]> = {};
  for (const [field, given] of Object.entries(fields)) if (given !== undefined) value[field] = given;
  return defined({ section, key, value, from, guess });
}
