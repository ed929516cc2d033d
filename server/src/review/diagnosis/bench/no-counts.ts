// A table of frequencies of which every one is nothing, the processor's among them, while the processor or the board is seen to
// run: the counter or its lead, and no clock.

import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { partTestPoint } from "../../../judge/test-point";
import type { LogDocument } from "../../../log/document";
import type { LogTable } from "../../../log/model";
import type { LocatedObservation } from "../observation";
import { isSaidToRun } from "../words/running";

/** One place may be dead. */
const LEAST = 2;

/** The observations without those of such tables, and one finding for each in their place. */
export function withoutDeadCounter(
  all: readonly LocatedObservation[],
  { blocks }: LogDocument,
  { board, library }: LogContext,
): readonly LocatedObservation[] {
  const dead = all.filter(({ finding }) => finding?.kind === "sign" && finding.sign === "clock-dead");
  const tables = new Set(dead.flatMap(({ table }) => (table && countsNothing(table) ? table : [])));
  const isProcessor = (ref: string | undefined): boolean =>
    ref !== undefined && partTestPoint(ref, board?.value, library).device?.kind === "processor";
  const runs = (table: LogTable): boolean =>
    isSaidToRun(blocks, board?.value) ||
    all.some((one) => one.table !== table && one.level?.state === "pulsing" && isProcessor(one.level.ref));
  const wrong = [...tables].filter(
    (table) => table.readings.some(({ subject }) => isProcessor(subject.ref?.text)) && runs(table),
  );
  if (wrong.length === 0) return all;
  return [
    ...all.filter(({ table }) => table === undefined || !wrong.includes(table)),
    ...wrong.flatMap((table): LocatedObservation[] => {
      const first = dead.find((one) => one.table === table);
      const refs = [...new Set(table.readings.flatMap(({ subject }) => subject.ref?.text ?? []))];
      const of = `the frequencies of ${refs.join(", ")}`;
      if (!first) return [];
      return [
        {
          ...{
            key: `table ${of}`.toUpperCase(),
            what: of,
            table,
            span: first.span,
            phase: first.phase,
            refs: [],
          },
          finding: {
            kind: "table",
            refs,
            of,
            mistake: "the lead was off ground, or the counter on another range",
            says: `None of ${refs.join(", ")} counts, and the board runs.`,
            again: `Put the lead on the board's ground, try the counter on a clock that is known, and read ${refs[0]} again`,
          },
        },
      ];
    }),
  ];
}

const countsNothing = ({ readings }: LogTable): boolean => {
  const counts = readings.filter(
    ({ spec, value }) => spec.quantity === "frequency" && value.kind !== "empty",
  );
  return counts.length >= LEAST && counts.every(({ value }) => extentOf(value)?.high === 0);
};
