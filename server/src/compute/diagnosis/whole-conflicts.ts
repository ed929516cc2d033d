// Findings about more than one pin at a time: a table that was measured wrong, a chip as a whole, a rail.

import type { BoardModel } from "./board-model";
import { type Conflict, type Member, membersOf, trackMember } from "./conflict";
import { lowShare } from "./pin-model";
import type { ReadNets } from "./read-nets";
import { elsewhereSuspect, jointSuspect, misreadingSuspect, partSuspect, tableSuspect } from "./suspects";
import type { DiagnosisFinding } from "./types";

// How well a suspect explains what was seen. Common practice, no source.
const WEIGHT = {
  /** A chip out of its socket, or one whose ground is off: as good an explanation as a lead off ground, but rarer. */
  chipOfTable: 0.3,
  /** A chip the wrong way round in its socket reads as one that was counted from the wrong end. */
  turned: 0.8,
  /** Few faults open every pin of a chip. */
  chip: 0.4,
  /** The joint of a chip's own ground: nothing conducts. Of its supply: half of it does. Read right, hardly either. */
  groundJoint: 0.85,
  supplyJoint: 0.2,
  readRight: 0.05,
  maker: 0.6,
  /** What makes a rail may as well hold it down. */
  shortedMaker: 0.4,
  /** One part of the many that hang on a rail. */
  onRail: 0.25,
  track: 0.1,
} as const;

/** That a table was measured wrong, where nothing but that explains it as well. Common practice, no source. */
const TABLE_MISTAKE = 0.8;
/** The same where the chip is hot, as one that sits the wrong way round is and one that was counted wrong is not. */
const TURNED_MISTAKE = 0.004;
/** The same where the readings fit a chip that is dead as well. */
const CHIP_MISTAKE = 0.05;

type Of<K extends DiagnosisFinding["kind"]> = Extract<DiagnosisFinding, { kind: K }>;

/** One hypothesis for the whole table: it was measured or written wrong. */
export function tableConflict(model: BoardModel, finding: Of<"table">): Conflict {
  const chips = finding.orBoard || finding.turned ? finding.refs.flatMap((ref) => model.part(ref) ?? []) : [];
  return {
    members: membersOf(
      [
        {
          suspect: tableSuspect(finding.of, finding.mistake, finding.turned ? TURNED_MISTAKE : TABLE_MISTAKE),
          weight: 1,
        },
      ],
      // Several chips at once are not out of their sockets.
      chips.length === 1
        ? chips.map(({ part }) => ({
            suspect: partSuspect(part.ref),
            weight: finding.turned ? WEIGHT.turned : WEIGHT.chipOfTable,
          }))
        : [],
    ),
    reason: finding.says,
    findings: [finding],
  };
}

/** The chip, or what feeds it and seats it. */
export function chipConflict(model: BoardModel, finding: Of<"chip">, read: ReadNets): Conflict | string {
  const chip = model.part(finding.ref);
  if (!chip) return `${finding.ref} is not a part of this board: what its pins read together is left out.`;
  const { ref } = chip.part;
  return {
    members: membersOf(
      [{ suspect: partSuspect(ref), weight: WEIGHT.chip }],
      finding.power.map((pin) => {
        const isGround = chip.device?.pins.get(pin)?.direction === "ground";
        const weight = isGround ? WEIGHT.groundJoint : WEIGHT.supplyJoint;
        const isRead = read.pins.has(`${ref}.${pin}`.toUpperCase());
        return { suspect: jointSuspect(ref, pin), weight: isRead ? WEIGHT.readRight : weight };
      }),
      [{ suspect: misreadingSuspect(`the pins of ${ref}`, CHIP_MISTAKE), weight: 1 }],
    ),
    reason: finding.says,
    findings: [finding],
  };
}

/** What makes the rail and, where it is low, what is on its net: whatever circuit any of it belongs to. */
export function railConflict(model: BoardModel, finding: Of<"rail">): Conflict | string {
  const net = model.board.nets.get(finding.net);
  if (!net) return `${finding.net} is not a net of this board: what ${finding.rail} reads is left out.`;
  const { direction, powered } = finding;
  const makers: Member[] = finding.makers.flatMap((ref) => {
    const part = model.part(ref);
    const weight = powered ? WEIGHT.maker : direction === "low" ? WEIGHT.shortedMaker : 0;
    return part && weight > 0 ? [{ suspect: partSuspect(part.part.ref), weight }] : [];
  });
  const load: Member[] =
    direction === "high"
      ? []
      : model.onNet(net).map(({ part, kind }) => ({
          suspect: partSuspect(part.ref),
          weight: WEIGHT.onRail * lowShare(kind),
        }));
  return {
    members: membersOf(makers, load, trackMember(model, net, WEIGHT.track), [
      { suspect: elsewhereSuspect(finding.rail), weight: 1 },
    ]),
    reason: finding.says,
    findings: [finding],
  };
}
