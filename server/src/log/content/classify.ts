// What kind of table stands under a heading that does not say: what it holds tells, where it leaves no doubt.
import type { Library } from "../../knowledge/library";
import type { Procedure } from "../../knowledge/types";
import { KINDS } from "../kinds";
import type { TableContent } from "./table-content";

/** The procedure that a table follows by what it holds; undefined where none or two as likely ones fit. */
export function procedureByContent(told: TableContent, library: Library): Procedure | undefined {
  let best: { id: string; score: number; tied: boolean } | undefined;
  for (const { id, byContent } of KINDS) {
    const score = byContent?.(told) ?? 0;
    if (score === 0 || score < (best?.score ?? 0)) continue;
    best = { id, score, tied: score === best?.score };
  }
  return best && !best.tied ? library.procedure(best.id) : undefined;
}
