// Contrast of the owner's report, computed from the colours in its style sheet by the formula of WCAG 2.2 (W3C
// Recommendation, definitions of "contrast ratio" and "relative luminance"): text at least 4.5 to 1 (success criterion
// 1.4.3), lines and shapes that carry meaning at least 3 to 1 (1.4.11).
import { describe, expect, test } from "vitest";
import {
  GRAPHIC_PAIRS,
  PAGE_PALETTES,
  REPORT_STYLE,
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

describe.each(["light", "dark", "print"] as const)("%s", (name) => {
  const palette = PAGE_PALETTES[name];
  test.each(TEXT_PAIRS)("text %s on %s", (colour, behind) => {
    expect(contrast(palette[colour], palette[behind])).toBeGreaterThanOrEqual(4.5);
  });
  test.each(GRAPHIC_PAIRS)("shapes %s on %s", (colour, behind) => {
    expect(contrast(palette[colour], palette[behind])).toBeGreaterThanOrEqual(3);
  });
});

/** Declarations of the style sheet but those that give the variables their colours. */
const declarations = [...REPORT_STYLE.matchAll(/([^{}]+)\{([^{}]*)\}/g)].flatMap(
  ([, selector = "", body = ""]) =>
    body.split(";").flatMap((line) => {
      const [property = "", value = ""] = line.split(/:(.*)/s).map((text) => text.trim());
      return property === "" || property.startsWith("--")
        ? []
        : [{ selector: selector.trim(), property, value }];
    }),
);

const named = (value: string): string[] =>
  [...value.matchAll(/var\(--(\w+)\)/g)].map(([, name = ""]) => name);

test("every colour in the style sheet is a named one that stands in a pair", () => {
  expect(declarations.length).toBeGreaterThan(60);
  const used = new Set(declarations.flatMap(({ value }) => named(value)));
  const pairs = [...TEXT_PAIRS, ...GRAPHIC_PAIRS].flat();
  for (const colour of used) expect(pairs, colour).toContain(colour);
  for (const { value } of declarations) expect(value).not.toMatch(/#[0-9a-f]{3,8}\b/i);
  // And each palette reaches the sheet.
  for (const palette of Object.values(PAGE_PALETTES))
    for (const [name, colour] of Object.entries(palette))
      expect(REPORT_STYLE).toContain(`--${name}: ${colour};`);
});

test("every text colour of a rule is in a pair with that rule's own background or the page's", () => {
  const coloured = declarations.filter(({ property }) => property === "color");
  expect(coloured.length).toBeGreaterThan(8);
  for (const { selector, value } of coloured) {
    const own = declarations.find((each) => each.selector === selector && each.property === "background");
    const pair = [named(value)[0], own ? named(own.value)[0] : "paper"];
    expect(TEXT_PAIRS, `${selector} ${value}`).toContainEqual(pair);
  }
});

test("no opacity and no colour words, which the pairs would not show", () => {
  expect(REPORT_STYLE).not.toMatch(/opacity|rgba?\(|hsla?\(|currentcolor/i);
});
