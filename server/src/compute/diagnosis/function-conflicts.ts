import type { Net, PinRef } from "../../knowledge/types";
import { otherEnds, powerPins } from "./around";
import type { BoardModel, PartModel } from "./board-model";
import { type Conflict, type Member, MISTAKE, membersOf, trackMember } from "./conflict";
import { blew, FUSE } from "./fuses";
import { lowShare } from "./pin-model";
import type { ReadNets } from "./read-nets";
import { signConflict } from "./signs";
import { elsewhereSuspect, jointSuspect, misreadingSuspect, partSuspect } from "./suspects";
import type { DiagnosisFinding } from "./types";

// How well a suspect explains a function that fails. Common practice, no source.
const WEIGHT = {
  /** A part of the failing circuit itself. */
  circuit: 0.6,
  acrossRight: 0.1,
  /** Parts outside it that share a signal net with it, all of them together, against those inside. */
  neighbours: 0.15,
  track: 0.4,
  gate: 0.6,
  /** The joints that feed the chip, for a gate of it. */
  groundJoint: 0.75,
  supplyJoint: 0.3,
  holdsOutput: 0.15,
  moves: 0.1,
  /** A resistor in series holds nothing down. */
  resistorHolds: 0.2,
  /** A part that was itself measured or seen to be wrong. */
  itself: 0.7,
  /** What lies across it in circuit, against the part itself. */
  across: 0.15,
  /** A resistor does not fail low: something across it does; junctions of a chip now and then. */
  resistorLow: 0.03,
  acrossSmall: 0.8,
  acrossChip: 0.2,
  /** Leakage eats legs, contacts and tracks before it gets into a chip. */
  surface: 0.35,
  /** It was seen beneath the part, and not on it. */
  under: 0.03,
  surfaceJoint: 0.4,
  surfaceTrack: 0.35,
  splitTrack: 0.8,
  splitJoint: 0.5,
  /** Of that, for one among pins that agree where another stands apart. */
  splitAmong: 0.3,
  /** Hardly: two ends of sound copper read alike whatever stands on it. */
  splitPart: 0.02,
} as const;

type Of<K extends DiagnosisFinding["kind"]> = Extract<DiagnosisFinding, { kind: K }>;

/** A gate whose output cannot follow from its inputs: its chip, or what else is on the nets of its pins. */
export function gateConflict(model: BoardModel, finding: Of<"gate">, read: ReadNets): Conflict | string {
  const chip = model.part(finding.ref);
  if (!chip) return `${finding.ref} is not a part of this board: its gate ${finding.gate} is left out.`;
  const others: Member[] = [];
  const copper: Member[] = [];
  for (const pin of finding.pins) {
    const net = model.netAt(chip.part.ref, pin);
    if (!net || model.isSupply(net)) continue;
    // An input that moves is driven; what is wrong with it does not keep the output still.
    const moves =
      read.levels.get(net.name) === "pulsing" && chip.device?.pins.get(pin)?.direction === "input"
        ? WEIGHT.moves
        : 1;
    for (const other of model.onNet(net))
      others.push(
        ...parts(
          [other],
          WEIGHT.holdsOutput * moves * (other.kind === "resistor" ? WEIGHT.resistorHolds : 1),
        ),
      );
    copper.push(...trackMember(model, net, WEIGHT.holdsOutput * moves));
  }
  const place = `${chip.part.ref} gate ${finding.gate}`;
  return {
    members: membersOf(
      parts([chip], WEIGHT.gate),
      feeds(chip, read),
      others,
      copper,
      mistake(place, finding.steady ? MISTAKE.steadyGate : MISTAKE.gate),
    ),
    reason: `${place} contradicts its truth table at pins ${finding.pins.join(", ")}.`,
    findings: [finding],
  };
}

/** An open ground lifts all that the chip puts out, an open supply drops it. */
function feeds(chip: PartModel, read: ReadNets): Member[] {
  const { ground, supply } = powerPins(chip);
  const at = (pins: readonly string[], weight: number): Member[] =>
    pins.flatMap((pin) =>
      read.pins.has(`${chip.part.ref}.${pin}`.toUpperCase())
        ? []
        : [{ suspect: jointSuspect(chip.part.ref, pin), weight: weight / pins.length }],
    );
  return [...at(ground, WEIGHT.groundJoint), ...at(supply, WEIGHT.supplyJoint)];
}

/** Pins of one net that differ: its copper and joints first, then what stands on it. */
export function netConflict(model: BoardModel, finding: Of<"net">): Conflict | string {
  const net = model.board.nets.get(finding.net);
  if (!net) return `${finding.net} is not a net of this board: the disagreement along it is left out.`;
  const places = finding.pins.map(({ ref, pin }) => `${ref} pin ${pin}`).join(" and ");
  return {
    members: membersOf(
      trackMember(model, net, WEIGHT.splitTrack),
      finding.pins.map((at) => ({
        suspect: jointSuspect(at.ref, at.pin),
        weight: WEIGHT.splitJoint * (finding.apart && !isSame(finding.apart, at) ? WEIGHT.splitAmong : 1),
      })),
      parts(model.isSupply(net) ? named(model, finding) : model.onNet(net), WEIGHT.splitPart),
      mistake(`${net.name}`, MISTAKE.net),
    ),
    reason: `${places} are both on ${net.name} and read differently.`,
    findings: [finding],
  };
}

/** A part that measures wrong by itself: that part, or what shares two of its nets and so lies across it. */
export function partConflict(model: BoardModel, finding: Of<"part">, read: ReadNets): Conflict | string {
  const part = model.part(finding.ref);
  if (!part) return `${finding.ref} is not a part of this board: ${finding.of} is left out.`;
  const shared = new Map<PartModel, number>();
  for (const net of finding.direction === "low" ? model.board.nets.values() : []) {
    if (!net.pins.some(({ ref }) => ref.toUpperCase() === part.part.ref.toUpperCase())) continue;
    for (const other of model.onNet(net)) shared.set(other, (shared.get(other) ?? 0) + 1);
  }
  const signal = new Set(part.signalPins.flatMap(({ net }) => model.onNet(net)));
  const across = [...shared].filter(([other, nets]) => nets > 1 && other !== part && signal.has(other));
  const prior = isSpentCell(model, part, finding, read)
    ? MISTAKE.spentCell
    : finding.verdict === "suspect"
      ? MISTAKE.suspect
      : MISTAKE.outOfLimits;
  const isResistor = part.kind === "resistor" || part.kind === "resistor-network";
  const isShorted = isResistor && finding.direction === "low";
  const acrossIt = (kind: PartModel["kind"], pins: number): number =>
    !isShorted
      ? WEIGHT.across * lowShare(kind)
      : pins <= 3
        ? WEIGHT.acrossSmall * lowShare(kind)
        : WEIGHT.acrossChip;
  const own =
    part.kind === "fuse"
      ? FUSE.itself
      : isShorted
        ? WEIGHT.resistorLow
        : finding.surface
          ? finding.under
            ? WEIGHT.under
            : WEIGHT.surface
          : WEIGHT.itself;
  return {
    members: membersOf(
      parts([part], own),
      across.flatMap(([other]) => parts([other], acrossIt(other.kind, other.pins.length))),
      finding.surface ? surface(model, part) : [],
      part.kind === "fuse" ? blew(model, part, read) : [],
      mistake(finding.of, prior),
    ),
    reason: finding.says,
    findings: [finding],
  };
}

/** A cell that leaked, while the rail it keeps up is as it should be: what fails now is what it ran onto, or another cell is in. */
function isSpentCell(model: BoardModel, part: PartModel, { of }: Of<"part">, read: ReadNets): boolean {
  if (part.kind !== "battery" || !/inspection$/.test(of)) return false;
  const right = new Set([...read.railsRight].map((rail) => model.board.rails.get(rail)?.net));
  const near = part.pins.flatMap(({ net }) => (model.isGround(net) ? [] : [net, ...behind(model, net)]));
  return near.some(({ name }) => right.has(name));
}

/** What a net leads to through one resistor or diode. */
const behind = (model: BoardModel, net: Net): Net[] =>
  net.pins.flatMap(({ ref, pin }) => {
    const part = model.part(ref);
    const leads = part?.kind === "resistor" || part?.kind === "diode";
    return leads ? otherEnds(part, pin).map((end) => end.net) : [];
  });

/** Legs and tracks of a part that leakage got at; of a header they are the part. */
/** A capacitor across a rail that reads right is not shorted, and no function is lost for one that is open. */
const isAcrossRight = ({ board, ...model }: BoardModel, { kind, pins }: PartModel, read: ReadNets): boolean =>
  (kind === "capacitor" || kind === "electrolytic") &&
  pins.length > 0 &&
  pins.every(
    ({ net }) =>
      model.isGround(net) || [...read.railsRight].some((rail) => board.rails.get(rail)?.net === net.name),
  );

const surface = (model: BoardModel, part: PartModel): Member[] =>
  part.kind === "connector"
    ? []
    : part.pins.flatMap(({ pin, net }): Member[] => [
        { suspect: jointSuspect(part.part.ref, pin), weight: WEIGHT.surfaceJoint },
        ...trackMember(model, net, WEIGHT.surfaceTrack),
      ]);

/** A matrix line that never answers: what is on it, and what is behind the gate it goes through. */
export function matrixLineConflict(
  model: BoardModel,
  finding: Of<"matrix-line">,
  read: ReadNets,
): Conflict | string {
  if (!model.board.nets.has(finding.net))
    return `${finding.net} is not a net of this board: the dead line is left out.`;
  const says = `${finding.net} never answers in its matrix.`;
  const { net, outside } = finding;
  const sign = { kind: "sign", sign: "matrix-line", nets: [net], of: net, says } as const;
  const found = signConflict(model, outside === undefined ? sign : { ...sign, outside }, read);
  return typeof found === "string" ? found : { ...found, findings: [finding] };
}

/** A function that fails: the parts of its circuits, their tracks, and what shares a net with them. */
export function symptomConflict(
  model: BoardModel,
  finding: Of<"symptom">,
  read: ReadNets,
): Conflict | string {
  const circuits = new Set(finding.circuits);
  const inside = [...model.parts.values()].filter(
    ({ part }) => part.circuit !== undefined && circuits.has(part.circuit),
  );
  const title = model.board.symptoms.get(finding.symptom ?? "")?.title ?? finding.symptom ?? "the symptom";
  if (inside.length === 0) {
    return `No part of this board is in ${finding.circuits.join(", ") || "any circuit"}: "${title}" is left out.`;
  }
  const insiders = new Set(inside);
  const nets = new Set(inside.flatMap(({ signalPins }) => signalPins.map(({ net }) => net)));
  // A circuit on the bus has most of the board for neighbours, and is still the first place to look.
  const neighbours = [...new Set([...nets].flatMap((net) => model.onNet(net)))].filter(
    (p) => !insiders.has(p),
  );
  const few = Math.min(1, inside.length / Math.max(1, neighbours.length));
  return {
    members: membersOf(
      inside.flatMap((one) =>
        parts([one], WEIGHT.circuit * (isAcrossRight(model, one, read) ? WEIGHT.acrossRight : 1)),
      ),
      parts(neighbours, WEIGHT.circuit * WEIGHT.neighbours * few),
      [...nets].flatMap((net) => trackMember(model, net, WEIGHT.track)),
      [{ suspect: elsewhereSuspect(title), weight: 1 }],
    ),
    reason: `"${title}" points to ${finding.circuits.map((id) => model.board.circuits.get(id)?.title ?? id).join(", ")}.`,
    findings: [finding],
  };
}

const parts = (models: readonly PartModel[], weight: number): Member[] =>
  models.map(({ part }) => ({ suspect: partSuspect(part.ref), weight }));

const mistake = (of: string, prior: number): Member[] => [
  { suspect: misreadingSuspect(of, prior), weight: 1 },
];

const isSame = (one: PinRef, other: PinRef): boolean => one.ref === other.ref && one.pin === other.pin;

const named = (model: BoardModel, { pins }: Of<"net">): PartModel[] =>
  [...new Set(pins.map(({ ref }) => ref.toUpperCase()))].flatMap((ref) => model.part(ref) ?? []);
