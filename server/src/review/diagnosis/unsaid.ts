// What a log holds that nothing is suspected for: it was answered since, or it names no part of the board.

import type { NotCounted } from "../../compute/diagnosis/types";
import { judgeBlock } from "../../judge";
import type { LogContext } from "../../judge/context";
import { type LogDocument, tablesOf } from "../../log/document";
import type { LogTable, Reading } from "../../log/model";
import type { LocatedObservation } from "./observation";

/** Undefined where nothing failed at all, ever. */
export function notCounted(
  all: readonly LocatedObservation[],
  doc: LogDocument,
  ctx: LogContext,
): NotCounted | undefined {
  if (all.some(({ finding }) => finding)) return "answered";
  for (const { block, table } of tablesOf(doc))
    if (table.readings.some((reading) => failed(reading, table)) || isOutside(block, table, ctx))
      return "no-part";
  return undefined;
}

/** A word that says it did not work; what a swap came to is heard as such. */
const failed = ({ value }: Reading, { kind }: LogTable): boolean =>
  kind.holds !== "swaps" && value.kind === "result" && value.ok === false;

const isOutside = (block: Parameters<typeof judgeBlock>[0], table: LogTable, ctx: LogContext): boolean => {
  const judgements = judgeBlock(block, ctx);
  return table.readings.some((reading) => judgements.get(reading)?.verdict === "out-of-limits");
};
