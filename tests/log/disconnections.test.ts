// What notes and headings say was off its net, as people write it.
import { describe, expect, test } from "vitest";
import { disconnectionsIn } from "../../server/src/log/disconnections";
import { readBody, tableList } from "../support/log";

/** "U12", "U12.3 lifted", ". cut". */
const told = (text: string): string[] =>
  disconnectionsIn(text).map(({ ref = "", pin, how, pad }) =>
    [how === "out" ? ref || "own" : `${ref}${pin === undefined ? "" : `.${pin}`} ${how}`, pad ? "pad" : ""]
      .join(" ")
      .trim(),
  );

describe("a part that was out", () => {
  test.each([
    ["U12 out", ["U12"]],
    ["u12 out", ["u12"]],
    ["U12 pulled", ["U12"]],
    ["with U12 out of its socket", ["U12"]],
    ["U12 out of circuit", ["U12"]],
    ["Diode check, U12 pulled", ["U12"]],
    ["Diode check with U12 and U13 out", ["U12", "U13"]],
    ["U12, U13 & J3 unplugged", ["U12", "U13", "J3"]],
    ["pulled U12, J3 unplugged", ["U12", "J3"]],
    ["without U12", ["U12"]],
    ["U12 was removed", ["U12"]],
    ["R5 lifted", ["R5"]],
    ["cold, U7 still out", ["U7"]],
    ["out of its socket", ["own"]],
    ["pulled", ["own"]],
  ])("%s: %j", (text, parts) => expect(told(text)).toEqual(parts));
});

describe("a pin that was lifted, a track that was cut", () => {
  test.each([
    ["pin lifted", [" lifted".trim()]],
    ["leg lifted", ["lifted"]],
    ["lifted", ["lifted"]],
    ["pin 3 lifted", [".3 lifted"]],
    ["pins 3 and 4 lifted", [".3 lifted", ".4 lifted"]],
    ["U12 pin 3 lifted", ["U12.3 lifted"]],
    ["U12.03 lifted", ["U12.3 lifted"]],
    ["lifted U12 pin 3", ["U12.3 lifted"]],
    ["leg 4 bent out", [".4 lifted"]],
    ["pin lifted, read at the pad", ["lifted pad"]],
    ["track cut", ["cut"]],
    ["track cut at U12.3", ["U12.3 cut"]],
    ["cut between U12.3 and J3.4", ["U12.3 cut", "J3.4 cut"]],
  ])("%s: %j", (text, parts) => expect(told(text)).toEqual(parts));
});

describe("near miss: nothing was off", () => {
  test.each([
    "U12 out of limits",
    "pin 3 out of limits",
    "U12 off by 20 mV",
    "pull U12 next",
    "before U12 was pulled",
    "U12 not pulled",
    "if U12 out try again",
    "replaced U12",
    "lifted pad",
    "label lifted",
    "4.7 out",
    "out",
    "drops out between peaks",
    "read twice",
    "",
    "x".repeat(500),
  ])("%s takes nothing off", (text) => expect(told(text)).toEqual([]));
});

test("a row's note speaks for the row, the heading for all of them and names no row's part", () => {
  const [table] = tableList(
    readBody(`## Diode check with U12 out of its socket

| Ref | Pin | Reading | Note          |
|-----|-----|---------|---------------|
| U13 | 1   | 0.55    |               |
| U13 | 2   | 0.12    | pin lifted    |
|     | 3   | 0.12    | read it twice |
`),
  );
  const [first, second, third] = table?.readings ?? [];
  expect(first?.apart).toEqual([{ ref: "U12", how: "out" }]);
  expect(second?.apart).toEqual([{ ref: "U12", how: "out" }, { how: "lifted" }]);
  expect(third?.apart).toEqual([{ ref: "U12", how: "out" }]);
  expect(third?.subject.ref?.text).toBe("U13");
  expect(table?.section.ref).toBeUndefined();
});

test("a heading's own designator stays the rows' part where another is out", () => {
  const [table] = tableList(
    readBody("## Diode check U13 with U12 pulled\n\n| Pin | Reading |\n|---|---|\n| 1 | 0.55 |\n"),
  );
  expect(table?.readings[0]?.subject.ref?.text).toBe("U13");
  expect(table?.readings[0]?.apart).toEqual([{ ref: "U12", how: "out" }]);
});
