// Voltages that are all nothing: the lead or the meter where the board has its supplies, and else the board.
import { expect, test } from "vitest";
import { suspectName } from "../../../server/src/compute/diagnosis/suspects";
import { boardHead } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, load: 1 A, net: VCC, source: invented }
parts:
  U1: { device: 74LS138 }
  U2: { device: 74LS04 }
nets:
  GND: [U1.8, U2.7]
  VCC: [U1.16, U2.14]
  A: [U1.1, U2.2]
  B: [U1.2, U2.4]
`;
const RAILS = "## Supply rails\n\n| Rail | Reading |\n|---|---|\n| +5V | 5.03 |\n\n";
const levels = (volts: (pin: number) => string) =>
  `## Logic levels\n\n| Pin | U1 |\n|---|---|\n${Array.from({ length: 16 }, (_, i) => `| ${i + 1} | ${volts(i + 1)} |\n`).join("")}`;
const first = async (body: string) => {
  const { suspect } = (await diagnosedOn(BOARD, body)).result.ranked[0] ?? {};
  return suspect && suspectName(suspect);
};
const MISTAKE = "the voltages of U1: the lead was off ground, or the meter on another range";

test("a tenth of a volt everywhere, beside a rail that is right", async () => {
  expect(await first(RAILS + levels((pin) => `0.${10 + (pin % 4)}`))).toBe(MISTAKE);
});

test("next to nothing on a board that plays, whoever looked at its rails", async () => {
  expect(await first(`The board plays all the while.\n\n${levels(() => "0.01")}`)).toBe(MISTAKE);
});

test("next to nothing, and nobody says that it runs: the supply of it", async () => {
  const name = await first(`The board does not play.\n\n${levels(() => "0.01")}`);
  expect(name).toBeDefined();
  expect(name).not.toBe(MISTAKE);
});

test("lines that show a mean and no supply, beside a rail that is right: alternating volts", async () => {
  const mean = (pin: number): string => (pin === 16 || pin === 8 ? "0.00" : `1.${20 + pin}`);
  expect(await first(RAILS + levels(mean))).toBe(MISTAKE);
});

test("a chip whose supply is nothing and one line high: not the meter", async () => {
  const fed = (pin: number): string =>
    pin === 16 || pin === 8 ? "0.00" : pin === 1 ? "3.4" : `1.${20 + pin}`;
  expect(await first(RAILS + levels(fed))).not.toBe(MISTAKE);
});
