// The evaluator of logic of tests/bench/injected against the controller's drawing and the data sheets of its chips
// (from memory): what is selected where, what a broken line leaves undone.
import { describe, expect, test } from "vitest";
import { readBoard } from "../../bench/injected/board";
import { CHIPS } from "../../bench/injected/chips";
import { exercise, switches } from "../../bench/injected/exercise";
import { type Fault, INTACT } from "../../bench/injected/fault";

const board = readBoard(new URL("../../../demo/boards/regatta-controller.board.yaml", import.meta.url));
const broken = (...edits: Fault["edits"]): Fault => ({ ...INTACT, id: "broken", edits });
const failing = (fault: Fault) =>
  exercise(board, fault)
    .memory()
    .filter(({ wrote, got }) => wrote !== got)
    .map(({ ref, wrote, got }) => `${ref} ${wrote ^ got}`);

describe("chips by their data sheets", () => {
  const run = (device: string, levels: Readonly<Record<number, 0 | 1>>) =>
    CHIPS[device]!.run!((pin) => levels[pin] ?? 1, {});
  test("74LS138: one of eight low, and none unless it is enabled", () => {
    const outputs = [15, 14, 13, 12, 11, 10, 9, 7];
    for (let n = 0; n < 8; n += 1) {
      const inputs = { 1: n & 1, 2: (n >> 1) & 1, 3: n >> 2, 4: 0, 5: 0, 6: 1 } as Record<number, 0 | 1>;
      const driven = run("74LS138", inputs);
      expect(outputs.filter((pin) => driven[pin] === 0)).toEqual([outputs[n]]);
      for (const off of [{ 4: 1 }, { 5: 1 }, { 6: 0 }] as Record<number, 0 | 1>[]) {
        const none = run("74LS138", { ...inputs, ...off });
        expect(outputs.filter((pin) => none[pin] === 0)).toEqual([]);
      }
    }
  });
  test("74145: nothing is low for the numbers above nine", () => {
    const low = (n: number) =>
      Object.entries(
        run("74145", { 15: n & 1, 14: (n >> 1) & 1, 13: (n >> 2) & 1, 12: n >> 3 } as Record<number, 0 | 1>),
      )
        .filter(([, level]) => level === 0)
        .map(([pin]) => Number(pin));
    expect([0, 6, 7, 9, 10, 15].map(low)).toEqual([[1], [7], [9], [11], [], []]);
  });
  test("7493: counts to sixteen with its halves joined, from the first edge that it sees", () => {
    const memory = {};
    let input: 0 | 1 = 1;
    let qa: 0 | 1 = 0;
    const seen: number[] = [];
    for (let edge = 0; edge < 34; edge += 1) {
      input = input === 1 ? 0 : 1;
      const level = (pin: number) => (pin === 14 ? input : pin === 1 ? qa : 0);
      qa = CHIPS["7493"]!.run!(level, memory)[12] as 0 | 1;
      const out = CHIPS["7493"]!.run!(level, memory);
      if (input === 1)
        seen.push(Number(out[12]) + 2 * Number(out[9]) + 4 * Number(out[8]) + 8 * Number(out[11]));
    }
    expect(seen).toEqual([...Array(16).keys(), 0]);
  });
});

describe("the controller under its exerciser", () => {
  const whole = exercise(board, INTACT);
  test("every select, strobe and latch of the drawing moves", () => {
    for (const pin of [
      "U4.15",
      "U4.14",
      "U4.13",
      "U4.9",
      "U4.7",
      "U5.4",
      "U5.5",
      "U6.15",
      "U6.9",
      "U28.4",
      "U12.9",
      "U20.1",
      "U15.19",
      "U23.5",
    ])
      expect(whole.state(pin), pin).toBe("pulse");
    expect(whole.state("U1.40")).toBe("H");
    expect(whole.state("U27.13")).toBe("H");
    expect(whole.state("U13.1")).toBe("H");
    expect(whole.state("U13.2")).toBe("L");
    expect(whole.memory().every(({ wrote, got }) => wrote === got)).toBe(true);
  });
  test("with A11 held low neither the second program memory nor the 6821s are selected", () => {
    const { state } = exercise(board, broken({ kind: "burnt", pin: "U4.1", level: 0 }));
    expect([state("U1.20"), state("U4.7"), state("U4.14"), state("U4.9")]).toEqual(["L", "H", "H", "pulse"]);
  });
  test("a joint leaves its own leg floating and the driver's moving", () => {
    const { state } = exercise(board, broken({ kind: "joint", pin: "U12.14" }));
    expect([state("U12.14"), state("U10.11")]).toEqual(["floating", "pulse"]);
  });
  test("a chip that has lost its ground drives nothing", () => {
    const { state } = exercise(board, broken({ kind: "joint", pin: "U15.10" }));
    expect([state("U15.2"), state("U15.19"), state("U16.2")]).toEqual(["floating", "floating", "pulse"]);
  });
  test("a memory's bad bit fails in that bit and that chip", () => {
    expect(failing(broken({ kind: "cell", ref: "U7", bit: 2, level: 0 }))).toEqual(["U7 4"]);
    // D5 is the second bit of U8.
    expect(failing(broken({ kind: "track", net: "D5", pins: ["U8.13"] }))).toEqual(["U8 2"]);
    expect(failing(broken({ kind: "burnt", pin: "U9.19", level: 1 }))).toHaveLength(1);
  });
  test("an address line that a memory has lost fails there", () => {
    expect(failing(broken({ kind: "bond", pin: "U7.17" })).map((line) => line.slice(0, 2))).toEqual(["U7"]);
  });
  test("a column that is not driven and a row that is not heard", () => {
    const column = switches(board, broken({ kind: "bond", pin: "U12.3" }));
    expect(column.map((row) => row.map(Number).join(""))).toEqual(Array(8).fill("11011111"));
    const row = switches(board, broken({ kind: "joint", pin: "U13.5" }));
    expect(row.map((line) => line.every((one) => one))).toEqual([
      true,
      true,
      false,
      true,
      true,
      true,
      true,
      true,
    ]);
    expect(
      switches(board, INTACT)
        .flat()
        .every((one) => one),
    ).toBe(true);
  });
});
