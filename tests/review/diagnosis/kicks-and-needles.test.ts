// What a signal, a pulse or a part that was replaced tells: each beside what only looks so.
import { describe, expect, test } from "vitest";
import { readValue } from "../../../server/src/compute/part-value";
import { diagnosedInDemo } from "../../support/diagnosed";
import { table } from "../../support/tables";

const kicks = (volts: string) =>
  diagnosedInDemo(
    "driver",
    "coil-dead",
    table("Coils fired", "Coil | Driver | Does | Note", `3 | Q3 | fires | spike to ${volts} when it lets go`),
  );

describe("what a coil gives back", () => {
  test("far above its supply has no diode to go to", async () => {
    expect((await kicks("130 V")).first[0]).toBe("D3");
  });

  test("a volt above its supply is clamped", async () => {
    expect((await kicks("34 V")).first).not.toContain("D3");
  });
});

const pulses = (note: string) =>
  diagnosedInDemo(
    "controller",
    "error-1",
    table("Logic states", "Ref | Pin | State | Note", `U27 | 13 | pulsing | ${note}`),
  );

describe("the pulse of a one-shot", () => {
  test.each(["pulses only 2 us wide", "needles", "high for half of it, 0.5 ms each"])(
    "%s: its capacitor does not count",
    async (note) => {
      expect((await pulses(note)).first[0]).toBe("C5");
    },
  );

  test.each(["100 ms wide", "one every 8 ms", "bell asked for"])("%s: nothing of it", async (note) => {
    expect((await pulses(note)).signs).not.toContain("clock-off");
  });
});

describe("a signal peak to peak on both sides of a capacitor", () => {
  const passed = (behind: string) =>
    diagnosedInDemo(
      "controller",
      "no-sound",
      table("Frequency", "Chip | Pin | Freq | Vpp", "U24 | 5 | 2 kHz | 5.8", `J7 | 1 | 2 kHz | ${behind}`),
    );

  test("hardly any behind it: it does not pass it", async () => {
    expect((await passed("0.05")).first[0]).toBe("C12");
  });

  test("nearly all behind it", async () => {
    expect((await passed("5.5")).first[0]).not.toBe("C12");
  });
});

const drops = (...volts: readonly string[]) =>
  diagnosedInDemo(
    "controller",
    "all-eights",
    table("Diode check", "Chip | Pin | Drop", ...volts.map((drop, i) => `U1 | ${26 + i} | ${drop}`)),
  );

describe("the drops of a bus", () => {
  test("two of one drop below the rest are joined", async () => {
    const { first } = await drops(".611", ".612", ".581", ".581", ".612", ".610", ".611", ".612");
    expect(first[0]).toBe("a bridge between D4 and D5");
  });

  test("one below the rest, and two hardly below", async () => {
    const one = await drops(".611", ".612", ".581", ".611", ".612", ".610", ".611", ".612");
    const two = await drops(".611", ".612", ".605", ".605", ".612", ".610", ".611", ".612");
    expect([...one.signs, ...two.signs]).not.toContain("lines-joined");
  });
});

describe("an image that comes out right and wrong", () => {
  const sums = (warm: string) =>
    diagnosedInDemo(
      "controller",
      "error-1",
      table("ROMs, cold", "Chip | Sum", "U2 | 70d5", "U3 | 9c28"),
      table("ROMs, from the warm board", "Chip | Sum", `U2 | ${warm}`, "U3 | 9c28"),
    );

  test("is no good one", async () => {
    expect((await sums("7145")).first[0]).toBe("U2");
  });

  test("right both times", async () => {
    expect((await sums("70d5")).first).not.toContain("U2");
  });
});

describe("a regulator that was replaced", () => {
  const said = (words: string) =>
    diagnosedInDemo(
      "driver",
      "coil-dead",
      table("Rails, loaded", "Rail | DC", "+5V | 4.2"),
      table("Work", "Ref | Action | Part", "VR1 | replaced | LM323K"),
      `${words}\n`,
    );

  test.each(["No better, dips as before.", "Lamps the same.", "It did not help."])("%s", async (words) => {
    expect((await said(words)).signs).toContain("rail-wrong");
  });

  test.each(["Pin 1 reads the same as pin 4 of U2.", "All well."])("%s", async (words) => {
    expect((await said(words)).signs).not.toContain("rail-wrong");
  });
});

describe("what is marked on a part", () => {
  test.each([
    ["12 V relay, 1 make", undefined],
    ["8 x 1k, SIP-9, pin 1 common", 1000],
    ["470 0.5 W", 470],
  ])("%s", (text, ohms) => {
    expect(readValue(text, "resistance")?.nominal).toBe(ohms);
  });
});
