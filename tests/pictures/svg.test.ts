import { describe, expect, test } from "vitest";
import { chipPicture } from "../../server/src/pictures/chip";
import { base64, dataUri } from "../../server/src/pictures/data-uri";
import { CELL_MARKS, CELL_STATES, VERDICTS } from "../../server/src/pictures/marks";
import { matrixPicture } from "../../server/src/pictures/matrix";
import {
  fitted,
  INK,
  inlined,
  PAIRS,
  PALETTES,
  type Theme,
  textWidth,
  themed,
} from "../../server/src/pictures/svg";
import { xml } from "../../server/src/text/html";
import { elementsOf } from "./strict-xml";

/** Relative luminance, WCAG 2.1. */
function luminance(colour: string): number {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
    const part = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return part <= 0.03928 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}

function contrast(a: string, b: string): number {
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const chip = chipPicture({
  title: "U1",
  package: { name: "DIP-14", pins: 14 },
  pins: VERDICTS.map((verdict, i) => ({ number: String(i + 1), name: "A", net: "B", verdict })),
});
const grid = matrixPicture({
  title: "M",
  rows: ["a"],
  columns: CELL_STATES.map((_, i) => `n${i}`),
  cells: [CELL_STATES],
  here: { row: 1, column: 1 },
});

describe("contrast (WCAG 2.1, 1.4.3 and 1.4.11)", () => {
  test("the formula gives the known ends", () => {
    expect(contrast("#ffffff", "#000000")).toBeCloseTo(21, 5);
    expect(contrast("#777777", "#ffffff")).toBeCloseTo(4.48, 2);
  });

  const themes = Object.keys(PALETTES) as Theme[];

  test.each(themes.flatMap((theme) => PAIRS.map((pair) => ({ theme, ...pair }))))(
    "$theme: $ink on $on as $as",
    ({ theme, ink, on, as }) => {
      // 1.4.6 asks for 7 to 1; those who choose high contrast get at least that.
      const text = theme.startsWith("high-contrast") ? 7 : 4.5;
      expect(contrast(PALETTES[theme][ink], PALETTES[theme][on])).toBeGreaterThanOrEqual(
        as === "text" ? text : 3,
      );
    },
  );

  const nameOf = (ink: string) => Object.entries(INK).find(([, value]) => value === ink)?.[0];

  test("every mark of a crossing is one of the pairs", () => {
    for (const state of CELL_STATES) {
      const { ink, on = INK.panel } = CELL_MARKS[state];
      expect(PAIRS).toContainEqual({ ink: nameOf(ink), on: nameOf(on), as: "text" });
    }
  });

  test("no colour is used that is not among the inks, and the panel lies under everything", () => {
    for (const svg of [chip?.svg ?? "", grid?.svg ?? ""]) {
      const colours = [...svg.matchAll(/ (?:fill|stroke)="(?!none"|url)([^"]*)"/g)].map(
        ([, colour]) => colour,
      );
      expect(colours.length).toBeGreaterThan(5);
      expect(
        colours.filter((colour) => !(Object.values(INK) as (string | undefined)[]).includes(colour)),
      ).toEqual([]);
      const first = elementsOf(svg.replace(/<defs>.*<\/defs>/, "")).find(({ name }) => name === "rect");
      expect(first?.attributes.get("fill")).toBe(INK.panel);
      // Black is what SVG draws with where no colour is named: every text names one, itself or by its group.
      expect(svg).not.toMatch(/<svg[^>]*fill=/);
    }
  });

  test.each(themes)("an image in %s has the colours of that theme and no other", (theme) => {
    const evil = '="var(--mendlog-bad,#8c1d18)"';
    for (const drawn of [
      chipPicture({ title: evil, package: { name: "DIP-8", pins: 8 }, pins: [] }),
      chip,
      grid,
    ]) {
      const svg = themed(drawn?.svg ?? "", theme);
      const colours = [...svg.matchAll(/ (?:fill|stroke)="(?!none"|url)([^"]*)"/g)].map(
        ([, colour]) => colour,
      );
      expect(colours.length).toBeGreaterThan(3);
      for (const colour of colours) expect(Object.values(PALETTES[theme])).toContain(colour);
      expect(elementsOf(svg).map(({ text }) => text)).toEqual(
        elementsOf(drawn?.svg ?? "").map(({ text }) => text),
      );
    }
  });
});

test("pictures that stand in one page share no id, and text that looks like one stays as it is", () => {
  const evil = ' id="x" href="#y" ="url(#z)';
  const svg = chipPicture({
    title: evil,
    package: { name: "DIP-14", pins: 14 },
    pins: [{ number: "1", name: evil, verdict: "suspect" }],
  })?.svg;
  const own = inlined(svg ?? "", "p1-");
  const ids = (text: string) => elementsOf(text).flatMap(({ attributes }) => attributes.get("id") ?? []);
  expect(ids(own)).toEqual(ids(svg ?? "").map((id) => `p1-${id}`));
  expect(elementsOf(own).map(({ text }) => text)).toEqual(elementsOf(svg ?? "").map(({ text }) => text));
  const targets = elementsOf(inlined(grid?.svg ?? "", "p2-")).flatMap(
    ({ attributes }) =>
      /^(?:url\()?#(.*?)\)?$/.exec(attributes.get("href") ?? attributes.get("fill") ?? "")?.[1] ?? [],
  );
  expect(targets.length).toBeGreaterThan(3);
  for (const target of targets) expect(ids(inlined(grid?.svg ?? "", "p2-"))).toContain(target);
});

describe("text", () => {
  test("is escaped for XML, and what XML does not allow is replaced", () => {
    expect(xml('<a b="c">&amp;')).toBe("&lt;a b=&quot;c&quot;&gt;&amp;amp;");
    expect(xml("a\u0001b\ud800c\ufffe")).toBe("a\ufffdb\ufffdc\ufffd");
    expect(xml("\u{1f527} Ω µ")).toBe("\u{1f527} Ω µ");
  });

  test("is cut where there is no room, never inside a character", () => {
    expect(fitted("GND", 100, 11)).toBe("GND");
    const cut = fitted("\u{1f527}".repeat(20), 60, 11);
    expect(textWidth(cut, 11)).toBeLessThanOrEqual(60);
    expect(cut).toMatch(/^(?:\u{1f527})+…$/u);
    expect(fitted("ABC", 0, 11)).toBe("…");
  });
});

test.each(["", "a", "ab", "abc", "Ω µ \u{1f527} </svg>", "\ud800"])(
  "base64 of %j is that of its bytes",
  (text) => {
    expect(base64(text)).toBe(Buffer.from(text, "utf8").toString("base64"));
    expect(dataUri(text)).toMatch(/^data:image\/svg\+xml;base64,[A-Za-z\d+/]*={0,2}$/);
  },
);
