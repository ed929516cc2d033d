// The like pins of many parts that all read open are one lead; a list of pins that were found open is not.
import { expect, test } from "vitest";
import { diagnosisOf } from "../../../server/src/review/diagnosis/of-log";
import { boardHead, logOf } from "../../support/boards";
import { openAt } from "../../support/workspace";

const DRIVERS = ["Q1", "Q2", "Q3", "Q4", "Q5"];
const BOARD = `${boardHead("drivers")}parts:
${DRIVERS.map((ref) => `  ${ref}: { device: TIP102 }`).join("\n")}
  U1: { device: "7404" }
  U2: { device: "7400" }
  U3: { device: "7404" }
nets:
  GND: [${DRIVERS.map((ref) => `${ref}.3`).join(", ")}, U1.7, U2.7, U3.7]
${DRIVERS.map((ref) => `  OUT_${ref}: [${ref}.2]`).join("\n")}
  A: [U1.1]
  B: [U2.4]
  C: [U3.9]
  D: [U1.12]
grounds: [GND]
expected:
${DRIVERS.map((ref) => `  - { procedure: diode-check, ref: ${ref}, pin: 2, low: 0.4 V, high: 0.6 V, source: invented }`).join("\n")}
`;

const table = (rows: readonly (readonly string[])[]): string =>
  `## Diode check\n\n| Ref | Pin | Reading |\n|-----|-----|---------|\n${rows.map((row) => `| ${row.join(" | ")} |`).join("\n")}\n`;

const collectors = (...readings: string[]): string =>
  table(readings.map((reading, i) => [DRIVERS[i] ?? "", "2", reading]));

async function told(body: string) {
  const { service, uri, view } = await openAt(`${logOf(BOARD, body)}\n$0`);
  const codes = service
    .findings(uri)
    .flatMap(({ code }) => (code === "lead-off-ground" || code === "diode-out-of-window" ? [code] : []));
  const first = diagnosisOf(view)?.diagnosis.candidates[0]?.suspects.map(({ kind }) => kind);
  return { codes, first };
}

test("five collectors open: one finding, and the lead comes first", async () => {
  expect(await told(collectors("OL", "OL", "OL", "OL", "OL"))).toEqual({
    codes: ["lead-off-ground"],
    first: ["misreading"],
  });
});

test("one that conducts shows that the lead was on ground", async () => {
  const { codes, first } = await told(collectors("OL", "OL", "0.482", "OL", "OL"));
  expect(codes).toEqual(Array.from({ length: 4 }, () => "diode-out-of-window"));
  expect(first).not.toContain("misreading");
});

test("three collectors open may be three faults", async () => {
  expect((await told(collectors("OL", "OL", "OL"))).codes).toHaveLength(3);
});

test("open pins here and there may be a list of what was found", async () => {
  const rows = [
    ["U1", "1", "OL"],
    ["U2", "4", "OL"],
    ["U3", "9", "OL"],
    ["U1", "12", "OL"],
  ];
  expect((await told(table(rows))).codes).toEqual(rows.map(() => "diode-out-of-window"));
});
