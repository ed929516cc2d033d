// Headers whose pins were counted from the other end: ground stands at the wrong end of them, and what is on their lines
// says what the others read. A joint and a short beside it are faults of the board.
import { expect, test } from "vitest";
import { diagnosisOf } from "../../../server/src/review/diagnosis/of-log";
import { boardHead, logOf } from "../../support/boards";
import { openAt } from "../../support/workspace";

const LINES = [1, 2, 3, 4, 5, 6];
const INPUTS = [1, 3, 5, 9, 11, 13];
const BOARD = `${boardHead("headers")}parts:
  U1: { device: 74LS14 }
  J1: { value: 7-way header, package: SIP-7 }
  J2: { value: 14-way header, package: header 2 x 7 }
nets:
  GND: [U1.7, J1.7, J2.13]
  VCC: [U1.14]
${LINES.map((line, i) => `  LINE_${line}: [U1.${INPUTS[i]}, J1.${line}, J2.${line}]`).join("\n")}
rails:
  +5V: { nominal: 5 V, tolerance: 5 %, net: VCC }
grounds: [GND]
`;

const table = (ref: string, readings: string): string =>
  `## Diode check ${ref}\n\n| Pin | Reading |\n|-----|---------|\n${readings
    .split(" ")
    .map((one, i) => `| ${i + 1} | ${one} |`)
    .join("\n")}\n`;

async function told(body: string) {
  const { service, uri, view } = await openAt(`${logOf(BOARD, body)}\n$0`);
  const codes = service
    .findings(uri)
    .flatMap(({ code }) => (["pins-miscounted", "diode-out-of-window"].includes(code) ? [code] : []));
  const first = diagnosisOf(view)?.diagnosis.candidates[0]?.suspects.map(({ kind }) => kind) ?? [];
  return { codes, first };
}

test("ground at the first pin in place of the last", async () => {
  expect(await told(table("J1", "0.001 0.561 0.566 0.553 0.559 0.563 0.557"))).toEqual({
    codes: ["pins-miscounted"],
    first: ["misreading"],
  });
});

test("a header of two rows", async () => {
  const readings = "OL 0.001 OL OL OL OL OL OL 0.561 0.566 0.553 0.559 0.563 0.557";
  expect((await told(table("J2", readings))).codes).toEqual(["pins-miscounted"]);
});

test("as it is", async () => {
  expect((await told(table("J1", "0.561 0.566 0.553 0.559 0.563 0.557 0.001"))).codes).toEqual([]);
});

test("a ground pin with an open joint, and a line that is shorted elsewhere", async () => {
  const open = await told(table("J1", "0.561 0.566 0.553 0.559 0.563 0.557 0.571"));
  expect(open.codes).toEqual(["diode-out-of-window"]);
  expect(open.first).not.toContain("misreading");
  expect((await told(table("J1", "0.561 0.001 0.553 0.559 0.563 0.557 0.571"))).codes).toEqual([
    "diode-out-of-window",
  ]);
});

test("a header that has fewer pins than were read is only spoken of", async () => {
  const readings = "0.001 0.561 0.566 0.553 0.559 0.563 0.557 0.561 0.560";
  expect((await told(table("J1", readings))).codes).not.toContain("pins-miscounted");
});

test("with the lead off ground, and no word of a chip or its socket", async () => {
  const { service, uri } = await openAt(`${logOf(BOARD, table("J1", "OL OL OL OL OL OL OL"))}\n$0`);
  expect(service.findings(uri).map(({ code, cause }) => [code, cause])).toEqual([
    ["lead-off-ground", "The lead was not on ground."],
  ]);
});

test("nothing is told of a plug that hangs in the air", async () => {
  expect((await told(table("J1", "OL OL OL OL OL OL 0.001"))).codes).toEqual([]);
});
