import type { BoardModel } from "./board-model";
import type { DiagnosisInput } from "./types";

/** What was read without disproving anything, ready to be looked up. */
export interface ReadNets {
  /** "U14.3" of every reading within limits, in capitals. */
  readonly pins: ReadonlySet<string>;
  /** How often each of them was, in capitals. */
  readonly times: ReadonlyMap<string, number>;
  /** Names of the nets they are on. */
  readonly nets: ReadonlySet<string>;
  /** "U14.A" of every gate that agreed with its truth table, in capitals. */
  readonly gates: ReadonlySet<string>;
  /** Designators of chips that passed a tester out of circuit, in capitals. */
  readonly passed: ReadonlySet<string>;
}

export function readNets(
  model: BoardModel,
  {
    withinLimits: readings = [],
    gatesAgreeing = [],
    passedOutOfCircuit = [],
  }: Pick<DiagnosisInput, "withinLimits" | "gatesAgreeing" | "passedOutOfCircuit">,
): ReadNets {
  const pins = new Set(readings.map(({ ref, pin }) => `${ref.toUpperCase()}.${pin.toUpperCase()}`));
  const nets = new Set(readings.flatMap(({ ref, pin }) => model.netAt(ref, pin)?.name ?? []));
  const gates = new Set(gatesAgreeing.map(({ ref, gate }) => `${ref}.${gate}`.toUpperCase()));
  const passed = new Set(passedOutOfCircuit.map((ref) => ref.toUpperCase()));
  const times = new Map<string, number>();
  for (const { ref, pin } of readings) {
    const key = `${ref}.${pin}`.toUpperCase();
    times.set(key, (times.get(key) ?? 0) + 1);
  }
  return { pins, times, nets, gates, passed };
}
