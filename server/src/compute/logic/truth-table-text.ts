import type { TruthTable } from "../../knowledge/types";
import type { LogicState } from "../../quantity/words";
import type { Advice } from "../../text/saying";
import { otherMembers, pinText, someOf } from "../nets/net-text";
import { withDoubts } from "./doubts";
import type { Signal } from "./gates";
import type { TableContradiction, TableStates } from "./table-states";

/** Pins named in a message. */
const NAMED = 3;

interface Facts {
  readonly device: TableStates;
  readonly table: TruthTable;
  readonly first: { readonly pin: string; readonly state: LogicState };
  /** Outputs without which the first would not be contradicted. */
  readonly others: readonly { readonly pin: string; readonly state: LogicState }[];
  readonly possible: readonly LogicState[];
  /** Inputs that matter, as recorded. */
  readonly inputs: readonly { readonly pin: string; readonly state: Signal }[];
  readonly restsOnFloating: boolean;
}

/** The words of one contradiction: what was recorded, what the table allows, and what to do about it. */
export function explainTable(facts: Facts): TableContradiction {
  const { device, table, first, others, possible, inputs, restsOnFloating } = facts;
  const { ref, pinName } = device;
  const named = (pin: string): string => {
    const name = pinName?.(pin);
    return name === undefined ? `pin ${pin}` : `pin ${pin} (${name})`;
  };
  const short = (pin: string): string => pinName?.(pin) ?? `pin ${pin}`;
  const should = possible.length > 0 ? possible.join(" or ") : "none of these states";
  const given = [...inputs, ...others].map(({ pin, state }) => `${named(pin)} ${state}`);
  const gate = { name: table.name, function: table.name, inputs: table.inputs, outputs: table.outputs };
  const pins = [first.pin, ...others.map(({ pin }) => pin)];
  const alternatives = otherMembers(ref, pins, device.netMembers);
  const names = [...new Set(pins.flatMap((pin) => device.netName?.(pin) ?? []))];
  const net = names.length > 0 ? `, ${names.slice(0, 2).join(" or ")},` : "";
  const held = alternatives.length > 0 ? `On its net: ${someOf(alternatives.map(pinText), 12)}.` : undefined;
  const lift = `lift ${pins.length > 1 ? "the pins in turn" : `pin ${first.pin}`} and read again.`;
  const moves = [first, ...others, ...inputs].some(({ state }) => state === "pulsing");
  const advice: Advice =
    first.state === "floating"
      ? {
          cause: "The chip has no supply, or the output's joint or the chip is open.",
          step: "Check the chip's own supply and ground pins, then the output's joint.",
        }
      : {
          cause: `The chip is disproved, or another part of its net${net} holds ${pins.length > 1 ? "one of these outputs" : "this output"}.`,
          step: `Read the inputs again at the chip's own pins, then ${lift}`,
        };
  const circumstances = given.length > 0 ? `with ${someOf(given, NAMED)} ` : "";
  const arguments_ = [...inputs, ...others].map(({ pin, state }) => `${short(pin)} ${state}`).join(", ");
  return {
    gate,
    output: first.pin,
    outputs: pins,
    recorded: first.state,
    possible,
    inputs,
    verdict: restsOnFloating ? "suspect" : "out-of-limits",
    formula: `${table.name}(${arguments_}): ${short(first.pin)} = ${should}, recorded ${first.state}`,
    says: {
      fact: `${ref} ${named(first.pin)} is ${first.state}; ${circumstances}it can only be ${should}.`,
      ...withDoubts(advice, restsOnFloating, moves),
      more: [given.length > NAMED ? `Recorded: ${given.join(", ")}.` : undefined, held]
        .filter(Boolean)
        .join(" "),
    },
    alternatives,
    source: `truth table "${table.name}" of the device's file`,
  };
}
