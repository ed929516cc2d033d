import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { applyEdits, editBetween } from "../../server/src/text/edits";
import { span } from "../../server/src/text/span";

describe("applyEdits", () => {
  it("counts every span in the text given, in any order", () => {
    const edits = [
      { span: span(4, 5), newText: "E" },
      { span: span(0, 1), newText: "" },
      { span: span(2, 2), newText: "++" },
    ];
    expect(applyEdits("abcde", edits)).toBe("b++cdE");
  });

  it("keeps the order of insertions at one place, and puts them before a replacement that begins there", () => {
    const edits = [
      { span: span(1, 2), newText: "B" },
      { span: span(1, 1), newText: "1" },
      { span: span(1, 1), newText: "2" },
    ];
    expect(applyEdits("abc", edits)).toBe("a12Bc");
  });

  it("takes edits that touch", () => {
    expect(
      applyEdits("abc", [
        { span: span(0, 1), newText: "x" },
        { span: span(1, 3), newText: "y" },
      ]),
    ).toBe("xy");
  });

  it("throws where edits overlap", () => {
    const twice = [
      { span: span(0, 2), newText: "" },
      { span: span(1, 3), newText: "" },
    ];
    expect(() => applyEdits("abc", twice)).toThrow(TypeError);
  });

  it.each([span(-1, 0), span(2, 1), span(0, 4), span(Number.NaN, 1)])(
    "throws where an edit lies outside: $start to $end",
    (bad) => {
      expect(() => applyEdits("abc", [{ span: bad, newText: "" }])).toThrow(TypeError);
    },
  );
});

describe("editBetween", () => {
  const text = fc.string({
    unit: fc.constantFrom("a", "b", "\u{1F600}", "\u{1F601}", "\r\n", "\n", "\r"),
    maxLength: 12,
  });

  it("turns one text into the other", () => {
    fc.assert(
      fc.property(text, text, (before, after) => {
        const edit = editBetween(before, after);
        expect(applyEdits(before, edit === undefined ? [] : [edit])).toBe(after);
      }),
    );
  });

  it("cuts no surrogate pair and no line end in two", () => {
    const half = /^[\uDC00-\uDFFF]|[\uD800-\uDBFF]$/;
    fc.assert(
      fc.property(text, text, (before, after) => {
        const edit = editBetween(before, after);
        if (edit === undefined) return;
        expect(edit.newText).not.toMatch(half);
        expect(before.slice(edit.span.start, edit.span.end)).not.toMatch(half);
        for (const at of [edit.span.start, edit.span.end])
          expect(before.slice(at - 1, at + 1)).not.toBe("\r\n");
      }),
    );
  });

  it("is one digit for one digit", () => {
    expect(editBetween("0.58 V", "0.68 V")).toEqual({ span: span(2, 3), newText: "6" });
    expect(editBetween("aaa", "aaaa")?.newText).toBe("a");
    expect(editBetween("same", "same")).toBeUndefined();
  });
});
