import type { Reading } from "../../log/model";

/**
 * Whether a reading says that it works. The words of the log decide results, the board file what a code means, the judgement
 * readings; everything else says neither.
 */
export function okOf({ spec, value, table }: Reading, verdict: string | undefined): boolean | undefined {
  const isCode = table.kind.judgedBy === "code";
  if (spec.role === "result" && !isCode) return value.kind === "result" ? value.ok : undefined;
  if (spec.role !== "reading" && spec.role !== "result") return undefined;
  if (verdict === "within-limits") return true;
  return verdict === "out-of-limits" || verdict === "impossible" ? false : undefined;
}
