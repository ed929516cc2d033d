import { describe, expect, test } from "vitest";
import { carry, type Edit, offsetAfter } from "../../client/src/typing/carry";

const TABLE = "| U14 | 1 | 0.58 |\n| U14 | 2 |  |\n";

/** What becomes of a text in which a key was pressed at "$0" and more typed behind it; the cursor is shown as "‸". */
function made(marked: string, typed: string, cursor: number, edits: readonly Edit[] = []): string {
  const at = marked.indexOf("$0");
  const text = marked.replace("$0", "");
  const now = text.slice(0, at) + typed + text.slice(at);
  const one = carry(text, edits, cursor, at, typed);
  return `${now.slice(0, one.start)}${one.before}‸${one.after}${now.slice(one.end)}`;
}

describe("what was typed behind a key goes where the key leads", () => {
  test("down, where nothing else is to be done", () => {
    expect(made(TABLE.replace("0.58", "0.58$0"), "1.42", TABLE.indexOf("|  |") + 2)).toBe(
      "| U14 | 1 | 0.58 |\n| U14 | 2 | 1.42‸ |\n",
    );
  });

  test("back, to a place before it", () => {
    expect(made("| U14 |  | 0.58$0 |\n", "5", 8)).toBe("| U14 | 5‸ | 0.58 |\n");
  });

  test("into a row that the key writes", () => {
    const text = "| U14 | 1 | 0.58 |\n";
    const end = text.length - 1;
    const row = "\n| U14 | 2 |  |";
    expect(
      made(text.replace(" |\n", "$0 |\n"), "1.4", end + row.length - 2, [{ start: end, end, newText: row }]),
    ).toBe("| U14 | 1 | 0.58 |\n| U14 | 2 | 1.4‸ |\n");
  });

  test("behind a table that the key ends, taking away the very row it was pressed in", () => {
    const text = "| U14 | 1 | 0.58 |\n| U14 | 2 |  |\nrest";
    const row = { start: text.indexOf("| U14 | 2"), end: text.indexOf("\nrest"), newText: "\n" };
    expect(made(text.replace("2 |  |", "2 | $0 |"), "## Rails", row.start + 1, [row])).toBe(
      "| U14 | 1 | 0.58 |\n\n## Rails‸\nrest",
    );
  });

  test("changes no more of the text than what lies between", () => {
    const far = "x".repeat(50);
    const text = `${far}\n${TABLE}${far}`;
    const at = text.indexOf("0.58") + 4;
    const one = carry(text, [], text.indexOf("|  |") + 2, at, "1");
    expect(one.start).toBe(at);
    expect(one.end).toBe(text.indexOf("|  |") + 3);
  });

  test("finds a place by its line in a text with any line ends", () => {
    expect(
      offsetAfter("a\r\nb\rc\nd", [{ start: 0, end: 1, newText: "x\ny" }], { line: 3, character: 1 }),
    ).toBe(8);
    expect(offsetAfter("ab", [], { line: 0, character: 2 })).toBe(2);
  });
});
