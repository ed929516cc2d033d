// Whose word it is that a log's board has a part, a rail, a net or a matrix, and where it was said. Of what the board file
// tells there is nothing to say here.

import { type Origin, originOfPart, originOfWord } from "../../judge/stated/origin";
import { numberedEnd, partLookup } from "../../judge/stated/pin-names";
import type { SaidBy } from "../../judge/stated/types";
import { pinKey } from "../../knowledge/board-index";
import type { Net } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import { statementsOf } from "../../log/stated/of-block";
import type { LinkEnd, LocatedStatement } from "../../log/stated/statement";
import { type Markdown, markdown, md } from "../../text/markdown";
import { upperFirst } from "../../text/sentence";
import { type Span, shift, span } from "../../text/span";
import type { Target } from "../types";
import type { LogView } from "../view";

/** Where it was said that there is this part; undefined for one that the board file tells of, or nobody. */
export const originOf = ({ doc, ctx }: LogView, ref: string): Origin | undefined =>
  originOfPart(ref, doc, ctx);

/** Where it was said that there is this rail; undefined for one that the board file tells of, or nobody. */
export function originOfRail({ doc, ctx }: LogView, name: string): Origin | undefined {
  return origin(ctx.stated?.rails.get(name), doc, (one) => one.kind === "rail" && one.name === name);
}

/** Of one pin where it is given: why it is on its net; else why there is such a net at all. */
export function originOfNet({ doc, ctx }: LogView, net: Net, pin?: Net["pins"][number]): Origin | undefined {
  const pins = ctx.stated?.pins;
  const keys = new Set((pin ? [pin] : net.pins).map((at) => pinKey(at.ref, at.pin)));
  const by = [...keys].map((key) => pins?.get(key)).find((one) => one !== undefined);
  const at = partLookup(ctx.board?.value.parts.values() ?? []);
  const isEnd = (typed: LinkEnd): boolean => {
    const end = numberedEnd(typed, at, doc.library);
    return "ref" in end && keys.has(pinKey(end.ref, end.pin));
  };
  return origin(by, doc, (one) => one.kind === "link" && one.ends.some(isEnd));
}

export function originOfMatrix({ doc, ctx }: LogView, id: string): Origin | undefined {
  const kind = ctx.board?.value.matrices.get(id)?.kind;
  return origin(ctx.stated?.matrices.get(id), doc, (one) => one.kind === "matrix" && one.of === kind);
}

const origin = (
  by: SaidBy | undefined,
  doc: LogDocument,
  wanted: (one: LocatedStatement) => boolean,
): Origin | undefined => originOfWord(by, doc, () => firstPlace(doc, wanted));

function firstPlace(
  { blocks, library }: LogDocument,
  wanted: (one: LocatedStatement) => boolean,
): Span | undefined {
  for (const { start, block } of blocks) {
    const one = statementsOf(block, library).all.find(wanted);
    if (one) return shift(one.span, start);
  }
  return undefined;
}

/** Where to go for it: the words themselves, or the beginning of the other job's log. */
export const targetOfOrigin = ({ uri, span: at }: Origin): Target => ({ uri, span: at ?? span(0, 0) });

/** A line for a hover: "As this log says in line 12." */
export const saidLine = (from: Origin | undefined): Markdown[] =>
  from ? [markdown`*${md(upperFirst(from.words))}.*`] : [];
