// Readings beside the wrong place, on another range, or of a charge, as the readings around them show; each beside what is none.
import { expect, test } from "vitest";
import { boardHead } from "../../support/boards";
import { diagnosedOn } from "../../support/diagnosed";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, load: 1 A, net: VCC, source: invented }
  "+12V": { nominal: 12 V, tolerance: 5 %, load: 1 A, net: V12, source: invented }
  "-12V": { nominal: -12 V, tolerance: 5 %, load: 1 A, net: VN12, source: invented }
  Lamps: { nominal: 12 V, tolerance: 20 %, load: 1 A, net: VL, source: invented }
parts:
  U1: { device: 74LS138 }
  U2: { device: 74LS04 }
  J1: { value: 8-way header }
  J2: { value: 2-way header }
  Q1: { device: 2N4403 }
  Q2: { device: 2N4403 }
  Q3: { device: 2N3904 }
  Q4: { device: 2N3904 }
  Q5: { device: TIP102 }
  Q6: { device: TIP102 }
nets:
  GND: [U1.8, U2.7, Q5.3, Q6.3, J1.8]
  VCC: [U1.16, U2.14]
  V12: [J1.7]
  VN12: [J2.1]
  VL: [J2.2]
  O0: [U1.15, J1.1]
  O1: [U1.14, J1.2]
  O2: [U1.13, J1.3]
  O3: [U1.12, J1.4, U2.1]
  O4: [U1.11, J1.5, U2.3]
  O5: [U1.10, J1.6, U2.5]
coils:
  - { title: Bell, driver: Q5, resistance: 12 ohm, tolerance: 10 %, supply: "+12V" }
  - { title: Gate, driver: Q6, resistance: 20 ohm, tolerance: 10 %, supply: "+12V" }
matrices:
  switches: { kind: switch, title: Switches, rows: [O0, O1, O2], columns: [O3, O4, O5] }
`;
const table = (heading: string, columns: string, ...rows: readonly string[]): string =>
  `## ${heading}\n\n| ${columns} |\n|${columns.replace(/[^|]+/g, "---")}|\n${rows.map((row) => `| ${row} |\n`).join("")}\n`;
const mistakes = async (...body: readonly string[]) =>
  (await diagnosedOn(BOARD, body.join("\n"))).findings.flatMap(({ finding }) =>
    finding.kind === "table" ? [`${finding.refs.join(" ")}: ${finding.mistake}`] : [],
  );
const COUNTED = "the pins were counted from the wrong end";
const SHIFTED = "the column was shifted by a row";

const at = (ref: string, pins: readonly number[], values: readonly string[]): string[] =>
  pins.map((pin, i) => `${ref} | ${pin} | ${values[i]}`);
const CHIP = [15, 14, 13, 12, 11, 10];
const LINES = ["3.41", "0.12", "4.60", "0.20", "3.95", "0.15"];
const levels = (...rows: readonly string[]) => table("Voltages at pins", "Chip | Pin | V", ...rows);

test("a header that reads what the chip reads, from the other end", async () => {
  const header = at("J1", [8, 7, 6, 5, 4, 3], LINES);
  expect(await mistakes(levels(...at("U1", CHIP, LINES), ...header))).toEqual([`J1: ${COUNTED}`]);
});

test("a header that reads what the chip reads", async () => {
  const header = at("J1", [1, 2, 3, 4, 5, 6], LINES);
  expect(await mistakes(levels(...at("U1", CHIP, LINES), ...header))).toEqual([]);
});

test("a header that reads what the chip reads, a row too low, and two lines that are open", async () => {
  const slid = at("J1", [1, 2, 3, 4, 5, 6], [LINES[0] as string, ...LINES]);
  expect(await mistakes(levels(...at("U1", CHIP, LINES)), levels(...slid))).toEqual([`J1: ${SHIFTED}`]);
  const open = at("J1", [1, 2, 3, 4, 5, 6], ["3.41", "1.60", "4.60", "1.61", "3.95", "0.15"]);
  expect(await mistakes(levels(...at("U1", CHIP, LINES)), levels(...open))).toEqual([]);
});

test("frequencies of which both ends disagree until they are moved up by a row", async () => {
  const pins = ["U1 | 12", "U2 | 1", "U1 | 11", "U2 | 3", "U1 | 10", "U2 | 5"];
  const of = (...hertz: readonly string[]) =>
    table("Frequency", "Chip | Pin | Frequency", ...pins.map((pin, i) => `${pin} | ${hertz[i]} kHz`));
  expect(await mistakes(of("8", "8", "8", "4", "4", "2"))).toEqual([`U1 U2: ${SHIFTED}`]);
  expect(await mistakes(of("8", "8", "4", "4", "2", "2"))).toEqual([]);
});

test("what was rung out at a header from the other end, and tracks that are open", async () => {
  const rung = (...results: readonly string[]) =>
    table(
      "Continuity",
      "From | To | Result",
      ...CHIP.slice(0, 5).map((pin, i) => `U1-${pin} | J1-${i + 1} | ${results[i]}`),
      `U1-15 | J1-8 | ${results[5]}`,
      `U1-14 | J1-7 | ${results[5]}`,
    );
  expect(await mistakes(rung("open", "open", "open", "open", "open", "beep"))).toEqual([`J1: ${COUNTED}`]);
  expect(await mistakes(rung("open", "beep", "open", "beep", "open", "open"))).toEqual([]);
});

test("every row of a matrix answers as the one from the other end, on the bare board", async () => {
  const grid = (said: string, row: (n: number) => number) =>
    `## Switch matrix\n\n${said}\n\n| Row | 1 | 2 | 3 |\n|---|---|---|---|\n${[1, 2, 3]
      .map((n) => `| ${n} | ${[1, 2, 3].map((c) => `closes ${row(n)},${c}`).join(" | ")} |\n`)
      .join("")}`;
  expect(await mistakes(grid("Bare board, bridged by hand.", (n) => 4 - n))).toEqual([`J1: ${COUNTED}`]);
  expect(await mistakes(grid("In the machine.", (n) => 4 - n))).toEqual([]);
});

test("junctions a row too low, told by one that stands twice; and a transistor that is another", async () => {
  const pnp = "OL | OL | 0.681 | 0.662";
  const npn = "0.690 | 0.671 | OL | OL";
  const of = (...rows: readonly string[]) =>
    table("Transistor check", "Q | BE | BC | EB | CB", ...rows.map((row, i) => `Q${i + 1} | ${row}`));
  expect(await mistakes(of(pnp, pnp, "OL | OL | 0.679 | 0.661", npn))).toEqual([`Q3 Q4: ${SHIFTED}`]);
  expect(await mistakes(of(pnp, "OL | OL | 0.684 | 0.665", "OL | OL | 0.679 | 0.661", npn))).toEqual([]);
});

test("coils by their names: on the kilohm range; and one that is shorted", async () => {
  const coils = (bell: string, gate: string) =>
    table("Coil resistance", "Coil | Ohms", `Bell | ${bell}`, `Gate | ${gate}`);
  const range = "the meter was on another range, or the unit is";
  expect(await mistakes(coils("0.012", "0.021"))).toEqual([`Bell Gate: ${range}`]);
  expect(await mistakes(coils("12.1k", "20.4k"))).toEqual([`Bell Gate: ${range}`]);
  expect(await mistakes(coils("0.2", "20.4"))).toEqual([]);
});

test("clocks at a tenth of what their rows say, and one that is", async () => {
  const clocks = (...of: readonly string[]) =>
    table(
      "Clock check",
      "Chip | Pin | Frequency | Nominal",
      ...of.map((one, i) => `U1 | ${15 - i} | ${one}`),
    );
  expect(await mistakes(clocks("200.1 kHz | 2 MHz", "20.8 Hz | 210 Hz"))).toEqual([
    "U1: the counter was on another range",
  ]);
  expect(await mistakes(clocks("2.001 MHz | 2 MHz", "20.8 Hz | 210 Hz"))).toEqual([]);
});

test("ripple that is each rail's own voltage, and ripple that is high", async () => {
  const rails = (five: string, twelve: string) =>
    table("Supply rails", "Rail | DC | Ripple", `+5V | 5.03 | ${five}`, `+12V | 12.1 | ${twelve}`);
  expect(await mistakes(rails("5.02 V", "12.1 V"))).toEqual([
    "+5V +12V: the meter was on another range, on DC for AC",
  ]);
  expect(await mistakes(rails("0.9 V", "2.1 V"))).toEqual([]);
});

test("no rail up on a board that was tried, and on one that was not", async () => {
  const rails = table("Supply rails", "Rail | V", "+5V | 0.01", "+12V | 0.3", "-12V | -0.1", "Lamps | 5.8");
  const tried = table("Play test", "Game | Result", "game 1 | ok");
  expect(await mistakes(rails, tried)).toEqual([
    "+5V +12V -12V Lamps: the meter was on another range, AC or millivolts, or its lead was off",
  ]);
  expect(await mistakes(rails)).toEqual([]);
});

test("drops below any junction, or that creep: a charge; ohms on the diode range", async () => {
  const drops = (...values: readonly string[]) =>
    table("Diode check", "Conn | Pin | Drop | Note", ...values.map((one, i) => `J1 | ${i + 1} | ${one}`));
  const charged = ["J1: the board was still charged"];
  expect(await mistakes(drops("-2.31 | ", "-2.24 | ", "-2.20 | ", "-2.11 | "))).toEqual(charged);
  expect(await mistakes(drops("1.31 | climbing", "1.24 | climbing", "1.20 | climbing"))).toEqual(charged);
  expect(await mistakes(drops("6.81 | ", "6.97 | ", "7.02 | ", "5.44 | "))).toEqual([
    "J1: the meter was on another range, or the unit is",
  ]);
  expect(await mistakes(drops("0.61 | ", "0.62 | ", "0.61 | ", "0.60 | "))).toEqual([]);
});

test("rails below nothing one way and open the other", async () => {
  const rails = table(
    "Resistance to ground",
    "Rail | Ohms | Reversed",
    "+5V | 210 | 230",
    "+12V | -14k | >20M",
    "-12V | 2.1k | 3k",
  );
  expect(await mistakes(rails)).toEqual(["+12V: the board was still charged"]);
});
