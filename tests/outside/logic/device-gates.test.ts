// Every gate in the library, its pins and its function, against data sheets written down apart from it (from memory),
// through the same review that a log's readings go through: the states a sound part shows are never contradicted, and
// every wrong output is.
import { describe, expect, test } from "vitest";
import { readKind } from "../../../server/build/library.js";
import { reviewGates } from "../../../server/src/compute/logic/contradictions";
import { inputTechnology } from "../../../server/src/compute/logic/technology";
import type { Gate, PinDirection } from "../../../server/src/knowledge/types";
import type { LogicState } from "../../../server/src/quantity/words";
import { SHEET_PARTS } from "./data-sheet-gates";

interface DeviceFile {
  readonly id: string;
  readonly families: readonly string[];
  readonly pins: Readonly<Record<string, { readonly direction: PinDirection }>>;
  readonly gates?: readonly Gate[];
}

const GATED = readKind("devices")
  .map(({ data }) => data as DeviceFile)
  .filter((device) => device.gates !== undefined);

function review(device: DeviceFile, states: ReadonlyMap<string, LogicState>) {
  return reviewGates({
    ref: "U1",
    gates: device.gates ?? [],
    technology: inputTechnology(device.families[0]),
    states,
    direction: (pin) => device.pins[pin]?.direction,
  });
}

/** All rows of up to six inputs; of more, those with at most two bits apart from the rest. */
function rows(width: number): boolean[][] {
  if (width <= 6) {
    return Array.from({ length: 2 ** width }, (_, code) =>
      Array.from({ length: width }, (_bit, at) => ((code >> at) & 1) === 1),
    );
  }
  const pairs = Array.from({ length: width }, (_, a) =>
    Array.from({ length: a + 1 }, (_b, b) => [a, b]),
  ).flat();
  return [true, false].flatMap((rest) => [
    Array<boolean>(width).fill(rest),
    ...pairs.map((apart) => Array.from({ length: width }, (_, at) => (apart.includes(at) ? !rest : rest))),
  ]);
}

const state = (bit: boolean): LogicState => (bit ? "high" : "low");

describe("gates of the library against data sheets", () => {
  test("the same parts have gates", () => {
    expect(GATED.map(({ id }) => id).sort()).toEqual([...SHEET_PARTS.keys()].sort());
    expect(GATED.length).toBeGreaterThanOrEqual(55);
  });

  test.each(GATED.map((device) => [device.id, device] as const))("%s", (id, device) => {
    const sheet = SHEET_PARTS.get(id)!;
    const pins = (gates: readonly { inputs: readonly string[]; outputs: readonly string[] }[]) =>
      gates.map(({ inputs, outputs }) => `${[...inputs].sort().join(" ")} > ${outputs.join(" ")}`).sort();
    expect(pins(device.gates ?? [])).toEqual(
      pins(sheet.gates.map(({ inputs, output }) => ({ inputs, outputs: [output] }))),
    );
    for (const { inputs, output, gives } of sheet.gates) {
      expect(device.pins[output]?.direction, output).toBe(sheet.open ? "open-collector" : "output");
      for (const bits of rows(inputs.length)) {
        const driven = new Map(inputs.map((pin, at) => [pin, state(bits[at]!)] as const));
        const right = gives(bits);
        const seen = (outputState: LogicState) =>
          review(device, new Map([...driven, [output, outputState]])).contradictions.map(
            (found) => found.output,
          );
        expect(seen(state(right)), `${id} ${[...driven.values()].join(" ")}`).toEqual([]);
        // An open collector that lets go may be held low by another part.
        const excused = sheet.open && right;
        expect(seen(state(!right)), `${id} ${[...driven.values()].join(" ")}`).toEqual(
          excused ? [] : [output],
        );
      }
    }
  });

  test("every gate's unread inputs leave its output undecided unless one decides it", () => {
    for (const device of GATED) {
      const sheet = SHEET_PARTS.get(device.id)!;
      for (const { inputs, output, gives } of sheet.gates) {
        if (inputs.length < 2 || inputs.length > 6) continue;
        inputs.forEach((pin, known) => {
          for (const bit of [true, false]) {
            const values = new Set(
              rows(inputs.length)
                .filter((bits) => bits[known] === bit)
                .map(gives),
            );
            for (const claim of [true, false]) {
              const states = new Map([[pin, state(bit)] as const, [output, state(claim)] as const]);
              const contradicted = review(device, states).contradictions.length > 0;
              const excused = sheet.open && !claim;
              expect(contradicted, `${device.id} pin ${pin} ${bit}, pin ${output} ${claim}`).toBe(
                !values.has(claim) && !excused,
              );
            }
          }
        });
      }
    }
  });
});
