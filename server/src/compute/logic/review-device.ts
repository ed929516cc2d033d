// A whole device's recorded states against all that its file says of its function.

import { defined } from "../../base/defined";
import type { Device, PinRef } from "../../knowledge/types";
import type { LogicState } from "../../quantity/words";
import type { GateStates } from "./contradictions";
import { type Contradiction, reviewGates } from "./contradictions";
import type { TableContradiction } from "./table-states";
import { type InputTechnology, inputTechnology } from "./technology";
import { reviewTables } from "./truth-table";

export interface DeviceReviewOptions {
  /** The chip's designator, for the sentences: "U14". */
  readonly ref: string;
  /** Id of the family of the part that is fitted; the device's first where absent. */
  readonly family?: string;
  /** Overrides what the family says of floating inputs. */
  readonly technology?: InputTechnology;
  /** The members of the pin's net, where the board file gives them. */
  readonly netMembers?: (pin: string) => readonly PinRef[];
  /** The name of the pin's net, for the sentences. */
  readonly netName?: (pin: string) => string | undefined;
}

export interface DeviceReview {
  /** Those of gates first, then those of tables; an output contradicted by its gate is not told again by a table. */
  readonly contradictions: readonly (Contradiction | TableContradiction)[];
  /** Sections that could not be judged, with the reason as a sentence. */
  readonly unjudged: readonly { readonly section: string; readonly reason: string }[];
}

/**
 * Holds recorded states (by pin number, pins not read left out) against the device's gates and truth tables. A device
 * with neither gives an empty review: nothing is known here of what it should do.
 */
export function reviewDevice(
  device: Device,
  states: ReadonlyMap<string, LogicState>,
  options: DeviceReviewOptions,
): DeviceReview {
  const { ref, family = device.families[0], netMembers, netName } = options;
  const common = defined<Omit<GateStates, "gates">>({
    ref,
    technology: options.technology ?? inputTechnology(family),
    states,
    direction: (pin: string) => device.pins.get(pin)?.direction,
    netMembers,
    netName,
  });
  const gates = reviewGates({ ...common, gates: device.gates });
  const tables = reviewTables({
    ...common,
    tables: device.truthTables,
    pinName: (pin) => device.pins.get(pin)?.name,
  });
  const told = new Set(gates.contradictions.map(({ output }) => output));
  return {
    contradictions: [
      ...gates.contradictions,
      ...tables.contradictions.filter(({ outputs }) => !outputs.some((pin) => told.has(pin))),
    ],
    unjudged: [
      ...gates.unjudged.map(({ gate, reason }) => ({ section: gate.name, reason })),
      ...tables.unjudged.map(({ table, reason }) => ({ section: table.name, reason })),
    ],
  };
}
