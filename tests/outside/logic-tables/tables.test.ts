// Every truth table of the library against what the part does by the meaning of its name (definitions.ts), through the
// same review that a log's readings go through: what a sound part shows is never contradicted, at rest or moving, and
// every wrong level is.
import { describe, expect, test } from "vitest";
import { reviewDevice } from "../../../server/src/compute/logic/review-device";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import { uncovered } from "../../../server/src/knowledge/truth-cover";
import type { Device } from "../../../server/src/knowledge/types";
import type { LogicState } from "../../../server/src/quantity/words";
import { DEFINITIONS } from "./all-definitions";
import type { Definition, Levels, Result } from "./definitions";

const TABLED = builtinLibrary().devices.filter((device) => device.truthTables.length > 0);
const CASES = TABLED.map((device) => [device.id, device] as const);

/** A generator of its own, so that every run draws the same. */
function draws(seed: number): () => number {
  let state = seed;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const STATES: readonly LogicState[] = ["high", "low", "pulsing", "floating"];
const state = (level: boolean): LogicState => (level ? "high" : "low");
const MOST = 2 ** 9;

/** Every combination of up to nine inputs; of more, drawn ones in which neighbours are often alike. */
function vectors(width: number, next: () => number): boolean[][] {
  if (2 ** width <= MOST) {
    return Array.from({ length: 2 ** width }, (_, code) =>
      Array.from({ length: width }, (_b, at) => Math.floor(code / 2 ** at) % 2 === 1),
    );
  }
  const half = width >> 1;
  return Array.from({ length: MOST }, (_, at) => {
    const drawn = Array.from({ length: width }, () => next() < 0.5);
    // Enable pins come first and mostly rest low; both halves alike for what compares them, or one bit apart.
    if (at % 2 === 0) drawn[0] = drawn[1] = false;
    if (at % 4 === 0) for (let k = 1; k <= half; k++) drawn[k + half] = drawn[k]!;
    if (at % 8 === 0) drawn[1 + half + (at % half)] = !drawn[1 + half + (at % half)];
    return drawn;
  });
}

function pinsOf(device: Device): (name: string) => string {
  const byName = new Map([...device.pins.values()].map(({ name, number }) => [name, number]));
  return (name) => {
    const pin = byName.get(name);
    if (pin === undefined) throw new Error(`${device.id} has no pin named ${name}`);
    return pin;
  };
}

const review = (device: Device, states: ReadonlyMap<string, LogicState>) =>
  reviewDevice(device, states, { ref: "U1" }).contradictions;

const levelsOf = (definition: Definition, bits: readonly boolean[]): Levels => {
  const at = new Map(definition.inputs.map((name, index) => [name, bits[index]!]));
  return (name) => {
    const level = at.get(name);
    if (level === undefined) throw new Error(`no input ${name}`);
    return level;
  };
};

/** States of the inputs; one that the part itself drives is where it drives it. */
function givenPins(
  definition: Definition,
  at: Levels,
  pin: (name: string) => string,
): [string, LogicState][] {
  const results = definition.outputs(at);
  return definition.inputs.map((name) => {
    const own = results[name];
    return [pin(name), state(typeof own === "boolean" ? own : at(name))];
  });
}

/** A level for each output of one moment: what it must be, or a drawn one, opposite where it has to be. */
function shown(definition: Definition, at: Levels, next: () => number): Map<string, boolean> {
  const opposite = definition.opposite?.(at) ?? [];
  const out = new Map<string, boolean>();
  for (const [name, result] of Object.entries(definition.outputs(at))) {
    const partner = opposite.find((pair) => pair[1] === name)?.[0];
    const level = typeof result === "boolean" ? result : partner ? !out.get(partner) : next() < 0.5;
    out.set(name, level);
  }
  return out;
}

describe("truth tables against what the parts do", () => {
  let compared = 0;

  test("the same parts have tables, and as many as claimed", () => {
    expect(TABLED.map(({ id }) => id).sort()).toEqual([...DEFINITIONS.keys()].sort());
    expect(TABLED.length).toBeGreaterThanOrEqual(130);
    expect(TABLED.reduce((sum, { truthTables }) => sum + truthTables.length, 0)).toBeGreaterThanOrEqual(200);
  });

  test.each(CASES)("%s", (id, device) => {
    const pin = pinsOf(device);
    const next = draws(Number.parseInt(id, 36));
    for (const definition of DEFINITIONS.get(id)!) {
      for (const bits of vectors(definition.inputs.length, next)) {
        const at = levelsOf(definition, bits);
        const what = `${id} ${definition.inputs.map((name) => `${name}=${at(name) ? 1 : 0}`).join(" ")}`;
        const results = Object.entries(definition.outputs(at));
        const given = givenPins(definition, at, pin);
        const level = shown(definition, at, next);
        const free = (result: Result) => result === "off" || result === "any";
        const right = results.map(
          ([name, result]) =>
            [pin(name), free(result) ? STATES[Math.floor(next() * 4)]! : state(level.get(name)!)] as const,
        );
        // A pin that is read and driven keeps what it was given, unless the part drives it.
        const driven = new Set(results.filter(([, result]) => !free(result)).map(([name]) => pin(name)));
        const keep = new Set(given.map(([number]) => number).filter((number) => !driven.has(number)));
        const clean = new Map([...given, ...right.filter(([number]) => !keep.has(number))]);
        expect(
          review(device, clean).map(({ says }) => says.fact),
          what,
        ).toEqual([]);

        const wrong = results.flatMap(([name, result]) =>
          typeof result === "boolean" && !definition.inputs.includes(name) ? [[name, !result] as const] : [],
        );
        const open = (name: string) => device.pins.get(pin(name))?.direction === "open-collector";
        const seen = new Set(
          review(
            device,
            new Map([...given, ...wrong.map(([name, bad]) => [pin(name), state(bad)] as const)]),
          ).map(({ output }) => output),
        );
        for (const [name, bad] of wrong) {
          // An open collector that lets go may be held low by another part.
          expect(seen.has(pin(name)), `${what}: ${name} ${bad}`).toBe(!(open(name) && !bad));
          compared += 1;
        }
        for (const [a, b] of definition.opposite?.(at) ?? []) {
          const alike = state(next() < 0.5);
          const found = review(device, new Map([...given, [pin(a), alike], [pin(b), alike]]));
          expect(found.length, `${what}: ${a} and ${b} alike`).toBeGreaterThan(0);
        }
      }
    }
  });

  test("a pin that is driven does not float", () => {
    for (const device of TABLED) {
      const pin = pinsOf(device);
      const next = draws(7);
      for (const definition of DEFINITIONS.get(device.id)!) {
        for (const bits of vectors(definition.inputs.length, next).filter((_, n) => n % 61 === 0)) {
          const at = levelsOf(definition, bits);
          for (const [name, result] of Object.entries(definition.outputs(at))) {
            if (typeof result !== "boolean" || definition.inputs.includes(name)) continue;
            const letGo = device.pins.get(pin(name))?.direction === "open-collector" && result;
            const states = new Map<string, LogicState>([
              ...givenPins(definition, at, pin),
              [pin(name), "floating"],
            ]);
            expect(review(device, states).length > 0, `${device.id} ${name}`).toBe(!letGo);
          }
        }
      }
    }
  });

  // What a probe sees over some moments: a level, or pulsing. Whatever the course, a sound part is not contradicted.
  test.each(CASES)("%s moving, some pins unread", (id, device) => {
    const pin = pinsOf(device);
    const next = draws(Number.parseInt(id, 36) + 1);
    for (const definition of DEFINITIONS.get(id)!) {
      for (let round = 0; round < 60; round++) {
        const moving = definition.inputs.map(() => next() < 0.4);
        const base = definition.inputs.map(() => next() < 0.5);
        const seen = new Map<string, Set<boolean>>();
        for (let moment = 0; moment < 3; moment++) {
          const bits = base.map((bit, index) => (moving[index] ? next() < 0.5 : bit));
          const at = levelsOf(definition, bits);
          const show = (name: string, level: boolean) =>
            seen.set(pin(name), (seen.get(pin(name)) ?? new Set()).add(level));
          const results = definition.outputs(at);
          const outputs = shown(definition, at, next);
          for (const name of definition.inputs) {
            const drives = name in results && typeof results[name] === "boolean";
            if (!drives) show(name, at(name));
          }
          for (const [name, level] of outputs) {
            if (!definition.inputs.includes(name) || typeof results[name] === "boolean") show(name, level);
          }
        }
        const states = new Map<string, LogicState>();
        for (const [number, levels] of seen) {
          if (next() < 0.8) states.set(number, levels.size > 1 ? "pulsing" : state([...levels][0]!));
        }
        expect(
          review(device, states).map(({ says }) => says.fact),
          id,
        ).toEqual([]);
      }
    }
  });

  test("the tables leave no inputs out, save where said", () => {
    const partial = new Set(
      ["7446", "7447", "7448", "74246", "74247", "74248"].map((id) => `${id} ripple blanking`),
    );
    for (const id of ["74160", "74161"]) partial.add(`${id} carry at clear`);
    const open = TABLED.flatMap(({ id, truthTables }) =>
      truthTables.flatMap((table) =>
        uncovered(table.rows, Array(table.inputs.length).fill(undefined)) === undefined
          ? []
          : [`${id} ${table.name}`],
      ),
    );
    expect(open.sort()).toEqual([...partial].sort());
  });

  test("a three-state output is switched off in some row of its table", () => {
    for (const { id, truthTables, pins } of TABLED) {
      for (const table of truthTables) {
        table.outputs.forEach((number, at) => {
          if (pins.get(number)?.direction !== "three-state") return;
          expect(
            table.rows.some(({ outputs }) => outputs[at]?.kind === "off"),
            `${id} pin ${number}`,
          ).toBe(true);
        });
      }
    }
  });

  test("the comparison was not empty", () => {
    expect(compared).toBeGreaterThanOrEqual(60_000);
  });
});
