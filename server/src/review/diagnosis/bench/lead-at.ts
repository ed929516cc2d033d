// A table read with the lead on a point that the board has on ground, and that was found not to be: nothing that was read there
// is of the pins.

import type { Board } from "../../../knowledge/types";
import type { LogTable } from "../../../log/model";
import type { LocatedObservation } from "../observation";

const LEAD = /\b(?:clip|lead|black|common|com|ground|reference|against)\b/i;

/** The observations without those of such tables. */
export function withLeadOnGround(
  all: readonly LocatedObservation[],
  board: Board,
): readonly LocatedObservation[] {
  const open = all.flatMap(({ finding, phase }) =>
    finding?.kind === "sign" && finding.sign === "continuity-open"
      ? [...(finding.pins ?? []), ...(finding.others ?? [])].map((pin) => ({ ...pin, phase }))
      : [],
  );
  const astray = open.filter(({ ref, pin }) =>
    board.grounds.some((name) => board.nets.get(name)?.pins.some((at) => at.ref === ref && at.pin === pin)),
  );
  if (astray.length === 0) return all;
  const isOff = (table: LogTable | undefined, phase: number): boolean => {
    const heading = table?.section.heading?.text ?? "";
    return (
      table?.kind.observedAs === "pin-unpowered" &&
      LEAD.test(heading) &&
      astray.some((at) => at.phase === phase && names(heading, at.ref, at.pin))
    );
  };
  return all.filter(({ table, phase }) => !isOff(table, phase));
}

/** "J1 pin 4", "J1-4", "J1.4". */
const names = (text: string, ref: string, pin: string): boolean =>
  new RegExp(`\\b${ref}(?:,? pin |[-. ])${pin}\\b`, "i").test(text);
