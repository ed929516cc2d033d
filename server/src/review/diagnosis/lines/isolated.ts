// A pin read with a chip pulled, a leg lifted or a track cut, as the diagnosis takes it.

import { defined } from "../../../base/defined";
import type { LiftFinding } from "../../../compute/diagnosis/conflict";
import type { DeviationSide, DiagnosisFinding } from "../../../compute/diagnosis/types";
import type { Judgement } from "../../../judge";
import type { IsolatedReading } from "../../../judge/nets/isolation";
import { pinName, testPointName } from "../../../judge/test-point";
import type { Observation } from "../observation";

/**
 * A reading with something off the net. One that fits speaks for what was off, one that does not against it; neither
 * is one of the whole net, so neither contradicts what the whole net read.
 */
export function isolatedPin(
  { reading, place, verdict }: Judgement,
  { alone, off, key, words }: IsolatedReading,
  unpowered: boolean,
  direction: DeviationSide | undefined,
): Observation | undefined {
  const pin = place && pinName(place);
  if (!place?.part || pin === undefined) return undefined;
  const { ref } = place.part;
  const net = place.tiedTo ? undefined : place.net?.name;
  const right = verdict === "within-limits";
  const [first, ...also] = off;
  const lift = (of: string, cleared: boolean, rest: Partial<LiftFinding>): LiftFinding[] =>
    net === undefined ? [] : [{ kind: "lift", ref: of, net, cleared, ...rest }];
  const lifts = alone
    ? right
      ? lift(ref, false, { leg: true })
      : []
    : first === undefined
      ? []
      : right
        ? lift(first, true, also.length > 0 ? { also } : {})
        : direction === "high"
          ? []
          : off.flatMap((of) => lift(of, false, {}));
  const ownOff = off.some((of) => of.toUpperCase() === ref.toUpperCase());
  // What read high at an empty socket may have had nothing left to conduct.
  const accuses = !right && !(ownOff && direction === "high");
  return defined({
    finding: accuses
      ? defined<DiagnosisFinding>({
          kind: "pin" as const,
          ref,
          pin,
          verdict:
            unpowered && verdict === "out-of-limits" ? ("out-of-limits" as const) : ("suspect" as const),
          direction,
          powered: unpowered ? undefined : true,
          alone: alone || undefined,
        })
      : undefined,
    lifts: lifts.length > 0 ? lifts : undefined,
    key: `${reading.table.procedure.id} ${ref}.${pin} ${reading.measure} ${key}`.toUpperCase(),
    what: `${testPointName(place)} ${words}`,
    table: reading.table,
    span: reading.cell.span,
    refs: [...new Set([ref, ...off].map((of) => of.toUpperCase()))],
    net: accuses && !alone && direction !== "high" && net !== undefined ? net : undefined,
  });
}
