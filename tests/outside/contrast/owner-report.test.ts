// Contrast of the owner's report, computed from the colours in its style sheet by the formula of WCAG 2.2 (W3C
// Recommendation, definitions of "contrast ratio" and "relative luminance"): text at least 4.5 to 1 (success criterion
// 1.4.3), lines and shapes that carry meaning at least 3 to 1 (1.4.11).
import { describe, expect, test } from "vitest";
import {
  COLOURS,
  GRAPHIC_PAIRS,
  PRINT_COLOURS,
  STYLE,
  TEXT_PAIRS,
} from "../../../server/src/report/owner/style";

function luminance(colour: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

test("the formula gives what it is known to: 21 for black on white, 1 for a colour on itself", () => {
  expect(contrast("#000000", "#ffffff")).toBeCloseTo(21, 10);
  expect(contrast("#777777", "#777777")).toBe(1);
  // The often quoted grey that just misses AA on white, and the one that just meets it.
  expect(contrast("#777777", "#ffffff")).toBeLessThan(4.5);
  expect(contrast("#767676", "#ffffff")).toBeGreaterThan(4.5);
});

describe.each(["light", "print"] as const)("%s", (medium) => {
  test.each(TEXT_PAIRS[medium])("text %s on %s", (colour, behind) => {
    expect(contrast(colour, behind)).toBeGreaterThanOrEqual(4.5);
  });
  test.each(GRAPHIC_PAIRS[medium])("shapes %s on %s", (colour, behind) => {
    expect(contrast(colour, behind)).toBeGreaterThanOrEqual(3);
  });
});

/** Declarations of the style sheet, with the medium they hold in. */
function declarations(medium: "light" | "print"): { selector: string; property: string; value: string }[] {
  const at = STYLE.indexOf("@media print");
  const part = medium === "print" ? STYLE.slice(STYLE.indexOf("{", at) + 1) : STYLE.slice(0, at);
  return [...part.matchAll(/([^{}]+)\{([^{}]*)\}/g)].flatMap(([, selector = "", body = ""]) =>
    body.split(";").flatMap((line) => {
      const [property = "", value = ""] = line.split(/:(.*)/s).map((text) => text.trim());
      return property === "" ? [] : [{ selector: selector.trim(), property, value }];
    }),
  );
}

test.each([
  ["light", COLOURS],
  ["print", PRINT_COLOURS],
] as const)("%s: every colour in the style sheet is a named one, and stands in a pair", (medium, palette) => {
  const hex = declarations(medium).flatMap(({ value }) => value.match(/#[0-9a-f]{3,8}\b/gi) ?? []);
  expect(hex.length).toBeGreaterThan(5);
  const pairs = [...TEXT_PAIRS[medium], ...GRAPHIC_PAIRS[medium]].flat();
  for (const colour of new Set(hex)) {
    expect(Object.values<string>(palette), colour).toContain(colour);
    expect(pairs, colour).toContain(colour);
  }
});

test("every text colour of a rule is in a pair with that rule's own background or the page's", () => {
  for (const medium of ["light", "print"] as const) {
    const all = declarations(medium);
    for (const { selector, property, value } of all) {
      if (property !== "color") continue;
      const own = all.find((each) => each.selector === selector && each.property === "background")?.value;
      const behind = own ?? (medium === "light" ? COLOURS.paper : PRINT_COLOURS.paper);
      expect(TEXT_PAIRS[medium], `${selector} ${value} on ${behind}`).toContainEqual([value, behind]);
    }
  }
});

test("no opacity and no colour words, which the pairs would not show", () => {
  expect(STYLE).not.toMatch(/opacity|rgba?\(|hsla?\(|currentcolor/i);
});
