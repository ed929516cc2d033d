import { expect, test } from "vitest";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { type Files, run } from "./memory";

const NETLIST = `(export (version "E")
  (components
    (comp (ref "U1") (value "74LS04") (footprint "Package_DIP:DIP-14_W7.62mm"))
    (comp (ref "U2") (value "74LS00") (footprint "Package_DIP:DIP-14_W7.62mm"))
    (comp (ref "U3") (value "XYZ1234"))
    (comp (ref "R1") (value "4k7")))
  (nets
    (net (code "1") (name "+5V") (node (ref "U1") (pin "14")) (node (ref "U2") (pin "14")) (node (ref "R1") (pin "1")))
    (net (code "2") (name "GND") (node (ref "U1") (pin "7")) (node (ref "U2") (pin "7")))
    (net (code "3") (name "/START") (node (ref "U1") (pin "1")) (node (ref "R1") (pin "2")))
    (net (code "4") (name "unconnected-(U2-Pad1)") (node (ref "U2") (pin "1")))))
`;
const LIST = 'Item;Value;Reference\r\n1;4k7;"R1, R2"\r\n2;100 nF;C1-C3\r\n';

const files: Files = { "in/halden.net": NETLIST, "in/bom.csv": `\uFEFF${LIST}` };
const problems = (text: string) =>
  loadBoard(text, { deviceOf: (part) => builtinLibrary().device(part)?.device }).problems;

test("prints the board file, and tells on standard error what was found", async () => {
  const { code, out, err, written } = await run(["board", "import", "in/halden.net"], files);
  expect([code, written.size]).toEqual([0, 0]);
  expect(problems(out)).toEqual([]);
  expect(out).toMatchInlineSnapshot(`
    "mendlog-board: 1
    id: halden
    title: halden
    grounds: [GND]
    rails:
      "+5V": { nominal: 5 V, tolerance: 5 %, net: "+5V", source: "guessed by the import; tolerance: common practice, no source" } # netlist halden.net, line 8: guessed from the net's name
    parts:
      R1: { value: 4k7 } # netlist halden.net, line 6
      U1: { device: 74LS04, package: DIP-14 } # netlist halden.net, line 3
      U2: { device: 74LS00, package: DIP-14 } # netlist halden.net, line 4
      U3: { device: XYZ1234 } # netlist halden.net, line 5
    nets:
      "+5V": [U1.14, U2.14, R1.1] # netlist halden.net, line 8
      GND: [U1.7, U2.7] # netlist halden.net, line 9
      /START: [U1.1, R1.2] # netlist halden.net, line 10
    "
  `);
  expect(err).toMatchInlineSnapshot(`
    "halden.net: netlist, 4 parts, 4 nets, 8 pins
    2 parts of 4 known to the library, 1 with a number that is not; the others have a value only
      U3 XYZ1234: not in the library
    3 nets; 1 pin connected to nothing left out
    rail +5V: 5 V, 5 %, guessed from the net's name
    ground GND: guessed from the net's name
    "
  `);
});

test("a netlist and a parts list are one board", async () => {
  const { code, out } = await run(
    ["board", "import", "in/halden.net", "in/bom.csv", "--board", "halden-2"],
    files,
  );
  expect(code).toBe(0);
  expect(out).toContain("id: halden-2\n");
  expect(out).toContain("  R2: { value: 4k7 } # parts list bom.csv, line 2\n");
  expect(out).toContain("  C2: { value: 100 nF } # parts list bom.csv, line 3\n");
});

test("writes a new file, and prints its path", async () => {
  const { code, out, written } = await run(
    ["board", "import", "in/halden.net", "-o", "new.board.yaml"],
    files,
  );
  expect([code, out, [...written.keys()]]).toEqual([0, "new.board.yaml\n", ["/w/new.board.yaml"]]);
  expect(written.get("/w/new.board.yaml")).toContain("id: new\n");
});

const TYPED = `mendlog-board: 1
id: halden
title: Halden lane controller # typed by hand
parts:
  U1: { device: 7404, note: in a socket } # checked
  # to be looked at
nets:
  LANE_START: [U1.1]
`;

test("completes a file that is there: what was typed stays, and a renamed net keeps its name", async () => {
  const there = { ...files, "b/halden.board.yaml": `\uFEFF${TYPED.replaceAll("\n", "\r\n")}` };
  const { code, out, err, written } = await run(
    ["board", "import", "in/halden.net", "-o", "b/halden.board.yaml"],
    there,
  );
  expect([code, out]).toEqual([0, "b/halden.board.yaml\n"]);
  const text = written.get("/w/b/halden.board.yaml") ?? "";
  expect(text.startsWith("\uFEFFmendlog-board: 1\r\n")).toBe(true);
  expect(text.replaceAll("\r\n", "")).not.toContain("\n");
  expect(problems(text.slice(1))).toEqual([]);
  expect(text.slice(1).replaceAll("\r\n", "\n")).toMatchInlineSnapshot(`
    "mendlog-board: 1
    id: halden
    title: Halden lane controller # typed by hand
    grounds: [GND]
    rails:
      "+5V": { nominal: 5 V, tolerance: 5 %, net: "+5V", source: "guessed by the import; tolerance: common practice, no source" } # netlist halden.net, line 8: guessed from the net's name
    parts:
      U1: { device: 7404, note: in a socket, package: DIP-14 } # checked; U1 package: netlist halden.net, line 3
      # to be looked at
      R1: { value: 4k7 } # netlist halden.net, line 6
      U2: { device: 74LS00, package: DIP-14 } # netlist halden.net, line 4
      U3: { device: XYZ1234 } # netlist halden.net, line 5
    nets:
      LANE_START: [U1.1, R1.2] # R1.2: netlist halden.net, line 10
      "+5V": [U1.14, U2.14, R1.1] # netlist halden.net, line 8
      GND: [U1.7, U2.7] # netlist halden.net, line 9
    "
  `);
  expect(err).toMatchInlineSnapshot(`
    "halden.net: netlist, 4 parts, 4 nets, 8 pins
    2 parts of 4 known to the library, 1 with a number that is not; the others have a value only
      U3 XYZ1234: not in the library
    3 nets; 1 pin connected to nothing left out
    rail +5V: 5 V, 5 %, guessed from the net's name
    ground GND: guessed from the net's name
    9 entries added to or completed in the board file
    net /START is LANE_START in the board file
    parts U1, device: the board file has 7404, the import 74LS04; the board file stays
    "
  `);
  const again = await run(["board", "import", "in/halden.net", "-o", "b/halden.board.yaml"], {
    ...there,
    "b/halden.board.yaml": text,
  });
  expect([again.code, again.written.size]).toEqual([0, 0]);
  expect(again.err).toContain("all of it was in the board file already\n");
});

test("a file cut off in the middle gives what stands before, with the line, and exit status 1", async () => {
  const cut = NETLIST.slice(0, NETLIST.indexOf('"/START"') + 4);
  const { code, out, err } = await run(["board", "import", "cut.net"], { "cut.net": cut });
  expect(code).toBe(1);
  expect(out).toContain("GND: [U1.7, U2.7]");
  expect(out).not.toContain("ST:");
  expect(err).toMatchInlineSnapshot(`
    "cut.net: netlist, 4 parts, 2 nets, 5 pins
      line 10: A net of 0 pins without a name; it is left out. Label it in the schematic and export again.
      line 10: The file ends in line 10 in the middle of "(name", begun in line 10: it was cut off, or a parenthesis is missing. Everything before it was read; export or copy the file again.
    2 parts of 4 known to the library, 1 with a number that is not; the others have a value only
      U3 XYZ1234: not in the library
    2 nets
    rail +5V: 5 V, 5 %, guessed from the net's name
    ground GND: guessed from the net's name
    "
  `);
});

test("--format json is the report as one object on standard output", async () => {
  const { code, out, err } = await run(["board", "import", "--format", "json", "in/halden.net"], files);
  const { format, text, report } = JSON.parse(out);
  expect([code, err, format]).toEqual([0, "", 1]);
  expect(problems(text)).toEqual([]);
  expect(report.matched).toEqual([
    { ref: "U1", value: "74LS04", device: "7404" },
    { ref: "U2", value: "74LS00", device: "7400" },
  ]);
  expect(report.unmatched).toEqual([{ ref: "U3", value: "XYZ1234", reason: "not in the library" }]);
  expect(report.rails).toMatchObject([{ name: "+5V", net: "+5V", nominal: "5 V", weak: false }]);
  expect(report.grounds).toMatchObject([{ net: "GND", weak: false }]);
  expect(report.files[0]).toMatchObject({
    name: "halden.net",
    format: "netlist",
    parts: 4,
    nets: 4,
    pins: 8,
  });
});

test("devices of the workspace are known too", async () => {
  const device = `mendlog-device: 1
id: XYZ1234
title: Timer
kind: other
families: []
package: { name: DIP-8, pins: 8 }
pins: { 8: { name: VCC, direction: supply } }
source: invented
`;
  const { err } = await run(["board", "import", "in/halden.net"], {
    ...files,
    "own/xyz.device.yaml": device,
  });
  expect(err).toContain("3 parts of 4 known to the library");
  const unread = { ...files, "own/xyz.device.yaml": { reason: "cannot be opened: you have no permission" } };
  const without = await run(["board", "import", "in/halden.net"], unread);
  expect(without.err).toContain("own/xyz.device.yaml cannot be opened: you have no permission.\n");
  expect([without.code, problems(without.out)]).toEqual([0, []]);
});

const BOARD = "mendlog-board: 1\nid: other\ntitle: Other\n";
test.each<[string, Files, string[], string]>([
  ["nothing to import", {}, [], "Name the netlist, board layout or parts list"],
  ["a file that is not there", {}, ["gone.net"], "gone.net is not there."],
  ["a folder", files, ["in"], "in is no file."],
  ["an empty file", { "a.net": " \n" }, ["a.net"], "a.net is empty."],
  [
    "a binary file",
    { "a.net": new Uint8Array([40, 1, 0, 2]) },
    ["a.net"],
    "a.net is no text but binary data",
  ],
  [
    "a file of a kind not known",
    { "a.txt": "Dear customer,\n" },
    ["a.txt"],
    "a.txt is of a kind that is not known here",
  ],
  [
    "a file too large",
    { "a.net": { size: 40 * 1024 * 1024, head: "" } },
    ["a.net"],
    "40 MiB large, and 32 MiB is the most",
  ],
  ["a schematic", { "a.x": "(kicad_sch (version 1))" }, ["a.x"], "a.x is a schematic"],
  ["another kind of output", files, ["in/halden.net", "-o", "x.yaml"], "x.yaml is no name for a board file"],
  [
    "a folder that is not there",
    files,
    ["in/halden.net", "-o", "no/x.board.yaml"],
    "the folder no is not there",
  ],
  [
    "another board's file",
    { ...files, "x.board.yaml": BOARD },
    ["in/halden.net", "--board", "halden", "-o", "x.board.yaml"],
    "is the board file of other, not of halden",
  ],
  [
    "a board file that is broken",
    { ...files, "x.board.yaml": `${BOARD}parts: [\n` },
    ["in/halden.net", "-o", "x.board.yaml"],
    "Line 4 of the board file is not valid YAML, so nothing was written",
  ],
  [
    "a board file that cannot be written",
    { ...files, "x.board.yaml": { text: BOARD, kept: "cannot be written: the disk is full" } },
    ["in/halden.net", "-o", "x.board.yaml"],
    "x.board.yaml cannot be written: the disk is full. Nothing was changed.",
  ],
  [
    "an id that is none",
    files,
    ["in/halden.net", "--board", "a b"],
    '--board takes an id such as a-b, not "a b".',
  ],
  ["an option that is none", files, ["in/halden.net", "--force"], "--force"],
])("refuses %s", async (_, given, args, message) => {
  const { code, out, err, written } = await run(["board", "import", ...args], given);
  expect(err).toContain(message);
  expect([code, out, written.size]).toEqual([2, "", 0]);
});

test("the group says what it has", async () => {
  expect((await run(["board"], {})).err).toContain("board import");
  expect((await run(["board", "imoprt"], {})).err).toContain("Did you mean board import?");
  expect((await run(["board", "--help"], {})).out).toContain("mendlog board import FILE");
  expect((await run(["board", "import", "--help"], {})).out).toContain("IPC-D-356");
});
