import { describe, expect, test } from "vitest";
import { readRefs } from "../../../server/src/knowledge/import/ref-list";
import { problemsOf, read } from "./run";

const parts = (text: string): Record<string, string | undefined> =>
  Object.fromEntries(read(text).parts.map(({ ref, value, partNumber }) => [ref, value ?? partNumber]));

describe("lists of designators", () => {
  test.each<[string, string[]]>([
    ["C1, C4-C7", ["C1", "C4", "C5", "C6", "C7"]],
    ["R1 R2 R5", ["R1", "R2", "R5"]],
    ["R1;R2/R3", ["R1", "R2", "R3"]],
    ["C1..C3", ["C1", "C2", "C3"]],
    ["C1-3", ["C1", "C2", "C3"]],
    ["C4 \u2013 C6", ["C4", "C5", "C6"]],
    ["C4 to C6", ["C4", "C5", "C6"]],
    ["R08-R11", ["R08", "R09", "R10", "R11"]],
    ["TA-101", ["TA-101"]],
    ["U3A,U3B", ["U3A", "U3B"]],
    ["2C, A5", ["2C", "A5"]],
    ["UART_EN201", ["UART_EN201"]],
    ["C7-C4", ["C7-C4"]],
    ["", []],
  ])("%s", (cell, refs) => expect(readRefs(cell)).toEqual({ refs, odd: [] }));

  test("what is no designator is told apart", () => {
    expect(readRefs("C1, ?, 12")).toEqual({ refs: ["C1"], odd: ["?", "12"] });
  });
});

describe("any order, any separator", () => {
  test.each([
    ["commas", "Reference,Value\nR1,4k7\n"],
    ["semicolons with decimal commas", 'Wert;Bezeichner\n"4k7";R1\n'],
    ["tabs", "Qty\tDesignator\tComment\n1\tR1\t4k7\n"],
    [
      "a mark, CRLF and a title above",
      '\uFEFFParts of Halden\r\n\r\n"Ref Des","Val"\r\n"R1","4k7"\r\n'.slice(1),
    ],
    ["blanks around cells", " Ref , Value \n R1 , 4k7 \n"],
    ["a quoted cell after a blank", 'Ref, Value\n"R1", "4k7"\n'],
    ["a part number alone", "Part No.,Refs\n4k7,R1\n"],
    ["the words left over", "Part\tRefs\tDevice\n4k7\tR1\t\n"],
    ["still others", "Part Reference,Part Value,Part Type\nR1,4k7,\n"],
    ["a part beside a value", "Refs,Part,Value\nR1,,4k7\n"],
    ["another program's words", "Part,Value,Device,Package\nR1,4k7,R-EU,0207\n"],
  ])("%s", (_, text) => expect(parts(text)).toEqual({ R1: "4k7" }));

  test("lists of designators, quotation marks in cells, cells over two lines", () => {
    const text =
      'Ref,Value,Note\n"C1, C4-C5",100n,"a ""good"" one"\n"R1\nR2",1k,\nU1,74LS04,"two\r\nlines"\nU2,74LS00,\n';
    expect(parts(text)).toEqual({
      C1: "100n",
      C4: "100n",
      C5: "100n",
      R1: "1k",
      R2: "1k",
      U1: "74LS04",
      U2: "74LS00",
    });
    expect(read(text).parts.map(({ ref, line }) => `${ref} ${line}`)).toEqual([
      "C1 2",
      "C4 2",
      "C5 2",
      "R1 3",
      "R2 3",
      "U1 5",
      "U2 7",
    ]);
  });

  test("what stays empty is known", () => {
    const text = "Ref,Value,DNP\nR1,1k,\nR2,1k,x\nR3,DNP,\n";
    expect(read(text).parts.map(({ ref, unfitted }) => [ref, unfitted])).toEqual([
      ["R1", undefined],
      ["R2", true],
      ["R3", true],
    ]);
  });
});

test("what cannot be is told with its line, and the rest is read", () => {
  const text = 'Ref,Value,Qty\n?,1k,1\nR1,2k,3\nR1,3k,1\n,Total,\nR2,,\nR3,"4k\n';
  const board = read(text);
  expect(board.parts.map(({ ref, value }) => [ref, value])).toEqual([
    ["R1", "2k"],
    ["R2", undefined],
  ]);
  expect(problemsOf(board)).toEqual([
    '2 lost: "?" is no designator, and was not read. Designators look like C4, or C4-C7 for several.',
    "3 note: The quantity is 3, and the designators are 1: R1. One of the two is wrong.",
    "4 note: R1 is there twice, as 2k in line 3 and as 3k in line 4; 2k is kept. Both are taken as one part; give one of them another designator if they are two.",
    '5 note: A row without a designator: "Total". It is left out.',
    "6 note: R2 without a value or part number.",
    "7 lost: A quotation mark opens in the row of line 7 and never closes: the file is cut off, or a mark is missing. The row was not read.",
  ]);
});
