import { describe, expect, test } from "vitest";
import { readLists, type SList } from "../../../server/src/knowledge/import/s-expression";
import { netsOf, problemsOf, read, run } from "./run";

const WANTED = { records: new Set(["a/b"]), keep: new Set(["c", "d"]) };
const lists = (text: string) => {
  const found: SList[] = [];
  const { value } = run(readLists(text, WANTED, (list) => found.push(list) > 0));
  return { found, end: value };
};

test("only the lists asked for are built, with what is kept of them", () => {
  const { found, end } = lists(
    '(a x\n (b "one two" (c 1 (d "q\\"\\\\")) (e (c lost)) three)\n (z (b no)))\n',
  );
  expect(found).toEqual([
    {
      head: "b",
      line: 2,
      items: [
        "one two",
        { head: "c", line: 2, items: ["1", { head: "d", line: 2, items: ['q"\\'] }] },
        "three",
      ],
    },
  ]);
  expect(end).toEqual({ line: 4 });
});

test("of a list that the end cuts off, what was whole is there; half a word is not", () => {
  expect(lists("(a (b (c 1) (c 2) three fo").found[0]?.items).toEqual([
    { head: "c", line: 1, items: ["1"] },
    { head: "c", line: 1, items: ["2"] },
    "three",
  ]);
  expect(lists('(a (b (c 1) (c "GN').found[0]?.items).toEqual([{ head: "c", line: 1, items: ["1"] }]);
  expect(lists("(a\n(b\n(c 1").end).toEqual({ line: 3, open: { head: "c", line: 3 } });
});

test.each([
  ["what is kept", "c"],
  ["what is passed over", "x"],
])("nested as deep as you like inside %s, the stack holds", (_what, head) => {
  const deep = `(a (b ${`(${head} `.repeat(100_000)}1${")".repeat(100_000)} last))`;
  expect(lists(deep).found[0]?.items.at(-1)).toBe("last");
});

test("nested as deep as you like and never closed, the stack holds", () => {
  const open = `${"(a ".repeat(1_000_000)}`;
  expect(lists(open).end.open).toEqual({ head: "a", line: 1 });
});

test("what stands behind the end is told", () => {
  expect(lists("(a (b 1))\n)").end).toEqual({ line: 2, extra: 2 });
  expect(lists("(a (b 1))\n(a (b 2))")).toMatchObject({ found: [{ items: ["1"] }], end: { extra: 2 } });
});

const PCB = `(kicad_pcb (version 20211014) (generator pcbnew)
  (net 0 "")
  (net 1 "GND")
  (net 2 "/CLK{slash}OUT")
  (net 3 "/SPARE")
  (footprint "Package_DIP:DIP-14" (layer "F.Cu")
    (fp_text reference "U1" (at 0 0) (effects (font (size 1 1))))
    (fp_text value "74LS04" (at 0 0))
    (fp_text user "\${REFERENCE}" (at 0 0))
    (pad "7" thru_hole circle (at 0 0) (net 1 "GND") (pinfunction "GND"))
    (pad "1" thru_hole circle (at 0 0) (net 2 "/CLK{slash}OUT"))
    (pad "7" smd rect (at 0 0) (net 1 "GND"))
    (pad "2" thru_hole circle (at 0 0))
    (pad "" np_thru_hole circle (at 0 0) (net 1 "GND"))
  )
)
`;

describe("a board layout", () => {
  test("footprints, pads and nets", () => {
    const board = read(PCB);
    expect(board.format).toBe("pcb");
    expect(board.parts).toEqual([
      {
        ref: "U1",
        value: "74LS04",
        package: "Package_DIP:DIP-14",
        pins: ["7", "1", "2"],
        allPins: true,
        line: 6,
      },
    ]);
    expect(netsOf(board)).toEqual({ GND: ["U1.7"], "/CLK{slash}OUT": ["U1.1"], "/SPARE": [] });
    expect(problemsOf(board)).toEqual([]);
  });

  test("older and later ways to write one", () => {
    const older = `(kicad_pcb (version 4) (host pcbnew 4.0.7)
  (net 0 "") (net 1 GND)
  (module R3 (layer F.Cu) (fp_text reference R1 (at 0 0)) (fp_text value 4k7 (at 0 0))
    (pad 1 thru_hole circle (at 0 0) (net 1 GND)) (pad 2 thru_hole circle (at 0 0) (net 1))))`;
    expect(netsOf(read(older))).toEqual({ GND: ["R1.1", "R1.2"] });
    const later = `(kicad_pcb (version 20240108) (footprint "R" (property "Reference" "R1" (at 0 0)) (property "Value" "4k7")
      (attr through_hole dnp) (pad "1" thru_hole circle (net 1 "GND"))))`;
    expect(read(later).parts).toMatchObject([{ ref: "R1", value: "4k7", unfitted: true, pins: ["1"] }]);
  });

  test("a part twice, a pin on two nets, a footprint without a name: told, and nothing is lost", () => {
    const twice = PCB.replace(
      /\)\n$/,
      `  (footprint "X" (fp_text reference "U1") (fp_text value "7404")
    (pad "1" smd rect (net 1 "GND")) (pad "3" smd rect (net 1 "GND")))
  (footprint "X" (pad "1" smd rect (net 3 "/SPARE"))))\n`,
    );
    const board = read(twice);
    expect(problemsOf(board)).toEqual([
      "16 note: U1 is there twice, as 74LS04 in line 6 and as 7404 in line 16; 74LS04 is kept. Both are taken as one part; give one of them another designator if they are two.",
      "17 lost: U1 pin 1 is on net GND here and was on /CLK{slash}OUT before. It stays on /CLK{slash}OUT; look at the board which is true.",
      "18 lost: A footprint of 1 pads without a designator; it is left out. Name it in the layout.",
    ]);
    expect(netsOf(board).GND).toEqual(["U1.7", "U1.3"]);
  });

  test("cut off in the middle of a pad, the pads before it are kept", () => {
    const board = read(PCB.slice(0, PCB.indexOf('(pad "2"') + 20));
    expect(netsOf(board)).toMatchObject({ GND: ["U1.7"], "/CLK{slash}OUT": ["U1.1"] });
    expect(board.parts[0]?.pins).toEqual(["7", "1"]);
    expect(problemsOf(board)).toEqual(
      ["expect"].map(
        () =>
          '13 lost: The file ends in line 13 in the middle of "(pad", begun in line 13: it was cut off, or a parenthesis is missing. Everything before it was read; export or copy the file again.',
      ),
    );
  });

  test("cut off anywhere, it reads without a fault and says so", () => {
    for (let end = 30; end < PCB.trimEnd().length; end++) {
      const board = read(PCB.slice(0, end));
      expect(
        board.problems.filter(({ kind }) => kind === "lost").length,
        PCB.slice(end - 10, end),
      ).toBeGreaterThan(0);
      for (const { name } of board.nets) expect(["GND", "/CLK{slash}OUT", "/SPARE"]).toContain(name);
    }
  });
});

describe("a netlist", () => {
  const NETLIST = `(export (version D)
  (components
    (comp (ref R1) (value ~) (footprint ""))
    (comp (ref U1)
      (value 74LS04) (property (name "dnp") (value "")))
    (comp (value 7)))
  (nets
    (net (code 1) (name GND) (node (ref U1) (pin 7)) (node (ref U9) (pin 1)) (node (ref U1)))
    (net (code 2) (name "") (node (ref R1) (pin 1)))))`;

  test("parts and nets, with or without quotation marks", () => {
    const board = read(NETLIST);
    expect(board.parts).toEqual([
      { ref: "R1", pins: [], allPins: false, line: 3 },
      { ref: "U1", value: "74LS04", unfitted: true, pins: ["7"], allPins: false, line: 4 },
      { ref: "U9", pins: ["1"], allPins: false, line: 8 },
    ]);
    expect(netsOf(board)).toEqual({ GND: ["U1.7", "U9.1"] });
    expect(problemsOf(board).map((text) => text.replace(/[.;,].*/, ""))).toEqual([
      "6 lost: A component without a designator",
      "8 note: Net GND names U9",
      "8 lost: Net GND has a pin without its part or number",
      "9 lost: A net of 1 pins without a name",
    ]);
  });
});
