// Supply pins that are off together are one finding of their rail; a pin that is off in its own way keeps its own.
import { expect, test } from "vitest";
import { boardHead, logOf } from "../../support/boards";
import { openAt } from "../../support/workspace";

const BOARD = `${boardHead("rails")}parts:
${["U1", "U2", "U3", "U4", "U5"].map((ref) => `  ${ref}: { device: "7404" }`).join("\n")}
nets:
  GND: [U1.7, U2.7, U3.7, U4.7, U5.7]
  VCC: [U1.14, U2.14, U3.14, U4.14, U5.14]
rails:
  +5V: { nominal: 5 V, tolerance: 5 %, net: VCC }
grounds: [GND]
`;

const told = async (text: string) => {
  const { service, uri } = await openAt(`${logOf(BOARD, text)}\n$0`);
  return service
    .findings(uri)
    .filter(({ severity }) => severity !== "hint")
    .map(({ code, fact, cause, related }) => ({
      code,
      fact,
      cause,
      pins: (related ?? []).flatMap(({ message }) => /^(U\d) pin 14 reads/.exec(message)?.[1] ?? []),
    }));
};
const levels = (volts: readonly string[]) =>
  `## Logic levels\n\n| Ref | Pin | Reading |\n|-----|-----|---------|\n${volts.map((v, i) => `| U${i + 1} | 14 | ${v} |`).join("\n")}\n\n`;
const rail = (volts: string) =>
  `## Supply rails, loaded\n\n| Rail | DC |\n|------|----|\n| +5V | ${volts} |\n\n`;

test("three chips on a rail that is low: one finding with the rail's name and each pin", async () => {
  const found = await told(levels(["4.31", "4.33", "4.30"]));
  expect(found).toEqual([
    {
      code: "supply-off-at-chips",
      fact: expect.stringMatching(/^\+5V reads 4\.3 V to 4\.33 V at 3 supply pins; .*4\.75 V to 5\.25 V\.$/),
      cause: "The rail is low, or a track or joint that they share is poor.",
      pins: ["U1", "U2", "U3"],
    },
  ]);
});

test("two chips are told one by one", async () => {
  const found = await told(levels(["4.31", "4.33", "5.01"]));
  expect(found.map(({ code }) => code)).toEqual(["level-undefined", "level-undefined"]);
});

test("the rail's own reading carries even one pin, and a pin that is off further keeps its finding", async () => {
  const found = await told(rail("4.32") + levels(["4.30", "1.2"]));
  expect(found).toEqual([
    {
      code: "rail-out-of-tolerance",
      fact: expect.stringMatching(/^\+5V reads 4\.32 loaded/),
      cause: expect.stringMatching(/A supply pin on it reads so too\.$/),
      pins: ["U1"],
    },
    { code: "level-undefined", fact: expect.stringContaining("1.2"), cause: expect.anything(), pins: [] },
  ]);
});

test("a rail that reads right itself: what leads to the pins", async () => {
  const found = await told(rail("5.01") + levels(["4.31", "4.33", "4.30"]));
  expect(found.map(({ code, cause }) => ({ code, cause }))).toEqual([
    {
      code: "supply-off-at-chips",
      cause: "The rail itself reads within limits, so a track or joint that they share is poor.",
    },
  ]);
});

test("shorted supply pins over a shorted rail are the rail's", async () => {
  const ohms = `## Resistance to ground\n\n| Rail | Reading |\n|------|---------|\n| +5V | 0.3 ohm |\n\n`;
  const drops = `## Diode check\n\n| Ref | Pin | Reading |\n|-----|-----|---------|\n| U1 | 14 | 0.001 |\n| U2 | 14 | 0.002 |\n`;
  const found = await told(ohms + drops);
  expect(found.map(({ code, pins }) => ({ code, pins }))).toEqual([
    { code: "rail-shorted", pins: ["U1", "U2"] },
  ]);
});

test("a rail that was mended since does not take what the pins read now", async () => {
  const found = await told(
    `${rail("4.32")}## Work\n\n| Ref | Action |\n|-----|--------|\n| U5 | replaced |\n\n${rail("5.02").replace("loaded", "loaded, after repair")}${levels(["4.31", "5.01"]).replace("levels", "levels after repair")}`,
  );
  expect(found.map(({ code }) => code)).toContain("level-undefined");
});
