// From findings to conflict sets: suspects of which at least one is to blame, with how well each explains it.
import { defined } from "../../base/defined";
import type { Steps } from "../../base/steps";
import type { BoardModel } from "./board-model";
import type { Conflict, LiftFinding, Member, PinFinding, PinGroup } from "./conflict";
import {
  gateConflict,
  matrixLineConflict,
  netConflict,
  partConflict,
  symptomConflict,
} from "./function-conflicts";
import { liftConflict, pinConflict, STILL_LOW_WITHOUT_IT } from "./pin-conflicts";
import type { ReadNets } from "./read-nets";
import { signConflict } from "./signs";
import { travelled } from "./travel";
import type { DiagnosisFinding, SignFinding } from "./types";
import { chipConflict, railConflict, tableConflict } from "./whole-conflicts";

export interface Conflicts {
  readonly conflicts: readonly Conflict[];
  /** Findings that say nothing about this board, each with the reason as a sentence. */
  readonly problems: readonly string[];
}

/**
 * Conflict sets of `findings`, in their order. A net that several pins show low is one conflict, since one fault
 * pulls it down for all; pins that read high or open are a conflict each. The chip measured weighs more than the
 * others on its net where the direction is not known or the reading is high.
 */
export function* conflictsOf(
  model: BoardModel,
  findings: readonly DiagnosisFinding[],
  read: ReadNets,
): Steps<Conflicts> {
  const conflicts: Conflict[] = [];
  const problems: string[] = [];
  const lifts = findings.filter((finding): finding is LiftFinding => finding.kind === "lift");
  const slips = new Map<string, Member[]>();
  for (const group of groupPins(model, findings, problems)) {
    yield;
    const uncleared = lifts.filter(
      ({ net, cleared }) => !cleared && group.net?.name === net && group.direction !== "high",
    );
    const contradicted = Math.max(
      ...group.readings.map(({ ref, pin, alone }) =>
        alone ? 0 : (read.times.get(`${ref}.${pin}`.toUpperCase()) ?? 0),
      ),
    );
    const netContradicted =
      contradicted === 0 &&
      group.direction === "low" &&
      group.net !== undefined &&
      read.nets.has(group.net.name);
    const { net } = group;
    const restRight =
      net !== undefined &&
      model.isSupply(net) &&
      net.pins.some(
        ({ ref, pin }) =>
          read.pins.has(`${ref}.${pin}`.toUpperCase()) &&
          !group.readings.some((one) => one.ref === ref && one.pin === pin),
      );
    const conflict = pinConflict(model, {
      ...group,
      restRight,
      measured: read.measured,
      uncleared,
      contradicted,
      netContradicted,
    });
    conflicts.push(conflict);
    if (group.net && group.direction !== "high" && !group.readings[0]?.alone) {
      const slip = conflict.members.filter(({ suspect }) => suspect.kind === "misreading");
      slips.set(group.net.name, [...(slips.get(group.net.name) ?? []), ...slip]);
    }
  }
  for (const finding of findings) {
    yield;
    const found = conflictOf(model, finding, slips, read, lifts);
    if (typeof found === "string") problems.push(found);
    else if (found) conflicts.push(found);
  }
  yield;
  return { conflicts: travelled(model, conflicts).map((one) => inSockets(model, one)), problems };
}

/** What is a joint for all that is soldered is a contact first for what stands in a socket. */
function inSockets(model: BoardModel, conflict: Conflict): Conflict {
  const isContact = ({ suspect }: Member): boolean =>
    suspect.kind === "joint" && model.part(suspect.ref)?.part.socketed === true;
  if (!conflict.members.some(isContact)) return conflict;
  return {
    ...conflict,
    members: conflict.members.map((member) =>
      member.suspect.kind === "joint" && isContact(member)
        ? { ...member, suspect: { ...member.suspect, contact: true as const } }
        : member,
    ),
  };
}

/** Of a finding that is no pin's: those are grouped by net first. */
function conflictOf(
  model: BoardModel,
  finding: DiagnosisFinding,
  slips: ReadonlyMap<string, readonly Member[]>,
  read: ReadNets,
  lifts: readonly LiftFinding[],
): Conflict | string | undefined {
  switch (finding.kind) {
    case "gate":
      return gateConflict(model, finding, read);
    case "net":
      return netConflict(model, finding);
    case "symptom":
      return symptomConflict(model, finding, read);
    case "part":
      return partConflict(model, finding, read);
    case "matrix-line":
      return matrixLineConflict(model, finding, read);
    case "lift":
      return liftConflict(model, finding, slips.get(finding.net) ?? []);
    case "table":
      return tableConflict(model, finding);
    case "chip":
      return chipConflict(model, finding, read);
    case "rail":
      return railConflict(model, finding);
    case "sign":
      return withoutLifted(model, signConflict(model, finding, read), finding, lifts);
    case "pin":
      return undefined;
  }
}

/** What was off a node that stayed where it was is hardly what holds it there. */
function withoutLifted(
  model: BoardModel,
  conflict: Conflict | string,
  { sign, rail, nets = [], ref, pin, refs = [], state }: SignFinding,
  lifts: readonly LiftFinding[],
): Conflict | string {
  const stayed = lifts.filter(({ cleared, leg }) => !cleared && !leg);
  if (typeof conflict === "string" || stayed.length === 0 || state === "high") return conflict;
  const at = ref !== undefined && pin !== undefined ? model.netAt(ref, pin)?.name : undefined;
  const railNet = rail === undefined ? undefined : model.board.rails.get(rail)?.net;
  const first = sign === "stage" ? model.part(refs[0] ?? "") : undefined;
  const around = first?.signalPins.map(({ net }) => net.name) ?? [];
  const own = new Set([...nets, ...around, ...(at ? [at] : []), ...(railNet ? [railNet] : [])]);
  const off = new Set(stayed.flatMap((lift) => (own.has(lift.net) ? lift.ref.toUpperCase() : [])));
  const holds = (one: string): boolean => {
    const kind = model.part(one)?.kind;
    return off.has(one.toUpperCase()) && kind !== "resistor" && kind !== "resistor-network";
  };
  return off.size === 0
    ? conflict
    : {
        ...conflict,
        members: conflict.members.map((one) =>
          one.suspect.kind === "part" && holds(one.suspect.ref)
            ? { ...one, weight: one.weight * STILL_LOW_WITHOUT_IT }
            : one,
        ),
      };
}

type Ungrouped = Omit<PinGroup, "measured" | "uncleared" | "contradicted" | "netContradicted" | "restRight">;

function groupPins(
  model: BoardModel,
  findings: readonly DiagnosisFinding[],
  problems: string[],
): Ungrouped[] {
  const groups = new Map<string, Ungrouped & { readings: PinFinding[] }>();
  for (const finding of findings) {
    if (finding.kind !== "pin") continue;
    if (!model.part(finding.ref)) {
      problems.push(
        `${finding.ref} is not a part of this board: the reading at its pin ${finding.pin} is left out.`,
      );
      continue;
    }
    const net = model.netAt(finding.ref, finding.pin);
    const { direction } = finding;
    const pin = `${finding.ref.toUpperCase()}.${finding.pin.toUpperCase()}`;
    const key = finding.alone
      ? `alone ${pin}`
      : net && direction === "low"
        ? `low ${net.name}`
        : `${direction ?? "off"} ${pin}`;
    const group = groups.get(key);
    if (group) group.readings.push(finding);
    else groups.set(key, defined({ net, direction, readings: [finding] }));
  }
  return [...groups.values()];
}
