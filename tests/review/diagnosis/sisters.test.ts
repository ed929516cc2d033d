// Pins held against their sisters and against the rest of their nets, on the demo's boards.
import { describe, expect, test } from "vitest";
import { diagnosedInDemo as diagnosed } from "../../support/diagnosed";
import { table } from "../../support/tables";

describe("pins beside each other", () => {
  const states = (...rows: readonly string[]): string => table("Logic states", "Ref | Pin | State", ...rows);

  test("a leg that floats while its net is driven is an open, whatever kind of pin it is", async () => {
    const { first, signs } = await diagnosed(
      "controller",
      "row-dead",
      states("U13 | 1 | H", "U13 | 2 | L", "U10 | 2 | floating", "U10 | 3 | L"),
    );
    expect(signs).toEqual(["floating"]);
    expect(first).toContain("the socket contact or joint of U10 pin 2");
  });

  test("an open found at a chip's own ground takes over what the chip is blamed for", async () => {
    const rows = ["1 | 1.26", "3 | 1.28", "5 | 1.27", "7 | OL", "9 | 1.27", "11 | 1.26", "13 | 1.28"];
    const right = [
      "2 | 0.576",
      "4 | 0.578",
      "6 | 0.572",
      "8 | 0.578",
      "10 | 0.577",
      "12 | 0.577",
      "14 | 0.311",
    ];
    const { first } = await diagnosed(
      "controller",
      "row-dead",
      table(
        "Diode check",
        "Ref | Pin | Reading",
        ...[...rows, ...right].map((row) => `U13 | ${row}`),
        ...[1, 2, 3, 4, 5, 6].map((pin) => `U12 | ${pin} | 0.60`),
        ...[1, 2, 3, 4, 5, 6].map((pin) => `U14 | ${pin} | 0.55`),
      ),
      states("U13 | 1 | H", "U13 | 2 | floating", "U13 | 3 | H", "U13 | 4 | floating"),
    );
    expect(first[0]).toBe("the joint of U13 pin 7");
  });

  test("an output that stays while the one beside it moves is its buffer", async () => {
    const asked = (...volts: readonly string[]): string =>
      table(
        "Logic levels",
        "Ref | Pin | Reading",
        ...["U1 | 5", "U1 | 6", "U1 | 9", "U1 | 8"].map((at, i) => `${at} | ${volts[i]}`),
      );
    const { first, signs } = await diagnosed(
      "driver",
      "coil-dead",
      asked("0.21 V", "0.06 V", "0.21 V", "0.06 V"),
      asked("3.49 V", "0.06 V", "3.47 V", "2.19 V").replace("Logic levels", "Logic levels, all asked for"),
    );
    expect(signs).toContain("still-beside");
    expect(first[0]).toBe("U1");
  });

  test("memories that all answer ones may not be selected, so what selects them is among the first", async () => {
    const { first, signs } = await diagnosed(
      "controller",
      "error-3",
      table(
        "Memory test",
        "Ref | Address | Wrote | Read | Failing bits | Result",
        "U7 | 0000 | 5 | F | 1, 3 | fail",
        "U8 | 0000 | 5 | F | 1, 3 | fail",
      ),
      states("U5 | 4 | H"),
    );
    expect(signs.filter((sign) => sign === "memory-chip")).toHaveLength(2);
    // Their select was seen at rest: U5 makes it, and U29 only the write strobe.
    expect(first).toContain("U5");
  });
});
