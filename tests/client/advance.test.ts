// What becomes of keys that are heard of late, without a window: the editor's changes are told as it tells them.
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  asKeystrokes,
  firstStep,
  type Keystroke,
  takenBack,
  typedText,
  withoutHabit,
} from "../../client/src/typing/advance/keystrokes";
import { heard, isFirstIn, type Run } from "../../client/src/typing/advance/run";

const DIGITS = { limit: 3 };
const ENTER: Keystroke = { leads: "row" };

/** "558>574<" is eight keys: digits, `>` for Enter, `<` for Shift+Tab. */
const typed = (text: string): Keystroke[] =>
  [...text].map((char) => (char === ">" ? ENTER : char === "<" ? { leads: "previous" } : { char }));

/** All readings in turn, with how each was left. */
function steps(keys: readonly Keystroke[]): string[] {
  const step = firstStep(keys, DIGITS);
  if (!step) return keys.length === 0 ? [] : [typedText(keys)];
  const rest = keys.slice(step.length);
  const on = step.direction === "advance" ? withoutHabit(rest).keys : rest;
  return [`${step.reading} ${step.direction}`, ...steps(on)];
}

describe("keys in turn", () => {
  test("a reading leads on by itself, or by a key where it may go on", () => {
    expect(steps(typed("558574"))).toEqual(["558 advance", "574 advance"]);
    expect(steps(typed("0>5681"))).toEqual(["0 row", "568 advance", "1"]);
    expect(steps(typed(">58>"))).toEqual([" row", "58 row"]);
  });

  test("out of habit one key and the unit behind it do nothing, a second key does", () => {
    expect(steps(typed("558>574>"))).toEqual(["558 advance", "574 advance"]);
    expect(steps(typed("0.558 V>574"))).toEqual(["0.558 advance", "574 advance"]);
    expect(steps(typed("558>>574"))).toEqual(["558 advance", " row", "574 advance"]);
    expect(steps(typed("558<"))).toEqual(["558 advance", " previous"]);
  });

  test("habit waits for more only while nothing else was typed", () => {
    expect(withoutHabit(typed(" "))).toEqual({ keys: [], waits: true });
    expect(withoutHabit(typed(">"))).toEqual({ keys: [], waits: false });
    expect(withoutHabit(typed("5"))).toEqual({ keys: typed("5"), waits: false });
  });

  test("keys alone lead on where digits tell nothing", () => {
    expect(firstStep(typed("558574"), undefined)).toBeUndefined();
    expect(firstStep(typed("558574>"), undefined)).toEqual({
      reading: "558574",
      direction: "row",
      length: 7,
    });
  });

  test("Backspace takes the last character and the keys behind it", () => {
    expect(takenBack(typed("558>57"), 1)).toEqual(typed("558>5"));
    expect(takenBack(typed("558>"), 1)).toEqual(typed("55"));
    expect(takenBack(typed(">"), 1)).toEqual(typed(">"));
  });
});

const cell: Run = {
  start: { line: 9, character: 14 },
  lead: "| U14 | 1   | ",
  shown: "",
  keys: [],
  digits: DIGITS,
  habit: true,
  taken: "",
  backs: 0,
};

const at = (line: number, from: number, to: number, text: string) => ({
  start: { line, character: from },
  end: { line, character: to },
  text,
});

/** The cell with what stands in it. */
const holding = (shown: string, keys = asKeystrokes(shown)): Run => ({ ...cell, shown, keys });

describe("what the editor tells of", () => {
  test("what is typed at the end stands there and was typed", () => {
    expect(heard(holding("55"), at(9, 16, 16, "8"))).toEqual(holding("558"));
  });

  test("what is typed anywhere else, and what is no character, ends it", () => {
    expect(heard(holding("55"), at(9, 15, 15, "8"))).toBeUndefined();
    expect(heard(holding("55"), at(9, 16, 16, "|"))).toBeUndefined();
    expect(heard(holding("55"), at(9, 16, 16, "\n"))).toBeUndefined();
    expect(heard(holding("55"), at(3, 0, 5, "\nwords"))).toBeUndefined();
  });

  test("a change of another line leaves it", () => {
    const run = holding("55");
    expect(heard(run, at(3, 4, 5, "x"))).toBe(run);
    expect(heard(run, { start: { line: 12, character: 0 }, end: { line: 14, character: 0 }, text: "" })).toBe(
      run,
    );
  });

  test("Backspace takes what was typed last, also where something else stands in the cell meanwhile", () => {
    expect(heard(holding("55"), at(9, 15, 16, ""))).toEqual(holding("5"));
    // "57" was typed behind a reading that is just being put in order.
    const run = holding("558", asKeystrokes("55857"));
    expect(heard(run, at(9, 16, 17, ""))).toEqual(holding("55", asKeystrokes("5585")));
  });

  test("Backspace in a cell that was come to by itself goes back to the reading before", () => {
    const back = heard(cell, at(9, 13, 14, ""));
    expect(back).toMatchObject({ start: { character: 13 }, taken: " ", backs: 1, habit: false });
    // The next one takes the pipe, which is put back as well.
    expect(back && heard(back, at(9, 12, 13, ""))).toMatchObject({ taken: "| ", backs: 2 });
    // What was typed ahead goes first.
    const ahead = { ...cell, keys: asKeystrokes("57") };
    expect(heard(ahead, at(9, 13, 14, ""))).toMatchObject({ taken: " ", backs: 0, keys: asKeystrokes("5") });
  });

  test("what is taken from a list is what the cell is to hold", () => {
    expect(heard(holding("58"), at(9, 14, 16, "0.058 V"))).toMatchObject({
      shown: "0.058 V",
      digits: null,
    });
  });

  test("a cell is begun where it held nothing", () => {
    expect(isFirstIn("| U14 | 1   | 5         |      |", 14)).toBe(true);
    expect(isFirstIn("| U14 | 1   | 5 |", 14)).toBe(true);
    expect(isFirstIn("| U14 | 1   | 55        |", 15)).toBe(false);
    expect(isFirstIn("| U14 | 1   | 50.3      |", 14)).toBe(false);
    expect(isFirstIn("5", 0)).toBe(false);
  });
});

test("whenever the window is told of a cut, the readings are those that were typed", () => {
  const key = fc.constantFrom("5", "8", "0", "1", "3", "<backspace>");
  fc.assert(
    fc.property(fc.array(key, { maxLength: 40 }), fc.infiniteStream(fc.boolean()), (keys, coin) => {
      // At once: each key is heard of before the next.
      let wanted: readonly Keystroke[] = [];
      for (const each of keys)
        wanted = each === "<backspace>" ? takenBack(wanted, 1) : [...wanted, { char: each }];
      // Late: the cell is cut to its first reading now and then, and what is typed goes on in it.
      let run = holding("");
      for (const each of keys) {
        if (coin.next().value) {
          const step = firstStep(run.keys, DIGITS);
          if (step) run = { ...run, shown: step.reading };
        }
        const end = 14 + run.shown.length;
        if (each !== "<backspace>") run = heard(run, at(9, end, end, each)) ?? run;
        else if (run.shown !== "") run = heard(run, at(9, end - 1, end, "")) ?? run;
      }
      expect(steps(run.keys)).toEqual(steps(wanted));
    }),
  );
});
