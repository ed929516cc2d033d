import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { excerptOf } from "../../server/src/report/excerpt";
import { humanReport } from "../../server/src/report/human";
import { displayCells } from "../../server/src/text/display-width";
import { lineIndex } from "../../server/src/text/line-index";
import { fileWith, reportOf } from "./sample";

const plain = { colour: false, quiet: false, width: 80 };

test("a finding shows its place, severity, message, code, line, marker, related place and fix", () => {
  const text = "# A\n\n| U14 | 0.58 |\n";
  const related = [{ uri: "mem:/board", span: { start: 4, end: 7 }, message: "limits are here" }];
  const file = fileWith(text, [{ at: "0.58", related }], () => ({
    title: "Mend it",
    edits: [],
    preferred: true,
  }));
  expect(humanReport(reportOf([file], { otherMarkdown: 1 }), plain)).toBe(
    `logs/a.md:3:9: warning: about 0.58 [unreadable-value]
 3 | | U14 | 0.58 |
   |         ^^^^
   | see b.board.yaml:2:1: limits are here
   | fix: Mend it

1 log and 0 knowledge files checked, 1 other Markdown file left alone: 1 warning.
`,
  );
});

test("without findings there is the summary alone, and with --quiet nothing", () => {
  const report = reportOf([fileWith("x", [])]);
  expect(humanReport(report, plain)).toBe("1 log and 0 knowledge files checked: nothing found.\n");
  expect(humanReport(report, { ...plain, quiet: true })).toBe("");
});

test("colour adds escape sequences and changes nothing else", () => {
  const report = reportOf([fileWith("a bad b", [{ at: "bad" }])]);
  const coloured = humanReport(report, { ...plain, colour: true });
  expect(coloured).toContain("\u001b[1;33mwarning\u001b[0m");
  // biome-ignore lint/complexity/useRegexLiterals: the escape character is easier to see in a string
  expect(coloured.replace(new RegExp("\\u001b\\[[0-9;]*m", "g"), "")).toBe(humanReport(report, plain));
});

test("control characters in a log never reach the terminal", () => {
  const text = "a\u001b[2Jb\u0007 bad\u202e\u009b";
  const shown = humanReport(
    reportOf([fileWith(text, [{ at: "bad", message: "said \u001b]0;x\u0007" }])]),
    plain,
  );
  expect([...shown].filter((c) => /[\p{Cc}\u202e]/u.test(c) && c !== "\n")).toEqual([]);
  expect(shown).toContain("a␛[2Jb␇ bad");
});

/** The excerpt of a text with the words that are meant between « and ». */
function excerpt(marked: string, width = 80): string {
  const start = marked.indexOf("«");
  const text = marked.replace(/[«»]/g, "");
  const file = fileWith(text, [{ at: "", span: { start, end: marked.indexOf("»") - 1 } }]);
  const { line, marker } = excerptOf(text, lineIndex(text), file.findings[0]!, width);
  return `${line}\n${marker}`;
}

describe("the marker stands under what is meant", () => {
  test.each([
    ["plain", "| a | «0.58» |", "| a | 0.58 |\n      ^^^^"],
    ["behind tabs, which become spaces", "\ta\t«b»", "    a   b\n        ^"],
    ["over a tab", "a«\t»b", "a   b\n ^^^"],
    ["behind wide characters", "抵抗 «4k7»", "抵抗 4k7\n     ^^^"],
    ["under wide characters", "a «抵抗» b", "a 抵抗 b\n  ^^^^"],
    ["behind an emoji of several code points", "👩‍🔧 «x»", "👩‍🔧 x\n   ^"],
    ["behind a combining accent", "re\u0301 «x»", "re\u0301 x\n   ^"],
    ["at nothing, as one mark", "ab«»c", "abc\n  ^"],
    ["at the end of a line, as one mark", "ab«»", "ab\n  ^"],
    ["on an empty line", "«»\nnext", "\n^"],
    ["up to the end of the first line", "a «b\nc»", "a b\n  ^"],
    ["on a line with \\r\\n", "a\r\n«b»\r\nc", "b\n^"],
  ])("%s", (_, marked, shown) => {
    expect(excerpt(marked)).toBe(shown);
  });
});

test("a long line is cut to the width around what is meant", () => {
  const long = `${"a ".repeat(60)}«meant»${" b".repeat(60)}`;
  const [line, marker] = excerpt(long, 40).split("\n");
  expect(line!.length).toBeLessThanOrEqual(40);
  expect(line!.startsWith("…") && line!.endsWith("…")).toBe(true);
  expect(line!.slice(marker!.indexOf("^"), marker!.length)).toBe("meant");
});

test("near the end of a long line, the line is cut at its start only", () => {
  const [line, marker] = excerpt(`${"a ".repeat(60)}«meant»`, 40).split("\n");
  expect(line).toMatch(/^….*meant$/);
  expect(line!.length).toBeGreaterThan(30);
  expect(line!.slice(marker!.indexOf("^"))).toBe("meant");
});

test("widths are those of a terminal", () => {
  const widths = displayCells("a抵\u0301\tＡ👍").map((cell) => cell.width);
  expect(widths).toEqual([1, 2, 1, 2, 2]);
});

test("a line of plain letters is shown and marked as one that has a sign beyond them behind it", () => {
  const plain = fc.string({ unit: fc.constantFrom(..." |aZ09~-."), minLength: 1, maxLength: 60 });
  fc.assert(
    fc.property(plain, fc.nat(60), fc.nat(20), (text, at, length) => {
      const start = Math.min(at, text.length);
      const end = Math.min(start + length, text.length);
      const range = {
        start: { offset: start, line: 1, column: start + 1 },
        end: { offset: end, line: 1, column: end + 1 },
      };
      const shown = excerptOf(text, lineIndex(text), range, 100);
      const other = `${text}\u00e9`;
      const beside = excerptOf(other, lineIndex(other), range, 100);
      expect(`${beside.line.slice(0, -1)}`.trimEnd()).toBe(shown.line);
      expect(shown.marker).toBe(beside.marker);
    }),
    { seed: 7 },
  );
});
