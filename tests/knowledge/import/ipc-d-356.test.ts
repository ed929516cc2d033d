import { expect, test } from "vitest";
import { netsOf, problemsOf, read } from "./run";

/** A test record by its columns. */
const pad = (net: string, ref: string, pin: string, code = "317"): string =>
  `${code}${net.padEnd(14)}   ${ref.padEnd(6)}-${pin.padEnd(4)} D0600PA00X+017500Y+032000X0900Y0900R000 S3`;
const via = (net: string): string =>
  `317${net.padEnd(14)}   VIA         D0120PA00X+017500Y+032000X0280Y0000R000 S0`;

const HEAD = ["C  a comment", "P  JOB   Halden lane controller", "P  UNITS CUST 0"];
const file = (...lines: string[]): string => [...HEAD, ...lines, "999", ""].join("\n");

test("through hole and surface mount, not connected, a via, a hole, what goes on with a record", () => {
  const board = read(
    file(
      pad("GND", "U14", "7"),
      "017                              D0600PA01X+017500Y+032000",
      pad("+5V", "U14", "14", "327"),
      pad("N/C", "U14", "2"),
      pad("GND", "R1", "2"),
      via("CLOCK"),
      "367N/C              H1          D1250UA00X+001000Y+001000X1250Y0000R000 S0",
      "378GND              L01      X0100 X+000100Y+000100X+000200Y+000200",
      "078                          X0100 X+000200Y+000200X+000300Y+000200",
    ),
  );
  expect(board).toMatchObject({ format: "ipc-d-356", title: "Halden lane controller" });
  expect(netsOf(board)).toEqual({ GND: ["U14.7", "R1.2"], "+5V": ["U14.14"], CLOCK: [] });
  expect(board.parts).toEqual([
    { ref: "U14", pins: ["7", "14", "2"], allPins: false, line: 4 },
    { ref: "R1", pins: ["2"], allPins: false, line: 8 },
  ]);
  expect(problemsOf(board)).toEqual([]);
});

test("long names stand for their short ones, wherever they are given", () => {
  const long = "/lane-drivers/SWITCH_ROW_SELECT_7";
  const board = read(
    file(
      "P  NNAME1    /lane-drivers/SWITCH_ROW_SELECT_8",
      pad("NNAME1", "U1", "1"),
      pad("NNAME2", "U1", "2"),
      pad("NNAME3", "U1", "3"),
      `P  NNAME2    ${long}`,
      "P  NNAME1    /other",
    ),
  );
  expect(netsOf(board)).toEqual({
    "/lane-drivers/SWITCH_ROW_SELECT_8": ["U1.1"],
    [long]: ["U1.2"],
    NNAME3: ["U1.3"],
  });
  expect(problemsOf(board)).toEqual([
    "9 note: NNAME1 is short for /other here and for /lane-drivers/SWITCH_ROW_SELECT_8 in line 4; /lane-drivers/SWITCH_ROW_SELECT_8 is kept.",
    '7 note: NNAME3 is short for a long net name, and no "P  NNAME3" record gives it; it is kept as it is.',
  ]);
});

test("columns count, so that blanks in a net's name and full fields are read", () => {
  const board = read(file(pad("A RATHER LONG", "CONN12", "A12B"), pad("X", "J1", "1", "327")));
  expect(netsOf(board)).toEqual({ "A RATHER LONG": ["CONN12.A12B"], X: ["J1.1"] });
});

test("names cut off at their last column are not joined, and those that only fill it are told", () => {
  const board = read(
    file(
      pad("Net-(BUS1-Pad48)".slice(0, 14), "U1", "1"),
      pad("Net-(BUS1-Pad49)".slice(0, 14), "U2", "1"),
      pad("/SWITCH_ROW_12", "U1", "2"),
      pad("N(1)-and-(2)-3", "U1", "3"),
    ),
  );
  expect(netsOf(board)).toEqual({ "/SWITCH_ROW_12": ["U1.2"], "N(1)-and-(2)-3": ["U1.3"] });
  expect(board.parts.map(({ pins }) => pins.length)).toEqual([3, 1]);
  expect(problemsOf(board)).toEqual([
    '4 lost: A net name is cut off at 14 letters, such as "Net-(BUS1-Pad4", and may be several nets: their pins were not joined. Import the netlist or the layout too.',
    '6 note: 2 net names fill all 14 columns, such as "/SWITCH_ROW_12": two nets with longer names that begin like this would be one here.',
  ]);
});

test("a designator that pushes the rest to the right is read all the same", () => {
  const pushed = "317GND              UART_EN201-1    D0600PA00X+017500Y+032000X0900Y0900R000 S3";
  expect(netsOf(read(file(pushed)))).toEqual({ GND: ["UART_EN201.1"] });
});

test("lines that are none of it are told with their numbers, and the rest is read", () => {
  const board = read(
    file(pad("GND", "U1", "7"), "Hello", "317GND", pad("GND", "U1", "8"), pad("VCC", "U1", "7")),
  );
  expect(netsOf(board)).toEqual({ GND: ["U1.7", "U1.8"] });
  expect(problemsOf(board).map((text) => text.slice(0, 60))).toEqual([
    '5 lost: "Hello" is no record of an IPC-D-356 file, and was n',
    '6 lost: "317GND" does not tell part and pin in columns 21 to',
    "8 lost: U1 pin 7 is on net VCC here and was on GND before. I",
  ]);
});

test.each([
  ["in the middle of a record", -40],
  ["in front of its last record", -5],
])("a file cut off %s says so, and what stands before is kept", (_, end) => {
  const text = file(pad("GND", "U1", "7"), pad("GND", "U1", "8")).slice(0, end);
  const board = read(text);
  expect(netsOf(board).GND?.[0]).toBe("U1.7");
  expect(problemsOf(board)).toEqual([
    "5 lost: The file ends in line 5 without its last record 999: it was probably cut off. Everything before was read; export or copy the file again.",
  ]);
});

test("half a pin's field is not taken for a pin", () => {
  const text = file(pad("GND", "U1", "7"), pad("GND", "U2", "14"));
  const board = read(text.slice(0, text.indexOf("-14") + 2));
  expect(netsOf(board)).toEqual({ GND: ["U1.7"] });
});

test("a second board behind the end is not mixed in", () => {
  const board = read(`${file(pad("GND", "U1", "7"))}${file(pad("VCC", "U1", "7"))}`);
  expect(netsOf(board)).toEqual({ GND: ["U1.7"] });
  expect(problemsOf(board)).toEqual([
    "6 lost: 5 lines are behind the record 999, which ends the file, and were not read. Split the file if two boards are in it.",
  ]);
});

test.each([
  ["to the left", "GD"],
  ["to the right", "GNDX"],
])("a file whose columns were shifted %s is not read as other parts", (_way, name) => {
  const rows = [pad("GND", "U123", "7"), pad("GND", "U124", "7")];
  const board = read(file(...rows.map((row) => row.replace("GND", name))));
  expect([board.parts, board.nets]).toEqual([[], []]);
  expect(board.problems.map(({ kind, line }) => `${line} ${kind}`)).toEqual(["4 lost", "5 lost"]);
});

test.each(["\r\n", "\r"])("lines may end in %j", (end) => {
  const text = file(pad("GND", "U1", "7"), pad("GND", "R1", "1")).replaceAll("\n", end);
  expect(netsOf(read(text))).toEqual({ GND: ["U1.7", "R1.1"] });
});
