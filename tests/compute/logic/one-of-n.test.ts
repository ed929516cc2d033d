// What a one-of-n decoder cannot show, by the truth tables of the library's own devices.

import { describe, expect, it } from "vitest";
import { activeLevel, outputsOf, withSeveralActive } from "../../../server/src/compute/logic/one-of-n";
import { reviewDevice } from "../../../server/src/compute/logic/review-device";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import type { LogicState } from "../../../server/src/quantity/words";
import { words } from "../../support/words";

const LETTERS: Readonly<Record<string, LogicState>> = { H: "high", L: "low", P: "pulsing", Z: "floating" };

function review(number: string, pins: string, netName?: (pin: string) => string | undefined) {
  const { device } = builtinLibrary().device(number)!;
  const states = new Map(
    pins.split(" ").map((pair) => {
      const [pin = "", letter = ""] = pair.split("=");
      return [pin, LETTERS[letter]!] as const;
    }),
  );
  const along = { ref: "U7", ...(netName ? { netName } : {}) };
  const all = withSeveralActive(reviewDevice(device, states, along).contradictions, {
    ...along,
    tables: device.truthTables,
    technology: "ttl",
    states,
    direction: (pin) => device.pins.get(pin)?.direction,
    pinName: (pin) => device.pins.get(pin)?.name,
  });
  return all.map((one) => ({ verdict: one.verdict, pins: outputsOf(one), sentence: words(one) }));
}

describe("two outputs of a one-of-n decoder together", () => {
  it.each([
    ["74138", "15=L 14=L", "out-of-limits", "this decoder has one of 8 outputs low"],
    [
      "74LS138",
      "15=L 14=L 13=H 12=L",
      "out-of-limits",
      "pin 15 (/Y0), pin 14 (/Y1) and pin 12 (/Y3) are low together",
    ],
    // The inputs move, so each of them alone was impossible too: told once.
    [
      "74138",
      "1=P 2=P 3=P 4=L 5=L 6=H 11=L 12=L",
      "out-of-limits",
      "pin 12 (/Y3) and pin 11 (/Y4) are low together",
    ],
    ["74139", "4=L 5=L", "out-of-limits", "one of 4"],
    ["74154", "1=L 2=L", "out-of-limits", "one of 16"],
    ["74155", "7=L 6=L", "out-of-limits", "one of 4"],
    ["7442", "1=L 2=L", "out-of-limits", "one of 10"],
    // Latched: whatever it holds, it holds one.
    ["4514", "11=H 9=H", "out-of-limits", "one of 16"],
    ["4028", "3=H 14=H", "out-of-limits", "high together"],
    ["74238", "15=H 14=H", "out-of-limits", "high together"],
    // Open collectors: another part may pull the line.
    ["74145", "1=L 3=L", "suspect", "Another part pulls one of these lines"],
    ["7445", "1=L 2=L", "suspect", "Another part pulls one of these lines"],
    ["74141", "16=L 15=L", "suspect", "Another part pulls one of these lines"],
  ])("%s with %s is %s: %s", (number, pins, verdict, says) => {
    expect(review(number, pins)).toEqual([
      { verdict, pins: expect.any(Array), sentence: expect.stringContaining(says) },
    ]);
  });

  it("names the wrong one where the inputs tell which it is", () => {
    const [found, ...rest] = review("74138", "1=H 2=L 3=L 4=L 5=L 6=H 14=L 12=L");
    expect(rest).toEqual([]);
    expect(found).toMatchObject({ pins: ["12"] });
  });

  it.each([
    ["74138", "15=L 14=H 13=H"],
    ["74138", "1=P 2=P 3=P 15=P 14=P"],
    ["74138", "6=L 15=H 14=H 13=H 12=H"],
    // One of each half.
    ["74139", "4=L 12=L"],
    ["4028", "3=H 14=L"],
    ["74145", "1=L 2=H 3=H"],
    // No decoders of this kind: a counter, a driver of segments, a selector.
    ["7490", "12=L 9=L"],
    ["7447", "13=L 12=L"],
    ["74157", "4=L 7=L"],
  ])("is not seen in %s with %s", (number, pins) => {
    expect(review(number, pins)).toEqual([]);
  });

  it("is one line where the board ties them together", () => {
    expect(review("74145", "1=L 3=L", () => "STROBE")).toEqual([]);
  });

  it("is known of the tables of the library", () => {
    const of = (number: string) => builtinLibrary().device(number)!.device.truthTables.map(activeLevel);
    expect(of("74138")).toEqual(["low"]);
    expect(of("4028")).toEqual(["high"]);
    expect(of("74139")).toEqual(["low", "low"]);
    expect(of("74145")).toEqual(["low"]);
    expect(of("7447").every((level) => level === undefined)).toBe(true);
  });
});
