import type { BoardModel } from "./board-model";
import type { DiagnosisInput } from "./types";

/** What was read without disproving anything, ready to be looked up. */
export interface ReadNets {
  /** "U14.3" of every reading within limits, in capitals. */
  readonly pins: ReadonlySet<string>;
  /** Names of the nets they are on. */
  readonly nets: ReadonlySet<string>;
  /** "U14.A" of every gate that agreed with its truth table, in capitals. */
  readonly gates: ReadonlySet<string>;
}

export function readNets(
  model: BoardModel,
  { withinLimits: readings = [], gatesAgreeing = [] }: Pick<DiagnosisInput, "withinLimits" | "gatesAgreeing">,
): ReadNets {
  const pins = new Set(readings.map(({ ref, pin }) => `${ref.toUpperCase()}.${pin.toUpperCase()}`));
  const nets = new Set(readings.flatMap(({ ref, pin }) => model.netAt(ref, pin)?.name ?? []));
  const gates = new Set(gatesAgreeing.map(({ ref, gate }) => `${ref}.${gate}`.toUpperCase()));
  return { pins, nets, gates };
}
