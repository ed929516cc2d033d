// The readings that could tell the candidates apart, with the minutes each takes.
import type { Net } from "../../knowledge/types";
import type { BoardModel, PartModel } from "./board-model";
import type { Conflict } from "./conflict";
import type { ReadNets } from "./read-nets";
import type { Suspect } from "./suspects";
import type { DiagnosisFinding } from "./types";

export type PossibleReading =
  | { readonly kind: "diode-check"; readonly part: PartModel; readonly pin: string; readonly net: Net }
  /** The same pin once more, where one reading alone speaks against it. */
  | {
      readonly kind: "read-again";
      readonly part: PartModel;
      readonly pin: string;
      readonly net: Net;
      readonly conflict: Conflict;
      /** It was read with the supplies on, and is read so again. */
      readonly live: boolean;
    }
  /** Pull a socketed chip, or lift the part's pin, and read the net again. */
  | {
      readonly kind: "pull" | "lift";
      readonly part: PartModel;
      readonly net: Net;
      readonly conflict: Conflict;
    }
  /** Powered, so only offered where the caller says that the supplies allow it. */
  | { readonly kind: "gate-states"; readonly part: PartModel; readonly gate: string };

/** Minutes at the bench. Common practice, no source. */
export const MINUTES: Readonly<Record<PossibleReading["kind"] | "table-again", number>> = {
  "diode-check": 0.25,
  "read-again": 0.25,
  pull: 1,
  lift: 4,
  "gate-states": 1,
  // A chip's pins, all of them.
  "table-again": 2,
};

export interface ReadingScope {
  readonly model: BoardModel;
  /** Likeliest first. */
  readonly suspects: readonly Suspect[];
  readonly conflicts: readonly Conflict[];
  readonly findings: readonly DiagnosisFinding[];
  readonly read: ReadNets;
  readonly powered: boolean;
  /** No further suspect is taken up once there are this many readings. */
  readonly most: number;
}

/** Kinds of parts whose pins have a usual drop to ground; a drop on a resistor or connector is its net's. */
const HAS_DROP: ReadonlySet<string> = new Set([
  "processor",
  "memory",
  "interface",
  "logic",
  "analog",
  "transistor",
  "diode",
]);

/** Each reading once, in the order of the suspects and their pins; none that has been taken. */
export function candidateReadings(scope: ReadingScope): PossibleReading[] {
  const { model, suspects, conflicts, findings, read, powered, most } = scope;
  const low = new Map<Net, Conflict>();
  const wrong = new Set<string>();
  for (const conflict of conflicts) {
    for (const finding of conflict.findings) {
      if (finding.kind === "chip")
        for (const pin of finding.pins) wrong.add(`${finding.ref}.${pin}`.toUpperCase());
      if (finding.kind !== "pin" || finding.powered) continue;
      wrong.add(`${finding.ref}.${finding.pin}`.toUpperCase());
      const net = model.netAt(finding.ref, finding.pin);
      if (net && finding.direction === "low" && !model.isSupply(net)) low.set(net, conflict);
    }
  }
  const found: PossibleReading[] = [];
  for (const conflict of conflicts) {
    const [only, second] = conflict.findings;
    // After two that differ a third decides; a fourth would be asked for by nobody.
    if (only?.kind !== "pin" || only.powered || only.alone || second || (conflict.contradicted ?? 0) > 2)
      continue;
    const part = model.part(only.ref);
    const net = model.netAt(only.ref, only.pin);
    const live = only.powered ?? false;
    if (part && net) found.push({ kind: "read-again", part, pin: only.pin, net, conflict, live });
  }
  const off = new Set(
    findings.flatMap((finding) =>
      finding.kind === "lift" && (finding.also ?? []).length === 0
        ? [`${finding.ref} ${finding.net}`.toUpperCase()]
        : [],
    ),
  );
  const seen = new Set<string>();
  const readPin = (part: PartModel, pin: string, net: Net): void => {
    const key = `${part.part.ref}.${pin}`.toUpperCase();
    if (seen.has(key) || wrong.has(key) || read.pins.has(key) || low.has(net) || !HAS_DROP.has(part.kind))
      return;
    seen.add(key);
    found.push({ kind: "diode-check", part, pin, net });
  };
  for (const suspect of suspects) {
    if (found.length >= most) break;
    if (suspect.kind === "track") {
      const net = model.board.nets.get(suspect.net);
      for (const { ref, pin } of net?.pins ?? []) {
        const part = model.part(ref);
        if (net && part) readPin(part, pin, net);
      }
    }
    const part = suspect.kind === "part" ? model.part(suspect.ref) : undefined;
    if (!part) continue;
    for (const { pin, net } of part.signalPins) readPin(part, pin, net);
    for (const net of new Set(part.signalPins.map((pin) => pin.net))) {
      const conflict = low.get(net);
      if (!conflict || part.kind === "connector" || part.kind === "test-point") continue;
      if (off.has(`${part.part.ref} ${net.name}`.toUpperCase())) continue;
      found.push({ kind: part.part.socketed ? "pull" : "lift", part, net, conflict });
    }
    for (const gate of powered ? (part.device?.gates ?? []) : []) {
      const key = `${part.part.ref}.${gate.name}`.toUpperCase();
      if (!read.gates.has(key) && !gateFound(findings, key))
        found.push({ kind: "gate-states", part, gate: gate.name });
    }
  }
  return found;
}

const gateFound = (findings: readonly DiagnosisFinding[], key: string): boolean =>
  findings.some(
    (finding) => finding.kind === "gate" && `${finding.ref}.${finding.gate}`.toUpperCase() === key,
  );
