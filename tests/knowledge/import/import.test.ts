import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { importBoard, MOST_IMPORTED, reportText } from "../../../server/src/knowledge/import";
import { MOST_PARTS, MOST_PINS } from "../../../server/src/knowledge/import/builder";
import { decodeImported } from "../../../server/src/knowledge/import/decode";
import { recognise } from "../../../server/src/knowledge/import/read";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import { imported, read, run } from "./run";

const netlist = (comps: string, nets: string): string => `(export (components ${comps})\n(nets ${nets}))`;
const PCB = `(kicad_pcb (net 1 "A{slash}B") (net 2 "GND")
  (footprint "Package_DIP:DIP-14_W7.62mm" (fp_text reference "U1") (fp_text value "74LS04")
    (pad "1" smd (net 1 "A{slash}B")) (pad "7" smd (net 2 "GND"))
    ${[2, 3, 4, 5, 6, 8, 9, 10, 11, 12, 13, 14].map((pin) => `(pad "${pin}" smd)`).join(" ")})
  (footprint "X" (fp_text reference "U***") (fp_text value "Z") (pad "1" smd (net 2 "GND")))
  (footprint "Y" (fp_text reference "Q1") (fp_text value "2N3904") (pad "E" smd (net 2 "GND")) (pad "B(" smd (net 1 "A{slash}B"))))`;

describe("what a file is, is told by what is in it", () => {
  test.each([
    ["  (kicad_pcb (version 1))", "pcb"],
    ["\n(export (version D))", "netlist"],
    [`C  x\n317GND              U1    -1   \n999\n`, "ipc-d-356"],
    ["P  JOB x\r\n327GND              U1    -1   \r\n", "ipc-d-356"],
    [
      `C  x\n${"P  NNAME1    /a/long/name\n".repeat(1_000)}317GND              U1    -1   \n999\n`,
      "ipc-d-356",
    ],
    ["Ref,Value\nR1,1k\n", "parts-list"],
  ])("%j", (text, format) => expect(recognise(text)).toMatchObject({ ok: true, format }));

  test.each([
    ["", "is empty. Export it again"],
    ["\n \n", "is empty"],
    ["PK\u0003\u0004 zip", "is no text but binary data"],
    ["(kicad_sch (version 1))", "is a schematic"],
    ["(gerber", "begins with (gerber, which is not known here"],
    ["<?xml version='1.0'?><export/>", "it is XML"],
    ["PCBNEW-BOARD Version 1", "of the old kind"],
    ["R1,4k7\nR2,1k\n", "a parts list without headers"],
    ["Dear customer", "is of a kind that is not known here. What can be read"],
  ])("%j is refused", (text, reason) => {
    const found = recognise(text);
    expect(found.ok ? "" : found.reason).toContain(reason);
  });

  test("more than is read is refused by its size", () => {
    expect(recognise(" ".repeat(MOST_IMPORTED + 1))).toMatchObject({
      ok: false,
      reason: expect.stringContaining("are the most that is read"),
    });
  });
});

describe("bytes", () => {
  const bytes = (text: string, unit: 1 | 2): Uint8Array =>
    Uint8Array.from(
      [...text].flatMap((c) =>
        unit === 1 ? [c.charCodeAt(0)] : [c.charCodeAt(0) & 255, c.charCodeAt(0) >> 8],
      ),
    );
  test("UTF-8 with a mark, UTF-16, a code page", () => {
    expect(decodeImported(new TextEncoder().encode("\uFEFFµ"))).toEqual({ ok: true, text: "µ" });
    expect(decodeImported(bytes("\uFEFFµΩ", 2))).toEqual({ ok: true, text: "µΩ" });
    expect(decodeImported(bytes("4µ7", 1))).toMatchObject({
      ok: true,
      text: "4µ7",
      note: expect.stringContaining("Windows-1252"),
    });
    expect(decodeImported(Uint8Array.of(1, 0, 2))).toMatchObject({
      ok: false,
      reason: expect.stringContaining("binary data"),
    });
  });
});

describe("limits", () => {
  const lines = (count: number, line: (n: number) => string): string =>
    Array.from({ length: count }, (_, n) => line(n)).join("\n");

  test("a netlist of a million lines is refused with a message, and little of it is kept", () => {
    const text = netlist(
      '(comp (ref "U1"))',
      `(net (name "A")\n${lines(1_000_000, (n) => `(node (ref U${n % 900}) (pin ${n}))`)})`,
    );
    expect(text.length).toBeLessThan(MOST_IMPORTED);
    const { value, steps } = run(
      importBoard({ files: [{ name: "big.net", text }], library: builtinLibrary() }),
    );
    expect(value.ok ? [] : value.reasons).toEqual([
      expect.stringMatching(/^big\.net: One net or part fills the file up to line \d+: this is no single/),
    ]);
    expect(steps.length).toBeGreaterThan(0);

    const small = netlist(
      '(comp (ref "U1"))',
      lines(1_000_000, (n) => `(net (name N${n >> 2})(node (ref U1)(pin ${n})))`),
    );
    expect(small.length).toBeGreaterThan(MOST_IMPORTED);
    expect(read(small.slice(0, MOST_IMPORTED))).toMatchObject({
      parts: [],
      nets: [],
      problems: [{ kind: "refused", message: expect.stringContaining("More than 10000 pins by line 10002") }],
    });
  });

  test("so is an IPC-D-356 file, a layout and a parts list of a million lines", () => {
    const d356 = lines(
      350_000,
      (n) => `317NET${n % 500}`.padEnd(20) + `U${n % 500}`.padEnd(6) + `-${Math.floor(n / 500)}`.padEnd(6),
    );
    expect(read(d356).problems).toMatchObject([{ kind: "refused" }]);
    const list = `Ref,Value\n${lines(1_000_000, (n) => `R${n},1k`)}`;
    expect(read(list).problems).toMatchObject([{ kind: "refused", line: MOST_PARTS + 2 }]);
    const pcb = `(kicad_pcb ${lines(200_000, (n) => `(footprint "R" (fp_text reference "R${n}")(pad "1" smd (net 1 "A")))`)})`;
    expect(read(pcb).problems).toMatchObject([{ kind: "refused" }]);
  });

  test("the largest board that is taken makes a board file that can be read", () => {
    const comps = lines(MOST_PARTS, (n) => `(comp (ref "U${n}") (value "VALUE-${n}"))`);
    const nets = lines(
      MOST_PINS / 4,
      (n) =>
        `(net (name "/sheet/NET_NUMBER_${n}")${[0, 1, 2, 3].map((p) => `(node (ref "U${n % MOST_PARTS}")(pin "${p + 1}"))`).join("")})`,
    );
    const made = imported({ "large.net": netlist(comps, nets) });
    if (!made.ok) throw new Error(made.reasons.join());
    expect(made.text.length).toBeLessThan(2_000_000);
    expect(loadBoard(made.text).problems).toEqual([]);
    expect(made.report.parts).toBe(MOST_PARTS);
  }, 60_000);

  test("whoever asked may stop between two steps", () => {
    const text = netlist(
      '(comp (ref "U1"))',
      lines(20_000, (n) => `(net (code "${n}") (nothing "of" "any" "use"))`),
    );
    const steps = importBoard({ files: [{ name: "a", text }], library: builtinLibrary() });
    expect(steps.next()).toMatchObject({ done: false, value: { total: text.length } });
    expect(steps.return({ ok: false, reasons: [] }).done).toBe(true);
  });

  test("of very many problems the first are kept and the others counted", () => {
    const board = read(`Ref,Value\n${lines(1_000, () => "?,1k")}\n`);
    expect([board.problems.length, board.moreProblems]).toEqual([200, 800]);
    const made = imported({ "a.csv": `Ref,Value\nR1,1k\n${lines(1_000, () => "?,1k")}\n` });
    const report = made.ok ? reportText(made.report).split("\n") : [];
    expect(report.filter((line) => /^ {2}line/.test(line))).toHaveLength(40);
    expect(report).toContain("  and 960 more like these");
  });
});

describe("a layout as a board file", () => {
  const made = imported({ "a.kicad_pcb": PCB }, { id: "halden" });
  if (!made.ok) throw new Error(made.reasons.join());

  test("nets as they are drawn, cases without the library they are from, only what a board file can hold", () => {
    expect(
      loadBoard(made.text, { deviceOf: (part) => builtinLibrary().device(part)?.device }).problems,
    ).toEqual([]);
    expect(made.text).toContain("A/B: [U1.1]");
    expect(made.text).toContain("device: 74LS04");
    expect(made.text).not.toContain("U***");
    expect(made.report.leftOut).toEqual([
      { what: "U***", reason: "is no designator that a board file can hold; its pins are left out too" },
      { what: "Q1 pin B(", reason: "is no pin that a board file can hold" },
    ]);
    expect(reportText(made.report)).toContain(
      "U*** is no designator that a board file can hold; its pins are left out too\n",
    );
  });

  test("importing again changes nothing", () => {
    const again = imported({ "a.kicad_pcb": PCB }, { existing: made.text });
    expect(again).toMatchObject({ ok: true, text: made.text, report: { added: 0, kept: [], renamed: [] } });
  });
});

describe("into a board file that is there", () => {
  const NETS = netlist(
    '(comp (ref "U1") (value "74LS04")) (comp (ref "U2") (value "74LS00"))',
    '(net (name "VCC") (node (ref "U1") (pin "14")) (node (ref "U2") (pin "14"))) (net (name "N1") (node (ref "U1") (pin "1")) (node (ref "U2") (pin "1"))) (net (name "N2") (node (ref "U1") (pin "2")) (node (ref "U2") (pin "2")))',
  );
  const merge = (rest: string) => {
    const made = imported({ "a.net": NETS }, { existing: `mendlog-board: 1\nid: a\ntitle: A\n${rest}` });
    if (!made.ok) throw new Error(made.reasons.join());
    expect(loadBoard(made.text).problems).toEqual([]);
    return made;
  };

  test("a rail that was renamed is not said again", () => {
    const { text, report } = merge(
      'rails:\n  "+5V": { nominal: 5 V, tolerance: 3 %, net: SUPPLY }\nnets:\n  SUPPLY: [U1.14]\n',
    );
    expect(text.match(/nominal/g)).toHaveLength(1);
    expect(text).toContain("SUPPLY: [U1.14, U2.14]");
    expect(report.renamed).toEqual([{ net: "VCC", file: "SUPPLY" }]);
  });

  test("two nets that the file has as one are told, not joined", () => {
    const { text, report } = merge("nets:\n  DATA: [U1.1, U1.2]\n");
    expect(text).toContain("DATA: [U1.1, U1.2]");
    expect(report.renamed).toEqual([]);
    expect(report.kept.map(({ key, differs }) => [key, differs[0]?.field])).toEqual([
      ["N1", "U1.1"],
      ["N2", "U1.2"],
    ]);
  });
});

test("two files that disagree: the first is believed, and it is told", () => {
  const one = netlist('(comp (ref "U1") (value "7404"))', '(net (name "A") (node (ref "U1") (pin "1")))');
  const two = netlist(
    '(comp (ref "U1") (value "7408")) (comp (ref "U2") (value "7400"))',
    '(net (name "B") (node (ref "U1") (pin "1")) (node (ref "U2") (pin "1")))',
  );
  const made = imported({ "one.net": one, "two.net": two });
  if (!made.ok) throw new Error(made.reasons.join());
  expect(made.text).toMatch(/U1: \{ device: "7404" \}/);
  expect(made.report.conflicts.map(({ file, message }) => `${file}: ${message}`)).toEqual([
    "two.net: U1 is 7408 here and 7404 in one.net, which is believed. Look at the board.",
    "two.net: U1 pin 1 is on net B here and on A in one.net, which is believed. The files may be of two revisions.",
  ]);
});

test("nothing that can be typed makes it throw, and what it writes is a board file", () => {
  const word = fc.constantFrom(
    "(",
    ")",
    '"',
    "kicad_pcb",
    "export",
    "components",
    "comp",
    "ref",
    "net",
    "node",
    "pin",
    "name",
    "footprint",
    "fp_text",
    "reference",
    "pad",
    "U1",
    "GND",
    "1",
    "\\",
    "\n",
    "317GND              U1    -1   ",
    "999",
    "Ref,Value",
    ",",
    ";",
    "R1-R9",
    "\u2028",
    "é",
    "#",
    "{",
    ": ",
  );
  fc.assert(
    fc.property(
      fc.constantFrom(
        "(kicad_pcb ",
        "(export (components (comp (ref U1) (value 7404))) ",
        "317GND              U1    -1   \n",
        "Ref,Value\nU1,7404\n",
        "",
      ),
      fc.array(word, { maxLength: 60 }),
      (head, words) => {
        const made = imported({ "a.x": head + words.join(" ") });
        if (made.ok) expect(loadBoard(made.text).problems).toEqual([]);
        else for (const reason of made.reasons) expect(reason).toMatch(/^a\.x/);
      },
    ),
    { numRuns: 400, seed: 7 },
  );
});
