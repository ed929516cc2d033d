import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { loadDevice } from "../../server/src/knowledge/load-device";
import { rowsDiffer, solvable, uncovered } from "../../server/src/knowledge/truth-cover";
import { readTruthRow, type TruthCell, type TruthRow } from "../../server/src/knowledge/truth-row";
import { checkProblems } from "./problems";

const row = (text: string): TruthRow => {
  const read = readTruthRow(text);
  if (!read.ok) throw new Error(read.fault.message);
  return read.row;
};

describe("one row", () => {
  test("levels, letters and marks", () => {
    expect(row("0 1 x a /b | 0 1 z ? /a a^b")).toEqual({
      text: "0 1 x a /b | 0 1 z ? /a a^b",
      inputs: [
        { kind: "value", letters: 0, flip: 0 },
        { kind: "value", letters: 0, flip: 1 },
        { kind: "any" },
        { kind: "value", letters: 1, flip: 0 },
        { kind: "value", letters: 2, flip: 1 },
      ],
      outputs: [
        { kind: "value", letters: 0, flip: 0 },
        { kind: "value", letters: 0, flip: 1 },
        { kind: "off" },
        { kind: "any" },
        { kind: "value", letters: 1, flip: 1 },
        { kind: "value", letters: 3, flip: 0 },
      ],
    });
    expect(row("  |q")).toMatchObject({ inputs: [], outputs: [{ letters: 1 << 16 }] });
  });

  test.each([
    ["0 1", /inputs, a bar and outputs/],
    ["0 | 1 | 0", /one bar/],
    ["0 H | 1", /`H` is no level.*Write `1` for high/],
    ["0 | low", /`low` is no level.*Write `0` for low/],
    ["z | 1", /`z` is no level\. An input is/],
    ["a^b | 1", /`a\^b` is no level/],
    ["0 | x", /`x` is no level\. An output is/],
    ["0 | //a", /`\/\/a` is no level/],
    ["0 | a^", /`a\^` is no level/],
  ])("%s is refused", (text, message) => {
    const read = readTruthRow(text);
    expect(read.ok || read.fault.message).toMatch(message);
  });

  test("any text is read or refused within itself", () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom(..."01xazq?/^| H\t"), maxLength: 20 }), (text) => {
        const read = readTruthRow(text);
        if (read.ok) return;
        expect(read.fault.start).toBeGreaterThanOrEqual(0);
        expect(read.fault.end).toBeLessThanOrEqual(text.length);
        expect(read.fault.message).not.toMatch(/undefined/);
      }),
    );
  });
});

// Brute force over all levels of a few letters and pins.
const letterCount = 3;
const assignments = Array.from({ length: 2 ** letterCount }, (_, bits) => bits);
const parity = (bits: number): number => bits.toString(2).replaceAll("0", "").length % 2;
const levelOf = (cell: TruthCell, letters: number): number | undefined =>
  cell.kind === "value" ? parity(cell.letters & letters) ^ cell.flip : undefined;
const fits = (of: TruthRow, inputs: readonly number[]): number[] =>
  assignments.filter((letters) =>
    of.inputs.every(
      (cell, at) => levelOf(cell, letters) === undefined || levelOf(cell, letters) === inputs[at],
    ),
  );

const inputWord = fc.constantFrom("0", "1", "x", "a", "b", "/a", "/b", "c");
const outputWord = fc.constantFrom("0", "1", "z", "?", "a", "/b", "a^b", "c", "/a^c");
const rowOf = (inputs: number) =>
  fc
    .tuple(
      fc.array(inputWord, { minLength: inputs, maxLength: inputs }),
      fc.array(outputWord, { minLength: 2, maxLength: 2 }),
    )
    .map(([left, right]) => row(`${left.join(" ")} | ${right.join(" ")}`));
const width = 4;
const vectors = Array.from({ length: 2 ** width }, (_, code) =>
  Array.from({ length: width }, (_b, at) => (code >> at) & 1),
);

describe("what rows cover", () => {
  test("solvable is what trying every level finds", () => {
    const equation = fc.tuple(fc.nat(2 ** letterCount - 1), fc.constantFrom(0 as const, 1 as const));
    fc.assert(
      fc.property(fc.array(equation, { maxLength: 5 }), (equations) => {
        const found = assignments.some((letters) =>
          equations.every(([mask, value]) => parity(mask & letters) === value),
        );
        expect(solvable(equations)).toBe(found);
      }),
    );
  });

  test("uncovered is what trying every input finds", () => {
    const demand = fc.constantFrom(0 as const, 1 as const, undefined);
    fc.assert(
      fc.property(
        fc.array(rowOf(width), { maxLength: 6 }),
        fc.array(demand, { minLength: width, maxLength: width }),
        (rows, demands) => {
          const open = vectors.filter(
            (inputs) =>
              inputs.every((level, at) => demands[at] === undefined || demands[at] === level) &&
              rows.every((one) => fits(one, inputs).length === 0),
          );
          const found = uncovered(rows, demands);
          expect(found !== undefined).toBe(open.length > 0);
          if (found === undefined || found === "unknown") return;
          // What it names is open, whatever the pins it leaves free.
          const named = vectors.filter((inputs) =>
            inputs.every((level, at) => found[at] === undefined || found[at] === level),
          );
          for (const inputs of named) expect(open).toContainEqual(inputs);
        },
      ),
    );
  });

  test("rows differ where some input fits both and an output does not agree", () => {
    fc.assert(
      fc.property(rowOf(width), rowOf(width), (first, second) => {
        const clash = (at: number) => {
          const [a, b] = [first.outputs[at]!, second.outputs[at]!];
          return vectors.some((inputs) =>
            fits(first, inputs).some((p) =>
              fits(second, inputs).some((q) => {
                if (a.kind === "any" || b.kind === "any") return false;
                if (a.kind === "off" || b.kind === "off") return a.kind !== b.kind;
                return levelOf(a, p) !== levelOf(b, q);
              }),
            ),
          );
        };
        const expected = [0, 1].find(clash);
        expect(rowsDiffer(first, second)).toBe(expected);
      }),
    );
  });
});

const HEAD = `mendlog-device: 1
id: "74999"
title: Section
kind: logic
package: { name: DIP-14, pins: 14 }
pins:
  1: { name: A, direction: input }
  2: { name: B, direction: input }
  3: { name: "Y", direction: output }
  4: { name: Z, direction: three-state }
  7: { name: GND, direction: ground }
source: from memory
`;

test("a table that makes sense is kept as it stands", () => {
  const value = checkProblems(
    loadDevice,
    `${HEAD}truth-tables:
  - name: buffer
    inputs: ["1", "2"]
    outputs: ["3", "4"]
    rows:
      - "0 a | a /a"
      - "1 x | q z"
`,
  );
  expect(value?.truthTables).toEqual([
    {
      name: "buffer",
      inputs: ["1", "2"],
      outputs: ["3", "4"],
      rows: [row("0 a | a /a"), row("1 x | q z")],
    },
  ]);
});

test("faults stand where they are, and the other rows are kept", () => {
  const value = checkProblems(
    loadDevice,
    `${HEAD}truth-tables:
  - name: buffer
    inputs: ["1", "2"]
    outputs: ["3"]
    rows:
      - "0 a | a"
      - "0 H | 1"
           ^ truth-row-cell: \`H\` is no level. An input is \`0\`, \`1\`
      - "0 0 | 1"
        ^^^^^^^^^ truth-rows-differ: This row and \`0 a | a\` hold for the same inputs and give pin 3 differently.
      - "1 x x | 0"
        ^^^^^^^^^^^ truth-row-width: This row has 3 inputs and 1 output; the table has 2 inputs and 1 output.
      - "1 1 | 0"
  - name: buffer
          ^^^^^^ duplicate-table: Two truth tables are named \`buffer\`.
    inputs: ["7", "9", "1"]
             ^^^ pin-direction: Pin 7 (GND) is \`ground\` and cannot be among the inputs
                  ^^^ unknown-pin: Entry 2 of \`inputs\` of entry 2 of \`truth-tables\` names pin \`9\`, which is not in \`pins\`
    outputs: ["2", "1"]
              ^^^ pin-direction: Pin 2 (B) is \`input\` and cannot be among the outputs
                   ^^^ pin-direction: Pin 1 (A) is \`input\` and cannot be among the outputs
                   ^^^ pin-twice: Pin 1 is twice in this truth table
    rows: ["x x x | ? ?"]
  - { name: empty, inputs: [], outputs: ["3"], rows: [] }
                                                     ^^ wrong-count: \`rows\` of entry 3 of \`truth-tables\` has 0 entries
`,
  );
  expect(value?.truthTables[0]?.rows.map(({ text }) => text)).toEqual(["0 a | a", "0 0 | 1", "1 1 | 0"]);
});
