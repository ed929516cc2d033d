// What the experiments with powered parts have in common.
import type { Part } from "./board";
import { CHIPS } from "./chips";
import type { Deck, Results } from "./spice";

export interface Experiment<T> {
  readonly deck: Deck;
  read(results: Results): T;
}

/** Parts of these circuits, without their chips: what those do is written beside each experiment. */
export const within =
  (...circuits: string[]) =>
  ({ circuit, device }: Part): boolean =>
    circuit !== undefined && circuits.includes(circuit) && !(device !== undefined && device in CHIPS);

export const value = (results: Results, name: string): number => {
  const found = results.get(name);
  if (found === undefined) throw new Error(`ngspice gave no ${name}`);
  return found;
};
