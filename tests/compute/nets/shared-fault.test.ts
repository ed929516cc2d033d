import { describe, expect, test } from "vitest";
import { sharedFaults, type WrongReading } from "../../../server/src/compute/nets/shared-fault";
import { words } from "../../support/words";
import { reason } from "../circuit/support";

const NETS: Readonly<Record<string, readonly string[]>> = {
  ROW: ["U14.2", "U15.5", "J3.1", "R4.1"],
  COL: ["U14.4", "U16.1"],
};
const members = (net: string) =>
  (NETS[net] ?? []).map((entry) => {
    const [ref = "", pin = ""] = entry.split(".");
    return { ref, pin };
  });

const wrong = (text: string): WrongReading[] =>
  text.split(", ").map((entry) => {
    const [net = "", place = "", value = ""] = entry.split(" ");
    const [ref = "", pin = ""] = place.split(".");
    return {
      net,
      ref,
      pin,
      value: value === "open" ? Number.POSITIVE_INFINITY : Number(value),
      uncertainty: 0.005,
    };
  });

function faults(text: string) {
  const found = sharedFaults({ kind: "drop", wrong: wrong(text), members });
  if (!found.ok) throw new Error(found.reason);
  return found.faults;
}

describe("one net, one fault", () => {
  test("two chips with one wrong reading share it, and everything on the net is a candidate", () => {
    const found = faults("ROW U14.2 0.02, ROW U15.5 0.021");
    expect(found).toHaveLength(1);
    expect(found[0]).toMatchObject({ net: "ROW", candidates: ["U14", "U15", "J3", "R4"] });
    expect(words(found[0])).toMatch(/U14 pin 2, U15 pin 5 are on ROW .* about 20 mV\. Take it as one fault/);
    expect(words(found[0])).toMatch(/U14, U15, J3, R4 or the track/);
  });
  test("open on both is one fault too", () => {
    expect(words(faults("ROW U14.2 open, ROW U15.5 open")[0])).toMatch(/read open\./);
  });
  test.each([
    ["a single witness", "ROW U14.2 0.02"],
    ["two pins of one chip", "ROW U14.2 0.02, ROW U14.9 0.02"],
    ["different nets", "ROW U14.2 0.02, COL U16.1 0.02"],
    ["different readings", "ROW U14.2 0.02, ROW U15.5 1.2"],
    ["open against a drop", "ROW U14.2 0.02, ROW U15.5 open"],
  ])("%s shares nothing", (_what, text) => {
    expect(faults(text)).toEqual([]);
  });
  test("each net for itself, and two alike beside an odd one", () => {
    const found = faults("COL U16.1 0.9, ROW U14.2 0.02, COL U14.4 0.91, ROW U15.5 0.02, ROW U17.1 1.4");
    expect(found.map(({ net, readings }) => [net, readings.length])).toEqual([
      ["COL", 2],
      ["ROW", 2],
    ]);
  });
  test("a net the board file does not list still has the chips that were read", () => {
    expect(faults("X U1.1 0.02, X U2.1 0.02")[0]?.candidates).toEqual(["U1", "U2"]);
  });
  test("what is no reading is refused", () => {
    expect(reason(sharedFaults({ kind: "drop", wrong: wrong("ROW U14.2 x"), members }))).toMatch(/U14 pin 2/);
  });
});
