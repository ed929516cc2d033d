// The other places of what stands under the cursor: a part, a pin, a net or rail, a symptom of the front matter.
import { type Span, shift, touches } from "../../text/span";
import { type Occurrences, occurrencesIn } from "../shared/occurrences";
import type { Occurrence } from "../shared/occurrences/occurrence";
import type { LogView } from "../view";

export interface Highlight {
  /** Of the document. */
  readonly span: Span;
  /** "done": a reading was taken there or the part worked on; "named": it is only spoken of. */
  readonly kind: "done" | "named";
}

/** Every place of what the cursor touches, that one among them, in the log's order; undefined where it names nothing. */
export function highlightsAt(view: LogView, offset: number): readonly Highlight[] | undefined {
  const all = occurrencesIn(view);
  const wanted = keysAt(all, offset);
  if (wanted.size === 0) return undefined;
  const isWanted = ({ keys, tells }: Occurrence) =>
    keys.some((key) => wanted.has(key)) || tells.some((key) => wanted.has(key));
  return [
    ...all.front.filter(isWanted),
    ...all.blocks.flatMap(({ start, all: own }) =>
      own.filter(isWanted).map((each) => ({ ...each, span: shift(each.span, start) })),
    ),
  ].map(({ span, done }) => ({ span, kind: done ? "done" : "named" }));
}

function keysAt({ front, blocks }: Occurrences, offset: number): ReadonlySet<string> {
  const placed = blocks.findLast(({ start }) => start <= offset);
  const here =
    front.findLast(({ span }) => touches(span, offset)) ??
    placed?.all.findLast(({ span }) => touches(shift(span, placed.start), offset));
  return new Set(here?.keys);
}
