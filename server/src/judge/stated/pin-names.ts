// Pins that a log calls by their names, E or VCC, under the numbers by which nets know them.
import type { Library } from "../../knowledge/library";
import type { Part } from "../../knowledge/types";
import type { LinkEnd } from "../../log/stated/statement";
import { resolvePin } from "../test-point";
import type { AttributedStatement } from "./types";

/** The device at a designator in whatever case; undefined where nobody has told its number. */
export type PartAt = (ref: string) => Pick<Part, "device"> | undefined;

/** Finds parts by designator, in any case. Of several with one designator the last that says its number counts. */
export const partLookup = (parts: Iterable<Pick<Part, "ref" | "device">>): PartAt => {
  const byRef = new Map<string, Pick<Part, "device">>();
  for (const part of parts) {
    const key = part.ref.toUpperCase();
    if (part.device !== undefined || !byRef.has(key)) byRef.set(key, part);
  }
  return (ref) => byRef.get(ref.toUpperCase());
};

/** The end by its pin's number; the very same where it has it, or where the device has no pin of that name. */
export function numberedEnd(end: LinkEnd, at: PartAt, library: Library): LinkEnd {
  if (!("ref" in end) || /^\d+$/.test(end.pin)) return end;
  const number = at(end.ref)?.device;
  const device = number === undefined ? undefined : library.device(number)?.device;
  const pin = device && resolvePin(device, end.pin)?.number;
  return pin === undefined || pin === end.pin ? end : { ref: end.ref, pin };
}

/** The same statements with the pins of all links by their numbers; the very same where they are. */
export function numbered(
  said: readonly AttributedStatement[],
  at: PartAt,
  library: Library,
): readonly AttributedStatement[] {
  let isSame = true;
  const all = said.map((one): AttributedStatement => {
    const { statement, by } = one;
    if (statement.kind !== "link") return one;
    const [from, to] = statement.ends;
    const ends = [numberedEnd(from, at, library), numberedEnd(to, at, library)] as const;
    if (ends[0] === from && ends[1] === to) return one;
    isSame = false;
    return { by, statement: { ...statement, ends } };
  });
  return isSame ? said : all;
}
