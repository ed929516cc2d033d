// Recorded states of a device's pins against its truth tables. At every moment some row holds, or the inputs are
// ones the table is silent about; a pin seen at one level was there at every moment, one seen pulsing was high at one
// and low at another. What no row allows is a contradiction: exact for one table, and never more than the table says.

import { memo } from "../../base/memo";
import {
  cellShows,
  type Demands,
  type Equation,
  inputEquations,
  solvable,
  uncovered,
} from "../../knowledge/truth-cover";
import type { TruthCell } from "../../knowledge/truth-row";
import type { PinDirection, TruthTable } from "../../knowledge/types";
import type { LogicState } from "../../quantity/words";
import { behavioursOf, type Signal } from "./gates";
import { type OutputStage, outputStage } from "./output-stage";
import type { TableContradiction, TableStates } from "./table-states";
import type { InputTechnology } from "./technology";
import { explainTable } from "./truth-table-text";

export interface TableReview {
  readonly contradictions: readonly TableContradiction[];
  /** Tables that could not be judged, with the reason as a sentence. */
  readonly unjudged: readonly { readonly table: TruthTable; readonly reason: string }[];
}

const STATES: readonly LogicState[] = ["high", "low", "pulsing", "floating"];

interface SeenInput {
  readonly pin: string;
  readonly state: Signal;
}

interface SeenOutput {
  readonly at: number;
  readonly pin: string;
  readonly stage: OutputStage;
  readonly state: LogicState;
}

/** Holds every table's recorded outputs against its recorded inputs. */
export function reviewTables(device: TableStates): TableReview {
  const contradictions: TableContradiction[] = [];
  const unjudged: { table: TruthTable; reason: string }[] = [];
  for (const table of device.tables) {
    const result = reviewTable(table, device);
    if (typeof result === "string") unjudged.push({ table, reason: result });
    else contradictions.push(...result);
  }
  return { contradictions, unjudged };
}

function reviewTable(table: TruthTable, device: TableStates): string | TableContradiction[] {
  const inputs = table.inputs.map((pin) => ({ pin, state: inputState(pin, device) }));
  const outputs = table.outputs.flatMap((pin, at): SeenOutput[] => {
    const state = device.states.get(pin);
    const stage = stageOf(device.direction(pin));
    return state === undefined || stage === undefined ? [] : [{ at, pin, stage, state }];
  });
  if (outputs.length === 0) return `No output of the ${table.name} was read.`;
  const allows = (seen: readonly SeenOutput[], given = inputs, technology = device.technology): boolean =>
    tableAllows(table, given, seen, technology);

  const alone = outputs.filter((output) => !allows([output]));
  const sets = alone.map((output) => [output]);
  const rest = outputs.filter((output) => !alone.includes(output));
  if (rest.length > 1 && !allows(rest)) {
    sets.push(
      rest.reduce((kept, output) => (allows(without(kept, output)) ? kept : without(kept, output)), rest),
    );
  }
  return sets.map((seen): TableContradiction => {
    // From the last, so that what enables the section, listed first, is kept where it is reason enough.
    const relevant = inputs.reduceRight((kept, input) => {
      const fewer = kept.map((other) =>
        other.pin === input.pin ? { ...other, state: "unknown" as const } : other,
      );
      return input.state === "unknown" || allows(seen, fewer) ? kept : fewer;
    }, inputs);
    const first = seen[0]!;
    const others = seen.slice(1);
    const possible = STATES.filter((state) => allows([{ ...first, state }, ...others], relevant));
    return explainTable({
      device,
      table,
      first,
      others,
      possible,
      inputs: relevant.filter(({ state }) => state !== "unknown"),
      restsOnFloating: allows(seen, inputs, "unknown"),
    });
  });
}

const without = <T>(list: readonly T[], item: T): T[] => list.filter((other) => other !== item);

/** An output pin that the table reads back cannot be taken as high for floating: its own stage drives it. */
function inputState(pin: string, { states, direction }: TableStates): Signal {
  const state = states.get(pin) ?? "unknown";
  return state === "floating" && direction(pin) !== "input" ? "unknown" : state;
}

/** A pin of both ways that its table makes an output is driven like any other there. */
const stageOf = (direction: PinDirection | undefined): OutputStage | undefined =>
  direction === "bidirectional" ? "push-pull" : outputStage(direction);

/** True where some course of the inputs and of what was held from before shows these states. */
function tableAllows(
  table: TruthTable,
  inputs: readonly SeenInput[],
  outputs: readonly SeenOutput[],
  technology: InputTechnology,
): boolean {
  const constant: Demands = inputs.map(({ state }) => {
    const can = behavioursOf(state, technology);
    return can.size > 1 || can.has("pulsing") ? undefined : can.has("high") ? 1 : 0;
  });
  const steady: Shown[] = outputs.flatMap(({ at, stage, state }) =>
    state === "high" || state === "low" ? [{ at, stage, state }] : [],
  );
  // Beside a moment as such, each pin that moves needs a moment at either level, and one that floats a moment of rest.
  const moving = inputs.flatMap(({ state }, at) =>
    state === "pulsing" ? ([1, 0] as const).map((level) => constant.with(at, level)) : [],
  );
  const changing = outputs.flatMap(({ at, stage, state }): Shown[] =>
    state === "pulsing"
      ? [
          { at, stage, state: "high" },
          { at, stage, state: "low" },
        ]
      : state === "floating"
        ? [{ at, stage, state }]
        : [],
  );
  return (
    moment(table, constant, steady) &&
    moving.every((demands) => moment(table, demands, steady)) &&
    changing.every((shown) => moment(table, constant, [...steady, shown]))
  );
}

interface Shown {
  readonly at: number;
  readonly stage: OutputStage;
  readonly state: "high" | "low" | "floating";
}

/** True where one moment can have these inputs and outputs. */
function moment(table: TruthTable, inputs: Demands, outputs: readonly Shown[]): boolean {
  const fits = table.rows.some((row) => {
    const asked: Equation[] = inputEquations(row, inputs);
    for (const { at, stage, state } of outputs) {
      const equation = shows(row.outputs[at] ?? { kind: "any" }, stage, state);
      if (equation === "never") return false;
      if (equation) asked.push(equation);
    }
    return solvable(asked);
  });
  return fits || (hasGaps(table) && uncovered(table.rows, inputs) !== undefined);
}

/** True where the table is silent about some inputs, or may be. */
const hasGaps = memo(
  ({ rows, inputs }: TruthTable): boolean =>
    uncovered(rows, Array<undefined>(inputs.length).fill(undefined)) !== undefined,
);

/** What a cell asks of its letters for its pin to show a state; undefined where it may show it in any case. */
function shows(cell: TruthCell, stage: OutputStage, state: Shown["state"]): Equation | "never" | undefined {
  if (cell.kind !== "value") return undefined;
  if (stage === "open-collector" || stage === "open-emitter") {
    // It pulls one way only: let go, the net is at whatever level the others and the resistor make, or at none.
    const letGo = stage === "open-collector" ? "high" : "low";
    if (state !== "floating" && state !== letGo) return undefined;
    return cellShows(cell, letGo === "high" ? 1 : 0);
  }
  return state === "floating" ? "never" : cellShows(cell, state === "high" ? 1 : 0);
}
