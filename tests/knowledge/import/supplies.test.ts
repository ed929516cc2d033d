import { describe, expect, test } from "vitest";
import { isGroundName, voltageNamed } from "../../../server/src/knowledge/import/net-name";
import { imported } from "./run";

describe("voltages in names of nets", () => {
  test.each<[string, number]>([
    ["+5V", 5],
    ["5V", 5],
    ["+5", 5],
    ["-12V", -12],
    ["/power/+12V", 12],
    ["+3V3", 3.3],
    ["+3.3V", 3.3],
    ["/xilinx/+3,3V_OUT", 3.3],
    ["VCC_5V", 5],
    ["P12V", 12],
    ["N12V", -12],
    ["12V_RAW", 12],
    ["+34V_COILS", 34],
    ["+5VA", 5],
  ])("%s", (net, volts) => expect(voltageNamed(net)?.nominal).toBe(volts));

  test.each([
    "5V_OK",
    "D5",
    "A12",
    "+",
    "/SLCT+",
    "/PE+",
    "12VAC",
    "V",
    "0V",
    "/PWR_3,3-5V",
    "VREF",
    "5",
    "+5000V",
    "/U1D+",
  ])("%s says none", (net) => expect(voltageNamed(net)).toBeUndefined());

  test("what no regulator holds is told by its words", () => {
    expect(voltageNamed("+12V_UNREG")?.unregulated).toBe(true);
    expect(voltageNamed("+12V_LOGIC")?.unregulated).toBe(false);
  });

  test.each(["GND", "/GND", "AGND", "GNDA", "DGND", "0V", "VSS", "/power/GND"])("%s is a ground", (net) =>
    expect(isGroundName(net)).toBe(true),
  );
  test.each(["GND_SENSE", "EARTH", "/BGND_EN", "10V"])("%s is none", (net) =>
    expect(isGroundName(net)).toBe(false),
  );
});

/** A netlist of parts "U1=74LS04" and nets "GND: U1.7 U2.7". */
function netlist(parts: string, ...nets: string[]): string {
  const comps = parts.split(" ").map((part) => {
    const [ref, value] = part.split("=");
    return `(comp (ref "${ref}") (value "${value}"))`;
  });
  const listed = nets.map((net) => {
    const [name, pins = ""] = net.split(": ");
    const nodes = pins
      .split(" ")
      .map((pin) => `(node (ref "${pin.split(".")[0]}") (pin "${pin.split(".")[1]}"))`);
    return `(net (code "1") (name "${name}") ${nodes.join(" ")})`;
  });
  return `(export (components ${comps.join(" ")}) (nets ${listed.join(" ")}))`;
}

function board(parts: string, ...nets: string[]) {
  const made = imported({ "a.net": netlist(parts, ...nets) });
  if (!made.ok) throw new Error(made.reasons.join());
  return made;
}

const TTL = "U1=74LS04 U2=7400 U3=74LS08";

test("a name that says its voltage is written, with where it comes from behind it", () => {
  const { text } = board(TTL, "/psu/+12V: R1.1", "+5V: U1.14 U2.14", "GND: U1.7");
  expect(text).toMatch(/^grounds: \[GND\]$/m);
  expect(text).toMatch(
    /^ {2}"\+12V": \{ nominal: 12 V, tolerance: 10 %, net: \/psu\/\+12V, .*# .*: guessed from the net's name$/m,
  );
  expect(text).toMatch(/^ {2}"\+5V": \{ nominal: 5 V, tolerance: 5 %/m);
});

test("what only the pins say is a comment and no more", () => {
  const { text, report } = board(TTL, "N001: U1.14 U2.14 R1.1", "N002: U1.7 U2.7");
  expect(text).toMatch(
    /^ *# ?"\+5V": \{ nominal: 5 V, .*net: N001.*# guess: .*the supply pins of U1, U2, which are 5 V parts$/m,
  );
  expect(text).not.toMatch(/^grounds:/m);
  expect(report.grounds).toEqual([{ net: "N002", why: "the ground pins of U1, U2", weak: true }]);
});

test("VCC is a rail where its parts say so, and a guess where nothing does", () => {
  expect(board(TTL, "VCC: U1.14 R1.1").report.rails).toMatchObject([
    { name: "VCC", nominal: "5 V", weak: false },
  ]);
  expect(board(TTL, "VCC: R1.1 R2.1").report.rails).toMatchObject([
    { name: "VCC", nominal: "5 V", weak: true },
  ]);
  expect(board("U1=7812 R1=1k", "VCC: U1.3 R1.1").report.rails).toMatchObject([
    { nominal: "12 V", weak: false },
  ]);
});

test("one pin alone says nothing, and neither do pins that disagree", () => {
  expect(board(TTL, "N001: U1.14 R1.1").report.rails).toEqual([]);
  expect(board("U1=7812 U2=7400 U3=7404", "N1: U1.3 U2.14 U3.14").report.rails).toEqual([]);
});

test("the other supplies of a part of several are not taken for 5 V", () => {
  const { report } = board(
    "U1=2708 U2=2708 U3=CD4011",
    "N1: U1.19 U2.19",
    "N2: U1.21 U2.21",
    "N3: U1.24 U2.24 U3.14",
  );
  expect(report.rails.map(({ net }) => net)).toEqual(["N3"]);
});

test("VSS with more supply pins than grounds on it is no ground", () => {
  expect(board(TTL, "VSS: U1.14 U2.14").report.grounds).toEqual([]);
  expect(board("U1=6802 U2=2114", "VSS: U1.1 U1.21 U2.9").report.grounds).toMatchObject([
    { net: "VSS", weak: false },
  ]);
});

test("a supply whose voltage nothing tells is told", () => {
  expect(board(TTL, "VEE: R1.1 R2.1").report.unknownSupplies).toEqual(["VEE"]);
});

test("two nets of one name on two sheets are two rails", () => {
  const { report, text } = board(TTL, "+5V: U1.14 U2.14", "/b/+5V: U3.14 R1.1");
  expect(report.rails.map(({ name }) => name)).toEqual(["+5V", "/b/+5V"]);
  expect(text).toContain("net: /b/+5V");
});
