import { type Span, touches } from "../../text/span";

/**
 * Of spans given from the smallest to the largest those that hold the offset and grow: each strictly inside the next.
 * Empty ones are left out, for there is nothing in them to select.
 */
export function nested(spans: readonly (Span | undefined)[], offset: number): Span[] {
  const kept: Span[] = [];
  for (const next of spans) {
    if (!next || next.end <= next.start || !touches(next, offset)) continue;
    const last = kept.at(-1);
    const holds = !last || (next.start <= last.start && next.end >= last.end);
    const grows = !last || next.end - next.start > last.end - last.start;
    if (holds && grows) kept.push(next);
  }
  return kept;
}
