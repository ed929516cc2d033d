// Recorded states of a device's pins against its gates. A contradiction is reported only where no course of the
// unknown and pulsing inputs explains the output.

import type { Gate, PinDirection, PinRef } from "../../knowledge/types";
import type { LogicState } from "../../quantity/words";
import type { Advice, Saying } from "../../text/saying";
import { otherMembers, pinText, someOf } from "../nets/net-text";
import { withDoubts } from "./doubts";
import { gateFunction, possibleOutputs, type Signal } from "./gates";
import { outputStage, visibleStates } from "./output-stage";
import type { InputTechnology } from "./technology";

export interface GateStates {
  /** The chip's designator, for the sentences: "U14". */
  readonly ref: string;
  readonly gates: readonly Gate[];
  readonly technology: InputTechnology;
  /** Recorded state by pin number; pins not read are left out. */
  readonly states: ReadonlyMap<string, LogicState>;
  readonly direction: (pin: string) => PinDirection | undefined;
  /** The members of the pin's net, where the board file gives them. */
  readonly netMembers?: (pin: string) => readonly PinRef[];
  /** The name of the pin's net, for the sentences. */
  readonly netName?: (pin: string) => string | undefined;
}

export interface Contradiction {
  readonly gate: Gate;
  /** Pin number of the output that cannot be what was recorded. */
  readonly output: string;
  readonly recorded: LogicState;
  /** What the output could have shown. */
  readonly possible: readonly LogicState[];
  readonly inputs: readonly { readonly pin: string; readonly state: Signal }[];
  /** "suspect" where it rests on a floating input being read as high. */
  readonly verdict: "out-of-limits" | "suspect";
  /** "NAND(high, low) = high, recorded low". */
  readonly formula: string;
  readonly says: Saying;
  /** What else on the net may hold the output, member by member; empty where the net is not known. */
  readonly alternatives: readonly PinRef[];
  readonly source: string;
}

export interface GateReview {
  readonly contradictions: readonly Contradiction[];
  /** Gates that could not be judged, with the reason as a sentence. */
  readonly unjudged: readonly { readonly gate: Gate; readonly reason: string }[];
}

/** Holds every gate's recorded output against its recorded inputs. */
export function reviewGates(device: GateStates): GateReview {
  const contradictions: Contradiction[] = [];
  const unjudged: { gate: Gate; reason: string }[] = [];
  for (const gate of device.gates) {
    const result = reviewGate(gate, device);
    if (typeof result === "string") unjudged.push({ gate, reason: result });
    else contradictions.push(...result);
  }
  return { contradictions, unjudged };
}

function reviewGate(gate: Gate, device: GateStates): string | Contradiction[] {
  const { states, technology } = device;
  const fn = gateFunction(gate.function);
  if (!fn) return `Gate ${gate.name} is a ${gate.function}, with no truth table here.`;
  const inputs = gate.inputs.map((pin) => ({ pin, state: states.get(pin) ?? ("unknown" as const) }));
  const behaviours = possibleOutputs(
    fn,
    inputs.map(({ state }) => state),
    technology,
  );
  if (behaviours.length === 0) {
    return `Gate ${gate.name} has ${inputs.length} inputs, which a ${fn} cannot have.`;
  }
  const read = gate.outputs.filter((pin) => states.has(pin));
  if (read.length === 0) return `The output of gate ${gate.name} was not read.`;
  const found: Contradiction[] = [];
  for (const output of read) {
    const stage = outputStage(device.direction(output));
    if (!stage) return `Pin ${output} of gate ${gate.name} is not an output in the device's file.`;
    const recorded = states.get(output)!;
    const visible = new Set(behaviours.flatMap((behaviour) => visibleStates(behaviour, stage)));
    if (visible.has(recorded)) continue;
    // Would it be explained if the floating inputs were anything at all?
    const relaxed = possibleOutputs(
      fn,
      inputs.map(({ state }) => (state === "floating" ? "unknown" : state)),
      "unknown",
    ).some((behaviour) => visibleStates(behaviour, stage).includes(recorded));
    found.push(explain(gate, output, recorded, [...visible], inputs, relaxed, device));
  }
  return found;
}

function explain(
  gate: Gate,
  output: string,
  recorded: LogicState,
  possible: readonly LogicState[],
  inputs: readonly { readonly pin: string; readonly state: Signal }[],
  restsOnFloating: boolean,
  device: GateStates,
): Contradiction {
  const { ref } = device;
  const seen = inputs.map(({ pin, state }) =>
    state === "unknown" ? `pin ${pin} not read` : `pin ${pin} ${state}`,
  );
  const should = possible.join(" or ");
  const alternatives = otherMembers(ref, [output], device.netMembers);
  const name = device.netName?.(output);
  const net = name === undefined ? "" : `, ${name},`;
  const others =
    alternatives.length > 0 ? `On its net: ${someOf(alternatives.map(pinText), 12)}.` : undefined;
  const advice: Advice =
    recorded === "floating"
      ? {
          cause: "The chip has no supply, or the output's joint or the chip is open.",
          step: "Check the chip's own supply and ground pins, then the output's joint.",
        }
      : {
          cause: `The gate is disproved, or another part of its net${net} holds it.`,
          step: `Lift pin ${output} and read it again.`,
          more: others,
        };
  const moves = recorded === "pulsing" || inputs.some(({ state }) => state === "pulsing");
  return {
    gate,
    output,
    recorded,
    possible,
    inputs,
    verdict: restsOnFloating ? "suspect" : "out-of-limits",
    formula: `${gate.function.toUpperCase()}(${inputs.map(({ state }) => state).join(", ")}) = ${should}, recorded ${recorded}`,
    says: {
      fact: `${ref} pin ${output} is ${recorded}; with ${someOf(seen, 3)} its ${gate.function.toUpperCase()} output can only be ${should}.`,
      ...withDoubts(advice, restsOnFloating, moves),
    },
    alternatives,
    source: `truth table of the ${gate.function.toUpperCase()}; pins by the device's file`,
  };
}
