// A table of frequencies of which every one is nothing, the processor's among them, while the processor or the board is seen to
// run: the counter or its lead, and no clock.

import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { partTestPoint } from "../../../judge/test-point";
import type { LogDocument } from "../../../log/document";
import type { LogTable } from "../../../log/model";
import type { LocatedObservation } from "../observation";
import { isSaidToRun } from "../words/running";
import { inPlaceOf } from "./whole-table";

/** One place may be dead. */
const LEAST = 2;

/** The observations without those of such tables, and one finding for each in their place. */
export function withoutDeadCounter(
  all: readonly LocatedObservation[],
  { blocks }: LogDocument,
  { board, library }: LogContext,
): readonly LocatedObservation[] {
  const dead = all.filter(({ finding }) => finding?.kind === "sign" && finding.sign === "clock-dead");
  const isProcessor = (ref: string | undefined): boolean =>
    ref !== undefined && partTestPoint(ref, board?.value, library).device?.kind === "processor";
  const runs = (table: LogTable): boolean =>
    isSaidToRun(blocks, board?.value) ||
    all.some((one) => one.table !== table && one.level?.state === "pulsing" && isProcessor(one.level.ref));
  const tables = new Map<LogTable, LocatedObservation>();
  for (const one of dead) {
    const { table } = one;
    if (!table || tables.has(table) || !countsNothing(table)) continue;
    const ofProcessor = table.readings.some(({ subject }) => isProcessor(subject.ref?.text));
    if (ofProcessor && runs(table)) tables.set(table, one);
  }
  return inPlaceOf(all, tables, (refs) => ({
    of: `the frequencies of ${refs.join(", ")}`,
    mistake: "the lead was off ground, or the counter on another range",
    says: `None of ${refs.join(", ")} counts, and the board runs.`,
    again: `Put the lead on the board's ground, try the counter on a clock that is known, and read ${refs[0]} again`,
  }));
}

const countsNothing = ({ readings }: LogTable): boolean => {
  const counts = readings.filter(
    ({ spec, value }) => spec.quantity === "frequency" && value.kind !== "empty",
  );
  return counts.length >= LEAST && counts.every(({ value }) => extentOf(value)?.high === 0);
};
