import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { lineIndex } from "../../server/src/text/line-index";

const text = fc.string({
  unit: fc.constantFrom("a", "\u{1F600}", "\r", "\n", "\r\n", "\u2028", "\uFEFF", "\uD800"),
  maxLength: 40,
});

describe("lineIndex", () => {
  it("ends lines at \\n, \\r\\n and a lone \\r, and at nothing else", () => {
    const lines = lineIndex("a\nb\r\nc\rd\u2028e\u0085");
    expect(lines.lineCount).toBe(4);
    expect([0, 1, 2, 3].map(lines.lineStart)).toEqual([0, 2, 5, 7]);
    expect([0, 1, 2, 3].map(lines.lineEnd)).toEqual([1, 3, 6, 11]);
  });

  it("has one empty line for an empty text, and one more behind a last line end", () => {
    expect(lineIndex("").lineCount).toBe(1);
    expect(lineIndex("a\r").lineCount).toBe(2);
    expect(lineIndex("\n\r").lineCount).toBe(3);
    expect(lineIndex("a\r").lineStart(1)).toBe(2);
  });

  it("counts UTF-16 code units", () => {
    const lines = lineIndex("\u{1F600}x\ny");
    expect(lines.positionAt(2)).toEqual({ line: 0, character: 2 });
    expect(lines.offsetAt({ line: 0, character: 2 })).toBe(2);
  });

  it("puts a character beyond the line at its end, before the line end", () => {
    const lines = lineIndex("ab\r\ncd");
    expect(lines.offsetAt({ line: 0, character: 99 })).toBe(2);
    expect(lines.offsetAt({ line: 1, character: Number.POSITIVE_INFINITY })).toBe(6);
    expect(lines.positionAt(3)).toEqual({ line: 0, character: 2 });
  });

  it("draws what is outside the text in", () => {
    const lines = lineIndex("ab\ncd");
    expect(lines.offsetAt({ line: 7, character: 0 })).toBe(5);
    expect(lines.offsetAt({ line: -1, character: 1 })).toBe(0);
    expect(lines.offsetAt({ line: 1, character: -1 })).toBe(3);
    expect(lines.offsetAt({ line: Number.NaN, character: Number.NaN })).toBe(0);
    expect(lines.positionAt(-1)).toEqual({ line: 0, character: 0 });
    expect(lines.positionAt(99)).toEqual({ line: 1, character: 2 });
    expect(lines.lineStart(99)).toBe(3);
  });

  it("goes from every offset to a position and back, but for those inside \\r\\n", () => {
    fc.assert(
      fc.property(text, (given) => {
        const lines = lineIndex(given);
        for (let at = 0; at <= given.length; at++) {
          const inside = given[at - 1] === "\r" && given[at] === "\n";
          expect(lines.offsetAt(lines.positionAt(at))).toBe(inside ? at - 1 : at);
        }
      }),
    );
  });

  it("has the lines that splitting gives", () => {
    fc.assert(
      fc.property(text, (given) => {
        const lines = lineIndex(given);
        const split = given.split(/\r\n|\r|\n/);
        const found = split.map((_, i) => given.slice(lines.lineStart(i), lines.lineEnd(i)));
        expect(found).toEqual(split);
        expect(lines.lineCount).toBe(split.length);
      }),
    );
  });
});
