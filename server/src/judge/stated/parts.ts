// The parts of a board with what the logs say of them.
import type { Library } from "../../knowledge/library";
import type { Part } from "../../knowledge/types";
import type { PartStated } from "../../log/stated/statement";
import type { AttributedStatement, Layer, SaidBy } from "./types";

/**
 * The first word on a part counts, before what was fitted later: it is what was read when most was read. Two files or
 * logs that call it by different numbers of one device in one family say the same.
 */
export function partsOf(
  known: ReadonlyMap<string, Part>,
  said: readonly AttributedStatement[],
  library: Library,
  hasFile: boolean,
): Layer<Part> {
  const by = new Map<string, SaidBy>();
  if (!said.some(({ statement }) => statement.kind === "part")) return { all: known, by };
  const all = new Map(known);
  const names = new Map([...known.keys()].map((ref) => [ref.toUpperCase(), ref]));
  for (const { stated, by: whose } of firstWords(said)) {
    const key = stated.ref.toUpperCase();
    const name = names.get(key) ?? stated.ref;
    const part = all.get(name);
    if (part && !differs(part, stated, library)) continue;
    // What was fitted where the file allows it, or where nothing else is known of the place.
    if (part && stated.by === "fitted" && (hasFile || part.device !== undefined)) continue;
    names.set(key, name);
    by.set(key, whose);
    all.set(name, merged(part, name, stated));
  }
  return { all, by };
}

function* firstWords(said: readonly AttributedStatement[]): Iterable<{ stated: PartStated; by: SaidBy }> {
  const parts = said.flatMap(({ statement, by }) =>
    statement.kind === "part" ? [{ stated: statement, by }] : [],
  );
  const first = new Map<string, { stated: PartStated; by: SaidBy }>();
  // The log's own words before those of other jobs, what was read before what was fitted.
  const ranked = [...parts].sort((a, b) => rank(a) - rank(b));
  for (const one of ranked) {
    const key = one.stated.ref.toUpperCase();
    const seen = first.get(key);
    if (!seen) first.set(key, one);
    // What the first word leaves open the later ones fill in.
    else first.set(key, { by: seen.by, stated: { ...one.stated, ...seen.stated } });
  }
  yield* first.values();
}

const rank = ({ stated, by }: { readonly stated: PartStated; readonly by: SaidBy }): number =>
  (by.by === "log" ? 0 : 3) + (stated.by === "fitted" ? 2 : stated.by === "prose" ? 1 : 0);

/** True where what the log says of a part is news. */
export function differs(
  part: Pick<Part, "device" | "value">,
  { device, value }: PartStated,
  library: Library,
): boolean {
  if (device === undefined)
    return part.device === undefined && value !== undefined && part.value === undefined;
  if (part.device === undefined) return true;
  return !sameNumber(part.device, device, library);
}

/** "7404" and "SN7404N" are one; 7404 and 74LS04 are not. */
export function sameNumber(a: string, b: string, library: Library): boolean {
  const one = library.device(a);
  const other = library.device(b);
  if (one && other) return one.device === other.device && one.family === other.family;
  return a.replace(/\s+/g, "").toUpperCase() === b.replace(/\s+/g, "").toUpperCase();
}

function merged(part: Part | undefined, ref: string, stated: PartStated): Part {
  const { device, value, package: body, circuit, note } = stated;
  const kept = part ?? { ref, fits: [], socketed: false };
  return {
    ...kept,
    ref,
    ...(device === undefined ? {} : { device }),
    ...(value === undefined ? {} : { value }),
    ...(body === undefined || kept.package !== undefined ? {} : { package: body }),
    ...(circuit === undefined || kept.circuit !== undefined ? {} : { circuit }),
    ...(note === undefined || kept.note !== undefined ? {} : { note }),
  };
}
