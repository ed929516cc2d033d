// What a gate's output can do, given what was seen at its inputs. A pin seen at one level for as long as the probe
// was on it is constant; one seen pulsing takes both levels, at moments nobody recorded, so two pulsing inputs may
// move together or apart. The answer is every behaviour that some such course of the inputs produces, no more and
// no fewer: a recorded output outside it cannot be explained by its inputs.
import type { LogicState } from "../../quantity/words";
import type { InputTechnology } from "./technology";

export const GATE_FUNCTIONS = ["NOT", "BUFFER", "AND", "NAND", "OR", "NOR", "XOR", "XNOR"] as const;
export type GateFunction = (typeof GATE_FUNCTIONS)[number];

/** The function a device file names, whatever its case; undefined where it is none of the eight. */
export const gateFunction = (name: string): GateFunction | undefined =>
  GATE_FUNCTIONS.find((known) => known === name.trim().toUpperCase());

/** What is known of an input: what was recorded, or "unknown" where nothing was. */
export type Signal = LogicState | "unknown";

/** What a node does over time: stays high, stays low, or takes both levels. */
export type Behaviour = "high" | "low" | "pulsing";

const ORDER: readonly Behaviour[] = ["high", "low", "pulsing"];
const ANY: ReadonlySet<Behaviour> = new Set(ORDER);
const INVERTING: ReadonlySet<GateFunction> = new Set(["NOT", "NAND", "NOR", "XNOR"]);

/**
 * What an input may be doing. A floating TTL input reads as high (common practice, no source); a floating CMOS or
 * other input may read as anything.
 */
export function behavioursOf(signal: Signal, technology: InputTechnology): ReadonlySet<Behaviour> {
  if (signal === "floating") return technology === "ttl" ? new Set<Behaviour>(["high"]) : ANY;
  return signal === "unknown" ? ANY : new Set<Behaviour>([signal]);
}

/**
 * Every behaviour the gate's function allows at its output, in the order high, low, pulsing. Empty where the number
 * of inputs does not fit the function. Time grows with the number of inputs only in proportion.
 */
export function possibleOutputs(
  fn: GateFunction,
  inputs: readonly Signal[],
  technology: InputTechnology,
): readonly Behaviour[] {
  const single = fn === "NOT" || fn === "BUFFER";
  if (single ? inputs.length !== 1 : inputs.length < 1) return [];
  const sets = inputs.map((signal) => behavioursOf(signal, technology));
  const combine = COMBINE[fn];
  const first = sets[0] ?? ANY;
  const joined = sets.slice(1).reduce((a, b) => pairwise(a, b, combine), first);
  const result = INVERTING.has(fn) ? new Set([...joined].map(inverse)) : joined;
  return ORDER.filter((behaviour) => result.has(behaviour));
}

type Combine = (a: Behaviour, b: Behaviour) => readonly Behaviour[];

const inverse = (behaviour: Behaviour): Behaviour =>
  behaviour === "high" ? "low" : behaviour === "low" ? "high" : "pulsing";

/** Two pulsing inputs that are never high at once leave an AND low; they cannot hold it high. */
const and: Combine = (a, b) => {
  if (a === "low" || b === "low") return ["low"];
  if (a === "high") return [b];
  return b === "high" ? [a] : ["low", "pulsing"];
};

const or: Combine = (a, b) => and(inverse(a), inverse(b)).map(inverse);

/** Two pulsing inputs may be equal, opposite or neither. */
const xor: Combine = (a, b) => {
  if (a === "pulsing" && b === "pulsing") return ORDER;
  if (a === "low") return [b];
  if (b === "low") return [a];
  return a === "high" ? [inverse(b)] : [inverse(a)];
};

const COMBINE: Readonly<Record<GateFunction, Combine>> = {
  NOT: and,
  BUFFER: and,
  AND: and,
  NAND: and,
  OR: or,
  NOR: or,
  XOR: xor,
  XNOR: xor,
};

function pairwise(
  a: ReadonlySet<Behaviour>,
  b: ReadonlySet<Behaviour>,
  combine: Combine,
): ReadonlySet<Behaviour> {
  return new Set([...a].flatMap((x) => [...b].flatMap((y) => combine(x, y))));
}
