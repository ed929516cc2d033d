// A log about several boards, as one view a board: each has its own sections, its own context and its own findings.

import type { Board } from "../knowledge/types";
import { sectionsOfSet } from "../log/boards-of-set";
import type { LogBlock } from "../log/model";
import type { Contextual } from "./context";
import type { Viewed } from "./open-logs";

type Whole = Omit<Viewed, "set" | "ctx" | "logBoard">;

/**
 * The views of the boards; undefined where the front matter names no set.
 * @param contextOf what a board's sections are judged against, made from the last one of the same board
 */
export function boardViews(
  { doc, front, ...rest }: Pick<Whole, "doc" | "front" | "knowledge" | "earlier">,
  contextOf: (doc: Viewed["doc"], front: Viewed["front"], last: Contextual | undefined) => Contextual,
  last: readonly Viewed[] | undefined,
): readonly Viewed[] | undefined {
  const { boards } = front;
  if (!boards) return undefined;
  const known = rest.knowledge.boards;
  const { logs } = sectionsOfSet(doc, boards);
  return logs.map((log) => {
    const own = ownSymptoms(
      log.frontMatter.value ?? {},
      boards.flatMap(({ board }) => known.get(board)?.value ?? []),
    );
    const before = last?.find((one) => one.doc.ofSet?.name === log.ofSet?.name);
    const of = { ...log, frontMatter: { ...log.frontMatter, value: own } } as Viewed["doc"];
    return { ...rest, ...contextOf(of, own, before), doc: of, front: own };
  });
}

/** A symptom that another board of the set knows and this one does not is the other's. */
function ownSymptoms(front: Viewed["front"], boards: readonly Board[]): Viewed["front"] {
  const { symptoms, board } = front;
  if (!symptoms) return front;
  const isKnown = ({ symptoms: known }: Board, id: string): boolean => known.has(id);
  const own = boards.find(({ id }) => id === board);
  const isOthers = (id: string): boolean =>
    !(own && isKnown(own, id)) && boards.some((one) => one !== own && isKnown(one, id));
  return symptoms.some(isOthers) ? { ...front, symptoms: symptoms.filter((id) => !isOthers(id)) } : front;
}

/**
 * What all of the log is judged against: the first board, and in the sections of the others each its own. The same object
 * for as long as the boards' own contexts are.
 */
export function wholeContext(
  set: readonly Viewed[],
  last: Viewed | undefined,
): Pick<Viewed, "ctx" | "logBoard" | "blocks"> {
  const of = new Map<LogBlock, Viewed["ctx"]>();
  for (const { doc, ctx } of set)
    for (const { block } of doc.blocks) of.set(block, ctx.later?.(block) ?? ctx);
  const [first] = set;
  const was = last?.set;
  if (last && was?.length === set.length && was.every(({ ctx }, at) => ctx === set[at]?.ctx) && last.blocks) {
    last.blocks.now = of;
    return { ctx: last.ctx, logBoard: undefined, blocks: last.blocks };
  }
  const blocks = { now: of };
  const { later: _later, ...ctx } = first!.ctx;
  return { ctx: { ...ctx, later: (block) => blocks.now.get(block) }, logBoard: undefined, blocks };
}
