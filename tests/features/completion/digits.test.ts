import { describe, expect, it } from "vitest";
import { completeDigits } from "../../../server/src/features/completion";
import { LOG_HEAD } from "../../support/typing";
import { openAt } from "../../support/workspace";

async function offered(body: string): Promise<string[]> {
  const { view, offset } = await openAt(LOG_HEAD + body);
  return completeDigits(view, offset).map(({ label }) => label);
}

const diode = (rows: string, header = "Reading") =>
  offered(`## Diode check\n\n| Ref | Pin | ${header} |\n|---|---|---|\n${rows}`);
const table = (heading: string, header: string, row: string) =>
  offered(`## ${heading}\n\n${header}\n${header.replace(/[^|]+/g, "---")}\n${row}\n`);

describe("digits alone in a column of diode readings", () => {
  it("are a reading without its point", async () => {
    expect(await diode("| U14 | 1 | 58$0 |")).toEqual(["0.58 V", "0.058 V"]);
    expect(await diode("| U14 | 1 | 582$0 |")).toEqual(["0.582 V"]);
    expect(await diode("| U14 | 1 | 1487$0 |")).toEqual(["1.487 V"]);
    expect(await diode("| U14 | 1 | 142$0 |")).toEqual(["0.142 V", "1.42 V"]);
    expect(await diode("| U14 | 1 | 058$0 |")).toEqual(["0.58 V", "0.058 V"]);
  });

  it("are written as the readings above are", async () => {
    expect(await diode("| U14 | 1 | 0.581 |\n| U14 | 2 | 58$0 |")).toEqual(["0.58", "0.058"]);
    expect(await diode("| U14 | 1 | 0,58 V |\n| U14 | 2 | 142$0 |")).toEqual(["1,42 V", "0,142 V"]);
    expect(await diode("| U14 | 2 | 58$0 |", "Reading (V)")).toEqual(["0.58", "0.058"]);
  });

  it.each(["5$0", "0.58$0", "5$08", "58 $0", "58 m$0", "OL$0", "58x$0"])(
    "are left alone where they are not all there is: %s",
    async (text) => expect(await diode(`| U14 | 1 | ${text} |`)).toEqual([]),
  );

  it("are left alone where they may be meant: in millivolts, as a pin, in a sentence", async () => {
    expect(await diode("| U14 | 1 | 582$0 |", "Reading (mV)")).toEqual([]);
    expect(await diode("| U14 | 14$0 | |")).toEqual([]);
    expect(await offered("Measured 58$0 times\n")).toEqual([]);
  });
});

describe("digits in other columns", () => {
  it("of supply rails are near the rail's voltage, with the sign the meter showed", async () => {
    const rails = (row: string) => table("Supply rails, loaded", "| Rail | Reading | Ripple |", row);
    expect(await rails("| +5V | 502$0 | |")).toEqual(["5.02 V"]);
    expect(await rails("| +24V | 2412$0 | |")).toEqual(["24.12 V"]);
    expect(await rails("| +24V | 24$0 | |")).toEqual([]);
    expect(await rails("| +24V | -2412$0 | |")).toEqual([]);
    expect(await rails("| nowhere | 502$0 | |")).toEqual([]);
    expect(await rails("| +5V | 5.02 | 12$0 |")).toEqual(["12 mV"]);
  });

  it("of logic levels stay below what logic reaches", async () => {
    const levels = (row: string) => table("Logic levels", "| Ref | Pin | Reading |", row);
    expect(await levels("| U14 | 1 | 461$0 |")).toEqual(["4.61 V", "0.461 V"]);
  });

  it("of resistances are as good as they stand, but for a nought in front", async () => {
    const ohms = (row: string) => table("Resistance", "| Ref | Reading |", row);
    expect(await ohms("| R12 | 148$0 |")).toEqual([]);
    expect(await ohms("| R12 | 022$0 |")).toEqual(["0.22 ohm"]);
  });
});
