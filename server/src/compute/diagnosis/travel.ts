// Long, because the kinds that a cause travels to stand beside how it does.
// What a cause that one finding points to would do to the others: a function that fails may fail by the joints of its
// parts and by what is in the machine, and what a dead rail feeds does nothing right.
import type { BoardModel, PartModel } from "./board-model";
import { type Conflict, type Member, membersOf } from "./conflict";
import { loadedByShorts } from "./loaded";
import { ofLegs, openLegs } from "./open-legs";
import { isNear } from "./places";
import type { SignId } from "./strength";
import { partSuspect, type Suspect } from "./suspects";
import { BRIDGED_FUNCTION, symptomCauses } from "./symptom-causes";
import type { DiagnosisFinding, SignFinding } from "./types";

// Common practice, no source.
const TRAVEL = {
  /** What makes a rail that is wrong, for what hangs on it. */
  rail: 0.7,
  /** A part that measured wrong by itself, for the voltages and levels around it. */
  measured: 0.6,
  /** A joint that was found open, for the line that it is on. */
  onLine: 0.9,
  /** A part of the supply whose own voltages do not go together, for the rail that it makes. */
  stage: 0.5,
  /** A bridge that was found, for what either of its nets, or what stands on them, does wrong. */
  bridged: 0.6,
  /** The same for a function, and for the sum or the test of a memory. */
  bridgedFunction: BRIDGED_FUNCTION,
  /** What was cured by another part was that part, its socket or its contacts. */
  cured: 0.8,
  /** An open found beside a battery that leaks is what the leak did. */
  leaked: 0.5,
  /** What holds a net down with the power off, for what stands still or wrong by it with the power on. */
  heldDown: 0.5,
  /** What holds a net down, for the junctions that are measured across it. */
  across: 0.4,
} as const;
/** A joint that a finding at its own pin makes at least so likely was found open there. */
const FOUND = 0.45;

/** The conflicts with what the others name. */
export function travelled(model: BoardModel, conflicts: readonly Conflict[]): Conflict[] {
  const pointed = new Map<string, Suspect>();
  for (const { members, findings } of conflicts)
    for (const { suspect, weight } of members)
      if (
        suspect.kind === "joint" ||
        suspect.kind === "outside" ||
        (suspect.kind === "track" && weight > FOUND && findings.some(isRung)) ||
        (suspect.kind === "bridge" && weight > FOUND) ||
        // What was measured at a part that the drawing counts to another circuit fails this one all the same.
        (suspect.kind === "part" && weight > FOUND && findings.every(isMeasuredAt)) ||
        // One place of many that is dark or dead by itself: what is there explains a function of all of them as far.
        (suspect.kind === "part" && weight > FOUND && findings.some(isCrossing))
      )
        pointed.set(suspect.id, suspect);
  const cured = conflicts.flatMap(({ findings: [finding], members }) =>
    finding?.kind === "sign" && finding.sign === "swap-better" ? members : [],
  );
  const rails = conflicts.filter(({ findings: [finding] }) => isRail(finding) || isShorted(finding));
  const legs = openLegs(model, conflicts);
  const low = conflicts.flatMap(({ findings: [finding], members }) => {
    const net =
      finding?.kind === "pin" && finding.direction === "low" && !finding.powered
        ? model.netAt(finding.ref, finding.pin)
        : undefined;
    return net && !model.isSupply(net) ? [{ net, members }] : [];
  });
  const wrong = conflicts.flatMap(({ findings: [finding], members }) => {
    const part = finding?.kind === "part" && isMeasured(finding) ? model.part(finding.ref) : undefined;
    const own = members.find(({ suspect }) => suspect.kind === "part" && suspect.ref === part?.part.ref);
    if (finding?.kind === "sign" && finding.sign === "coil-line-short")
      return (finding.refs ?? []).flatMap((ref) => model.part(ref) ?? []);
    return part && own && own.weight > FOUND ? [part] : [];
  });
  if (pointed.size + rails.length + low.length + wrong.length + cured.length === 0) return [...conflicts];
  return conflicts.map((conflict) => {
    const [finding] = conflict.findings;
    if (!finding) return conflict;
    if (isRail(finding)) return loadedByShorts(model, ofItsStages(model, conflict, conflicts), conflicts);
    const more: Member[] = [];
    if (finding.kind === "symptom") more.push(...symptomCauses(model, conflict, pointed));
    if (FUNCTION.has(finding.kind === "sign" ? finding.sign : finding.kind))
      for (const { suspect, weight } of cured)
        if (suspect.kind === "part" || suspect.kind === "joint")
          more.push({ suspect, weight: weight * TRAVEL.cured });
    if (FUNCTION.has(finding.kind === "sign" ? finding.sign : finding.kind))
      for (const { suspect } of legs)
        if (suspect.kind === "joint" && isOnLine(model, finding, suspect))
          more.push({ suspect, weight: TRAVEL.onLine });
    if (finding.kind === "part" && finding.surface)
      for (const suspect of legs.map((leg) => leg.suspect))
        if (isBeside(model, finding.ref, suspect)) more.push({ suspect, weight: TRAVEL.leaked });
    more.push(...ofLegs(conflict, legs), ...ofBridges(model, conflict, pointed));
    if (finding.kind === "sign" && AROUND.has(finding.sign))
      for (const part of wrong)
        if (isAround(model, finding, part))
          more.push({ suspect: partSuspect(part.part.ref), weight: TRAVEL.measured });
    if (finding.kind === "sign" && AROUND.has(finding.sign))
      for (const { net, members } of low)
        if (conflict.members.some(({ suspect }) => suspect.kind === "track" && suspect.net === net.name))
          for (const { suspect } of members)
            if (suspect.kind === "part" || suspect.kind === "track")
              more.push({ suspect, weight: TRAVEL.heldDown });
    if (finding.kind === "part")
      for (const { net, members } of low)
        if (net.pins.some(({ ref }) => ref.toUpperCase() === finding.ref.toUpperCase()))
          for (const { suspect, weight } of members)
            if (suspect.kind === "part" || suspect.kind === "track")
              more.push({ suspect, weight: weight * TRAVEL.across });
    // What resistors, or a reference, make of a rail they make of whatever it reads.
    const isRatio =
      finding.kind === "sign" && (finding.sign === "divided" || finding.sign === "reference-off");
    for (const rail of isRatio || isUnpowered(finding) || isShorted(finding) ? [] : rails) {
      const net = netOf(model, rail);
      if (net !== undefined && isFed(model, finding, net))
        for (const { suspect, weight } of rail.members)
          if (suspect.kind !== "misreading" && suspect.kind !== "elsewhere")
            more.push({ suspect, weight: weight * TRAVEL.rail });
    }
    return more.length === 0 ? conflict : { ...conflict, members: membersOf(conflict.members, more) };
  });
}

const isMeasuredAt = (finding: DiagnosisFinding): boolean =>
  finding.kind === "gate" || (finding.kind === "sign" && OF_A_PART.has(finding.sign));

/** Kinds that say of one part that it does not do its work. */
const OF_A_PART: ReadonlySet<string> = new Set<SignId>([
  "chip-silent",
  "contradiction",
  "section-still",
  "stage",
]);

/** Kinds that say what stands at a node under power. */
const AROUND: ReadonlySet<string> = new Set<SignId>([
  "chip-silent",
  "clock-dead",
  "level",
  "level-between",
  "open-input",
  "reset-held",
  "section-still",
  "stage",
  "still",
  "still-beside",
]);

/** Kinds that say what the board does, and not what was read. */
const FUNCTION: ReadonlySet<string> = new Set<SignId | DiagnosisFinding["kind"]>([
  "symptom",
  "matrix-line",
  "output-wrong",
  "digit",
  "segment",
  "display-dark",
  "bar-dark",
  "crossing-dead",
  "test-code",
]);

/** The joint is on a net of the line that fails. */
function isOnLine(
  model: BoardModel,
  finding: DiagnosisFinding,
  { ref, pin }: Extract<Suspect, { kind: "joint" }>,
): boolean {
  const nets =
    finding.kind === "matrix-line" ? [finding.net] : finding.kind === "sign" ? (finding.nets ?? []) : [];
  const own = model.netAt(ref, pin)?.name;
  return own !== undefined && nets.includes(own);
}

/** A joint of a part that stands beside the one that leaked. */
function isBeside(model: BoardModel, ref: string, suspect: Suspect): boolean {
  const [leaking, part] = [ref, suspect.kind === "joint" ? suspect.ref : ""].map(
    (one) => model.part(one)?.part,
  );
  return leaking !== undefined && part !== undefined && leaking !== part && isNear(leaking, part);
}

const isMeasured = (finding: Extract<DiagnosisFinding, { kind: "part" }>): boolean =>
  finding.verdict === "out-of-limits" && !finding.surface && !/inspection$/.test(finding.of);

/** One of its pins is on a net where that was seen, or on another net of a transistor there. */
function isAround(model: BoardModel, finding: SignFinding, part: PartModel): boolean {
  const at = finding.pin === undefined ? undefined : model.netAt(finding.ref ?? "", finding.pin);
  const parts = [
    ...(finding.refs ?? []).flatMap((ref) => model.part(ref) ?? []),
    ...(at ? model.onNet(at).filter(({ kind }) => kind === "transistor") : []),
  ];
  const nets = [...(at ? [at] : []), ...parts.flatMap(({ signalPins }) => signalPins.map(({ net }) => net))];
  // A transistor that drives a transistor: what feeds the first is about the second.
  const drivers = finding.sign === "stage" ? nets.flatMap((net) => model.onNet(net)) : [];
  for (const { kind, signalPins } of drivers)
    if (kind === "transistor") nets.push(...signalPins.map(({ net }) => net));
  return part.signalPins.some(({ net }) => nets.includes(net));
}

/** Of a part of the circuit that makes a rail, whose voltages do not go together: the rail follows. */
function ofItsStages(model: BoardModel, conflict: Conflict, all: readonly Conflict[]): Conflict {
  const makers = conflict.members.filter(({ weight }) => weight >= MAKES);
  const circuits = new Set(
    makers.flatMap(({ suspect }) =>
      suspect.kind === "part" ? (model.part(suspect.ref)?.part.circuit ?? []) : [],
    ),
  );
  const more = all.flatMap(({ findings: [finding] }): Member[] => {
    const isStage =
      finding?.kind === "sign" && (finding.sign === "stage" || finding.sign === "reference-off");
    const [first] = isStage ? (finding.refs ?? []) : [];
    const part = first === undefined ? undefined : model.part(first);
    const circuit = part?.part.circuit;
    return part && circuit !== undefined && circuits.has(circuit)
      ? [{ suspect: partSuspect(part.part.ref), weight: TRAVEL.stage }]
      : [];
  });
  return more.length === 0 ? conflict : { ...conflict, members: membersOf(conflict.members, more) };
}

/** Of what makes a rail, from which a part counts as that. */
const MAKES = 0.3;

/** What was found with the power off, or on a tester, hangs on no rail. */
const isUnpowered = (finding: DiagnosisFinding): boolean =>
  isRung(finding) ||
  (finding.kind === "sign" && (finding.sign === "failed-alone" || finding.sign === "coil-diode"));

const isCrossing = (finding: DiagnosisFinding): boolean =>
  finding.kind === "sign" && finding.sign === "crossing-dead";

const isRung = (finding: DiagnosisFinding): boolean =>
  finding.kind === "sign" && (finding.sign === "continuity-open" || finding.sign === "continuity-short");

const isRail = (finding: DiagnosisFinding | undefined): boolean =>
  finding?.kind === "sign" && (finding.sign === "rail-wrong" || finding.sign.startsWith("ripple"));

/** What takes a rail down by itself does so to all that hangs on it. */
const isShorted = (finding: DiagnosisFinding | undefined): boolean =>
  finding?.kind === "sign" && (finding.sign === "rail-short" || finding.sign === "short-nearest");

function netOf(model: BoardModel, { findings: [finding] }: Conflict): string | undefined {
  return finding?.kind === "sign" ? model.board.rails.get(finding.rail ?? "")?.net : undefined;
}

/** What a net does wrong, it does by what joins it to another. */
function ofBridges(
  model: BoardModel,
  { members, findings: [finding] }: Conflict,
  pointed: ReadonlyMap<string, Suspect>,
): Member[] {
  if (!finding || finding.kind === "symptom" || finding.kind === "table" || finding.kind === "part")
    return [];
  const tracks = new Map(
    members.flatMap(({ suspect, weight }) =>
      suspect.kind === "track" ? [[suspect.net, weight] as const] : [],
    ),
  );
  const own = finding.kind === "pin" ? model.netAt(finding.ref, finding.pin)?.name : undefined;
  const isFunction = finding.kind === "sign" && OF_MEMORY.has(finding.sign);
  return [...pointed.values()].flatMap((suspect): Member[] => {
    if (suspect.kind !== "bridge" || members.some((one) => one.suspect.id === suspect.id)) return [];
    const isOn = suspect.nets.some((net) => net === own || (tracks.get(net) ?? 0) >= LEAST_TRACK);
    return isOn ? [{ suspect, weight: isFunction ? TRAVEL.bridgedFunction : TRAVEL.bridged }] : [];
  });
}

/** Of a track, from which a finding is of its net. */
const LEAST_TRACK = 0.03;

const OF_MEMORY: ReadonlySet<string> = new Set<SignId>([
  "address-group",
  "address-line",
  "memory-bank",
  "memory-bit-once",
  "memory-bits",
  "memory-chip",
  "rom-sum",
]);

/** Whether something that the finding is of hangs on the rail's net. What is read unpowered needs no rail. */
function isFed(model: BoardModel, finding: DiagnosisFinding, net: string): boolean {
  const parts = partsOf(model, finding);
  return parts.some(({ pins }) => pins.some((pin) => pin.net.name === net));
}

function partsOf(model: BoardModel, finding: DiagnosisFinding): readonly PartModel[] {
  const named = (refs: readonly string[]): PartModel[] => refs.flatMap((ref) => model.part(ref) ?? []);
  switch (finding.kind) {
    case "symptom": {
      const circuits = new Set(finding.circuits);
      return [...model.parts.values()].filter(
        ({ part }) => part.circuit !== undefined && circuits.has(part.circuit),
      );
    }
    case "gate":
      return named([finding.ref]);
    case "matrix-line":
      return onNets(model, [finding.net]);
    case "sign":
      return [
        ...named([...(finding.ref === undefined ? [] : [finding.ref]), ...(finding.refs ?? [])]),
        ...onNets(model, finding.nets ?? []),
      ];
    default:
      return [];
  }
}

const onNets = (model: BoardModel, names: readonly string[]): PartModel[] =>
  names.flatMap((name) => {
    const net = model.board.nets.get(name);
    return net ? model.onNet(net) : [];
  });
