// What was fitted, from the rows of work and the tables of parts fitted, which both tell of the same parts.
import { normalPart } from "../../knowledge/part-number";
import type { LogDocument } from "../../log/document";
import { workRows } from "../../log/timeline";

/** One part number that went in, with the places and the number of pieces. */
export interface Fitted {
  readonly part: string;
  /** In upper case. */
  readonly refs: readonly string[];
  readonly quantity: number;
}

/**
 * One line a part number, in the order of the log. A part fitted table counts pieces; rows of work add places that it
 * does not name, after filling up what it counts without a place.
 */
export function fittedParts(doc: LogDocument): Fitted[] {
  const lines = new Map<
    string,
    { part: string; listed: Set<string>; worked: Set<string>; pieces: number; loose: number }
  >();
  for (const row of workRows(doc)) {
    const { kind, part, action, refs, quantity } = row;
    if (!part) continue;
    if (kind === "work" && action !== "replace" && action !== "fit" && action !== "socket") continue;
    const key = normalPart(part.text);
    const line = lines.get(key) ?? {
      part: part.text,
      listed: new Set(),
      worked: new Set(),
      pieces: 0,
      loose: 0,
    };
    lines.set(key, line);
    if (kind === "work") {
      for (const ref of refs) line.worked.add(ref);
      if (refs.length === 0) line.loose += quantity ?? 1;
    } else {
      const count = quantity ?? Math.max(1, refs.length);
      line.pieces += count;
      for (const ref of refs) line.listed.add(ref);
    }
  }
  return [...lines.values()].map(({ part, listed, worked, pieces, loose }) => {
    const extra = [...worked].filter((ref) => !listed.has(ref)).length + loose;
    const spare = Math.max(0, pieces - listed.size);
    const refs = [...new Set([...listed, ...worked])].sort((a, b) =>
      a.localeCompare(b, "en", { numeric: true }),
    );
    return { part, refs, quantity: pieces + Math.max(0, extra - spare) };
  });
}
