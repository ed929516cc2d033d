// Decoders that drive one output of many at a time: two steadily active together contradict the truth table, whatever the
// inputs were. An open collector may be pulled low by others, which leaves it a question.
import { memo } from "../../base/memo";
import type { TruthTable } from "../../knowledge/types";
import type { LogicState } from "../../quantity/words";
import { otherMembers, pinText, someOf } from "../nets/net-text";
import type { Contradiction } from "./contradictions";
import { outputStage } from "./output-stage";
import type { TableContradiction, TableStates } from "./table-states";

/** Fewer outputs than this are a flip-flop's or a selector's. */
const FEWEST = 4;

/** The level of the one output that a row drives apart from all others; undefined for tables of another kind. */
export const activeLevel: (table: TruthTable) => "high" | "low" | undefined = memo(find);

function find(table: TruthTable): "high" | "low" | undefined {
  if (table.outputs.length < FEWEST) return undefined;
  const counts = table.rows.flatMap(({ outputs }) => {
    // Held from before, or not judged: such a row says nothing of how many.
    if (outputs.some((cell) => cell.kind !== "value" || cell.letters !== 0)) return [];
    return [outputs.filter((cell) => cell.kind === "value" && cell.flip === 1).length];
  });
  const all = table.outputs.length;
  const fits = (least: number, one: number): boolean =>
    counts.filter((count) => count === one).length >= all - 1 &&
    counts.every((count) => count === one || count === least);
  if (fits(0, 1)) return "high";
  return fits(all, all - 1) ? "low" : undefined;
}

/** Two or more outputs of one table that are active together; undefined where it is none of these or fewer are. */
export function severalActive(table: TruthTable, device: TableStates): TableContradiction | undefined {
  const level = activeLevel(table);
  const active = table.outputs.filter((pin) => device.states.get(pin) === level);
  const [output] = active;
  if (level === undefined || output === undefined || active.length < 2) return undefined;
  const nets = new Set(active.map((pin) => device.netName?.(pin)));
  // Outputs that the board ties together are one line.
  if (nets.size === 1 && !nets.has(undefined)) return undefined;
  const { ref, pinName } = device;
  const named = active.map((pin) => {
    const name = pinName?.(pin);
    return name === undefined ? `pin ${pin}` : `pin ${pin} (${name})`;
  });
  const isOpen = active.some((pin) => {
    const stage = outputStage(device.direction(pin));
    return stage !== "push-pull";
  });
  const alternatives = otherMembers(ref, active, device.netMembers);
  const many = table.outputs.length;
  const together =
    named.length > 3
      ? `${named.length} outputs are ${level} together`
      : `${named.slice(0, -1).join(", ")} and ${named.at(-1)} are ${level} together`;
  const why = isOpen
    ? `Another part pulls one of these lines, they are shorted together, or the chip is at fault.`
    : "The lines are shorted together, or the chip is at fault.";
  const possible: LogicState[] = [level === "low" ? "high" : "low"];
  return {
    gate: { name: table.name, function: table.name, inputs: table.inputs, outputs: table.outputs },
    output,
    outputs: active,
    recorded: level,
    possible,
    inputs: [],
    verdict: isOpen ? "suspect" : "out-of-limits",
    formula: `${active.length} of ${many} outputs ${level}, at most 1`,
    says: {
      fact: `${ref} ${together}; this decoder has one of ${many} outputs ${level} at a time.`,
      cause: why,
      step: "Read them again in one go, then lift the pins in turn and read again.",
      more: alternatives.length > 0 ? `On these lines: ${someOf(alternatives.map(pinText), 12)}.` : undefined,
    },
    alternatives,
    source: `truth table "${table.name}" of the device's file`,
  };
}

/**
 * Contradictions with those of several active outputs in their place. Where the inputs already tell which of the active
 * ones is right, they say more than that there are too many.
 */
export function withSeveralActive(
  told: readonly (Contradiction | TableContradiction)[],
  device: TableStates,
): readonly (Contradiction | TableContradiction)[] {
  return device.tables.reduce((all, table) => {
    const found = severalActive(table, device);
    if (!found) return all;
    const pins = new Set(found.outputs);
    const own = all.filter((one) => outputsOf(one).every((pin) => pins.has(pin)));
    const byInputs = own.filter((one) => outputsOf(one).length === 1);
    if (byInputs.length > 0 && byInputs.length < pins.size) return all;
    return [...all.filter((one) => !own.includes(one)), found];
  }, told);
}

/** The output pins that contradict the function: one for a gate, one or several for a truth table. */
export const outputsOf = (one: Contradiction | TableContradiction): readonly string[] =>
  "outputs" in one ? one.outputs : [one.output];
