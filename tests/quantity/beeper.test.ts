// What technicians write for a beep, for none, and for one that comes and goes.
import { describe, expect, test } from "vitest";
import { formatTyped } from "../../server/src/quantity/format";
import { parseCell } from "../../server/src/quantity/parse-cell";

function heard(text: string): string {
  const value = parseCell(text, { kind: "quantity", unit: "ohm", beeps: true });
  if (value.kind === "quantity") return formatTyped(value.quantity);
  if (value.kind === "result") return `result ${value.ok}`;
  return value.kind;
}

describe("a beep", () => {
  test.each([
    ..."beep,BEEP,beeps,beep!,beep beep,beep both ways,Buzz,buzzed,tone,cont,continuity,joined,connected".split(
      ",",
    ),
    ..."yes,y,ok,good,+,🔔,beep*,clear beep,beep (leg to leg),dead short,short,✓".split(","),
  ])("%s", (text) => {
    expect(heard(text)).toBe("short");
  });
});

describe("none", () => {
  test.each([
    ..."no beep,No beep.,no beep at all,no beep!,silent,quiet,no,n,none,nothing,OL,open,open circuit,no cont.".split(
      ",",
    ),
    ..."nc,N/C,not joined,not connected,no buzz,doesn't beep,does not beep,track broken,via open,🔇".split(
      ",",
    ),
    "no beep, OL",
    "no beep (OL)",
    "broken at the via",
    "✗",
  ])("%s", (text) => {
    expect(heard(text)).toBe("open");
  });
});

describe("one that comes and goes is neither", () => {
  test.each([
    "intermittent",
    "faint beep",
    "short beep",
    "brief beep",
    "chirp",
    "beeps when pressed",
    "only when pressed",
    "beep then OL",
    "beep, then nothing",
    "crackles",
    "no beep unless pressed, then comes and goes",
  ])("%s", (text) => {
    expect(heard(text)).toBe("result undefined");
  });
});

describe("the figure beside it is what was read", () => {
  test.each([
    ["0.3", "0.3 Ω"],
    ["0R3", "0.3 Ω"],
    ["beep 0.4", "0.4 Ω"],
    ["beep, 0.4 ohm", "0.4 Ω"],
    ["beep (0.4 ohm)", "0.4 Ω"],
    ["good, 0.2", "0.2 Ω"],
    ["no beep (2k2)", "2.2 kΩ"],
    ["no beep, 33", "33 Ω"],
  ])("%s is %s", (text, is) => {
    expect(heard(text)).toBe(is);
  });
});

describe("what says nothing stays open to the reader", () => {
  test.each(["-", "not tested", "?"])("%s is no reading", (text) => {
    expect(heard(text)).toBe("empty");
  });

  test("a word of another kind is asked for in the beeper's words", () => {
    expect(parseCell("purple", { kind: "quantity", unit: "ohm", beeps: true })).toMatchObject({
      kind: "unreadable",
      reason: '"purple" is neither a beep nor ohms: write "beep", "no beep" or what the meter shows',
    });
  });

  test("a column of ohms that are no beeps reads none of it", () => {
    expect(parseCell("beep 0.4", { kind: "quantity", unit: "ohm" }).kind).toBe("unreadable");
  });
});
