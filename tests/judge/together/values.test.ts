// Values of resistors that slid by a row: each figure is what its neighbour is marked with. Resistors that are wrong by themselves,
// and a column of which only some fit their neighbours, are what they are.
import { expect, test } from "vitest";
import { fromLog } from "../../../server/src/review/diagnosis/from-log";
import { boardHead, logOf } from "../../support/boards";
import { openAt } from "../../support/workspace";

const VALUES = ["1k", "4k7", "330", "10k", "68k", "2k2"];
const BOARD = `${boardHead("resistors")}parts:
  U1: { device: 74LS14 }
${VALUES.map((value, i) => `  R${i + 1}: { value: ${value} }`).join("\n")}
nets:
  GND: [U1.7]
  VCC: [U1.14, ${VALUES.map((_, i) => `R${i + 1}.1`).join(", ")}]
${VALUES.map((_, i) => `  LINE_${i + 1}: [U1.${i + 1}, R${i + 1}.2]`).join("\n")}
rails:
  +5V: { nominal: 5 V, tolerance: 5 %, net: VCC }
grounds: [GND]
`;

async function told(...readings: readonly string[]) {
  const rows = readings.map((one, i) => `| R${i + 1} | ${one} |`).join("\n");
  const body = `## Resistance\n\n| Part | Reading |\n|------|---------|\n${rows}\n`;
  const { service, uri, view } = await openAt(`${logOf(BOARD, body)}\n$0`);
  const codes = service
    .findings(uri)
    .flatMap(({ code }) => (["column-shifted", "passive-out-of-tolerance"].includes(code) ? [code] : []));
  const found = fromLog(view)?.findings.map(({ finding }) => finding.kind) ?? [];
  return { codes, found };
}

test("the first left out, each figure a row too far down", async () => {
  expect(await told("", "0.99k", "4.65k", "331", "9.96k", "67.6k")).toEqual({
    codes: ["column-shifted"],
    found: ["table"],
  });
});

test("the last left out, each figure a row too far up", async () => {
  expect((await told("4.65k", "331", "9.96k", "67.6k", "2.19k", "")).codes).toEqual(["column-shifted"]);
});

test("as they are marked", async () => {
  expect(await told("0.99k", "4.65k", "331", "9.96k", "67.6k", "")).toEqual({ codes: [], found: [] });
});

test("one that is high by itself", async () => {
  expect(await told("0.99k", "4.65k", "2.7k", "9.96k", "67.6k", "")).toEqual({
    codes: ["passive-out-of-tolerance"],
    found: ["part"],
  });
});
