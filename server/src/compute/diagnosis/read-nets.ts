import type { BoardModel } from "./board-model";
import { AGAINST, type AgainstId, type SignId } from "./strength";
import type { Against, DiagnosisInput, SeenLevel } from "./types";

/** What was read without disproving anything, ready to be looked up. */
export interface ReadNets {
  /** "U14.3" of every reading within limits, in capitals. */
  readonly pins: ReadonlySet<string>;
  /** How often each of them was, in capitals. */
  readonly times: ReadonlyMap<string, number>;
  /** Designators of parts that measured well by themselves, in capitals. */
  readonly measured: ReadonlySet<string>;
  /** Names of the nets they are on. */
  readonly nets: ReadonlySet<string>;
  /** "U14.A" of every gate that agreed with its truth table, in capitals. */
  readonly gates: ReadonlySet<string>;
  /** Designators of chips that passed a tester out of circuit, in capitals. */
  readonly passed: ReadonlySet<string>;
  /** States under power by net name, and the nets that stand as they should. */
  readonly levels: ReadonlyMap<string, SeenLevel["state"]>;
  readonly right: ReadonlySet<string>;
  /** Nets that were found to be no one node: what one end stands at says nothing of the other. */
  readonly split: ReadonlySet<string>;
  /** States by pin, "U14.3" in capitals. */
  readonly pinLevels: ReadonlyMap<string, SeenLevel["state"]>;
  /** Nets that a transistor which is on holds at its emitter. */
  readonly conducting: ReadonlySet<string>;
  readonly railsRight: ReadonlySet<string>;
  readonly railsCalm: ReadonlySet<string>;
  readonly railsNotShort: ReadonlySet<string>;
  /** What is left of a part's odds by what speaks against it, by designator in capitals. */
  readonly left: ReadonlyMap<string, number>;
  readonly against: readonly Against[];
}

const TOLD_BY_A_METER: ReadonlySet<string> = new Set(["resistor", "capacitor", "electrolytic"]);

const APART: ReadonlySet<SignId> = new Set<SignId>([
  "net-open",
  "volts-apart",
  "moves-apart",
  "continuity-open",
]);

export function readNets(
  model: BoardModel,
  {
    withinLimits: readings = [],
    gatesAgreeing = [],
    passedOutOfCircuit = [],
    levels: seen = [],
    conducting = [],
    against = [],
    railsRight = [],
    railsCalm = [],
    railsNotShort = [],
    findings = [],
  }: Pick<
    Partial<DiagnosisInput>,
    | "findings"
    | "withinLimits"
    | "gatesAgreeing"
    | "passedOutOfCircuit"
    | "levels"
    | "conducting"
    | "against"
    | "railsRight"
    | "railsCalm"
    | "railsNotShort"
  >,
): ReadNets {
  const pins = new Set(readings.map(({ ref, pin }) => `${ref.toUpperCase()}.${pin.toUpperCase()}`));
  const nets = new Set(
    readings.flatMap(({ ref, pin, across }) => (across ? [] : (model.netAt(ref, pin)?.name ?? []))),
  );
  const measured = new Set(readings.flatMap(({ ref, across }) => (across ? ref.toUpperCase() : [])));
  const gates = new Set(gatesAgreeing.map(({ ref, gate }) => `${ref}.${gate}`.toUpperCase()));
  const passed = new Set(passedOutOfCircuit.map((ref) => ref.toUpperCase()));
  const times = new Map<string, number>();
  // What was read across a part by itself says nothing of its pin against ground.
  for (const { ref, pin, across } of readings) {
    if (across) continue;
    const key = `${ref}.${pin}`.toUpperCase();
    times.set(key, (times.get(key) ?? 0) + 1);
  }
  const levels = new Map<string, SeenLevel["state"]>();
  const right = new Set<string>();
  const pinLevels = new Map<string, SeenLevel["state"]>();
  for (const level of seen) {
    pinLevels.set(`${level.ref}.${level.pin}`.toUpperCase(), level.state);
    const net = model.netAt(level.ref, level.pin);
    // A pin that floats says nothing of the rest of its net.
    if (!net || (level.state === "floating" && levels.has(net.name))) continue;
    levels.set(net.name, level.state);
    if (level.right) right.add(net.name);
  }
  const left = new Map<string, number>();
  for (const { ref, by } of against) {
    const key = ref.toUpperCase();
    left.set(key, Math.min(left.get(key) ?? 1, AGAINST[by].left));
  }
  // Of a chip or a transistor a meter sees too little.
  for (const ref of measured) {
    const kind = model.part(ref)?.kind;
    if (kind !== undefined && TOLD_BY_A_METER.has(kind))
      left.set(ref, Math.min(left.get(ref) ?? 1, AGAINST["measured-itself"].left));
  }
  // What makes a rail that is right or calm is the less likely for it.
  const makes = (rails: readonly string[], which: "reservoir" | "regulator", by: AgainstId): void => {
    for (const name of rails) {
      const maker = model.board.rails.get(name)?.[which]?.toUpperCase();
      if (maker !== undefined) left.set(maker, Math.min(left.get(maker) ?? 1, AGAINST[by].left));
    }
  };
  makes(railsCalm, "reservoir", "rail-calm");
  makes(railsRight, "regulator", "rail-right");
  return {
    pins,
    measured,
    times,
    nets,
    gates,
    passed,
    levels,
    pinLevels,
    right,
    split: new Set(
      findings.flatMap((one) =>
        one.kind === "net" ? one.net : one.kind === "sign" && APART.has(one.sign) ? (one.nets ?? []) : [],
      ),
    ),
    left,
    against,
    conducting: new Set(conducting.flatMap(({ ref, pin }) => model.netAt(ref, pin)?.name ?? [])),
    railsRight: new Set(railsRight),
    railsCalm: new Set(railsCalm),
    railsNotShort: new Set(railsNotShort),
  };
}
