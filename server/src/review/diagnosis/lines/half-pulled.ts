// Gates that are told to pull their output low and leave it where junctions behind it hold it, well above a low while their sisters
// pull: the output, or its joint. A meter shows such a level of a line that moves as well, so that a sister has to be seen low.

import { gateFunction, possibleOutputs } from "../../../compute/logic/gates";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { isMoving } from "../../../judge/moving";
import { type StatesOfChip, statesByRef } from "../../../judge/nets/block-nets";
import { pinName, testPointOf } from "../../../judge/test-point";
import type { Device } from "../../../knowledge/types";
import type { LogBlock, Reading } from "../../../log/model";
import type { Observation } from "../observation";

/** Above the first no output that pulls stands, and above the second it is no level in between any more; volts. Common practice, no source. */
const BETWEEN = { low: 0.8, high: 2.4 } as const;
type Gate = Device["gates"][number];

export function* halfPulled(block: LogBlock, ctx: LogContext): Iterable<Observation> {
  const between = heldBetween(block, ctx);
  if (between.size === 0) return;
  for (const [ref, chip] of statesByRef(block, ctx)) {
    const gates = chip.place.device?.gates ?? [];
    const pulls = gates.some((gate) => isToldLow(gate, chip) && outputAt(gate, chip) === "low");
    if (!pulls) continue;
    for (const gate of gates) {
      const [output] = gate.outputs;
      const reading = output === undefined ? undefined : between.get(`${ref}.${output}`);
      if (output === undefined || !reading || !isToldLow(gate, chip)) continue;
      yield {
        key: `gate ${ref} ${gate.name}`.toUpperCase(),
        what: `${ref} gate ${gate.name}`,
        table: reading.table,
        span: reading.cell.span,
        refs: [ref.toUpperCase()],
        finding: { kind: "gate", ref, gate: gate.name, pins: [...gate.inputs, output], steady: true },
      };
    }
  }
}

/** Readings that are no level, by chip and pin. */
function heldBetween(block: LogBlock, ctx: LogContext): ReadonlyMap<string, Reading> {
  const found = new Map<string, Reading>();
  for (const table of block.tables) {
    if (!table.kind.gates || table.pieces) continue;
    for (const reading of table.readings) {
      const volts = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
      if (!volts || volts.low < BETWEEN.low || volts.high > BETWEEN.high) continue;
      const place = isMoving(reading.subject.note?.text) ? undefined : testPointOf(reading.subject, ctx);
      const pin = place && pinName(place);
      if (place?.device && pin !== undefined) found.set(`${place.ref}.${pin}`, reading);
    }
  }
  return found;
}

const outputAt = ({ outputs: [output = ""] }: Gate, { states }: StatesOfChip) => states.get(output)?.state;

/** All its inputs stand where they ask for a low. */
function isToldLow(gate: Gate, { states }: StatesOfChip): boolean {
  const what = gateFunction(gate.function);
  const inputs = gate.inputs.map((pin) => states.get(pin)?.state);
  if (!what || inputs.some((state) => state !== "high" && state !== "low")) return false;
  const outputs = possibleOutputs(what, inputs as ("high" | "low")[], "ttl");
  return outputs.length === 1 && outputs[0] === "low";
}
