import { expect, test } from "vitest";
import { inputsCalled, inputsMeant, sharedLines } from "../../../server/src/review/symptoms/inputs";
import { regatta } from "../../compute/diagnosis/regatta";

const meant = (text: string) => inputsMeant(text, regatta).map(({ name }) => name);

test("a customer's words mean the switches that carry them", () => {
  expect(meant("lane 3 never scores")).toEqual([
    "Lane 3 gate",
    "Lane 3 near hole",
    "Lane 3 middle hole",
    "Lane 3 far hole",
  ]);
  expect(meant("start button dead")).toEqual(["Start"]);
  expect(meant("coins not taken")).toEqual(["Left coin chute", "Right coin chute"]);
  expect(meant("display flickers")).toEqual([]);
  expect(meant("lane 9 dead")).toEqual([]);
  expect(meant("")).toEqual([]);
});

test("lines that several are on, the one with most of them first", () => {
  const inputs = inputsCalled(["Door", "Tilt", "Lane 4 gate", "no such switch"], regatta);
  expect(inputs.map(({ name, cell }) => `${name} ${cell.row}/${cell.column}`)).toEqual([
    "Door 7/6",
    "Tilt 7/4",
    "Lane 4 gate 1/4",
  ]);
  expect(sharedLines(inputs).map(({ kind, number, net }) => `${kind} ${number} ${net}`)).toEqual([
    "row 7 SW_ROW_7",
    "column 4 SW_COL_4",
  ]);
});
