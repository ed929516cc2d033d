import { describe, expect, test } from "vitest";
import { type ChipInput, type ChipPin, chipPicture, chipWords } from "../../server/src/pictures/chip";
import { VERDICT_MARKS, VERDICTS } from "../../server/src/pictures/marks";
import { WIDEST_PICTURE } from "../../server/src/pictures/svg";
import { checkSafe, elementsOf, textsOf } from "./strict-xml";

const pinsOf = (count: number, more: (number: number) => Partial<ChipPin> = () => ({})): ChipPin[] =>
  Array.from({ length: count }, (_, i) => ({ number: String(i + 1), name: `P${i + 1}`, ...more(i + 1) }));

const chip = (name: string, pins: number, more?: (number: number) => Partial<ChipPin>): ChipInput => ({
  title: "U14 74LS14",
  package: { name, pins },
  pins: pinsOf(pins, more),
});

const drawn = (input: ChipInput): string => {
  const made = chipPicture(input);
  if (!made) throw new Error(`No picture of ${input.package.name}`);
  return made.svg;
};

/** Where a text stands: [x, y]. */
const placeOf = (svg: string, text: string): [number, number] => {
  const found = elementsOf(svg).find((each) => each.name === "text" && each.text === text);
  return [Number(found?.attributes.get("x")), Number(found?.attributes.get("y"))];
};

describe("the outline", () => {
  test.each([
    ["DIP-14", 14],
    ["DIP-40", 40],
    ["SIP-9", 9],
    ["TO-92", 3],
    ["TO-220", 3],
  ])("%s is drawn with every number, name and net, safe and no wider than a hover", (name, pins) => {
    const made = chipPicture(chip(name, pins, (number) => ({ net: `NET_${number}`, verdict: "suspect" })));
    expect(made).toBeDefined();
    checkSafe(made?.svg ?? "");
    expect(made?.width).toBeLessThanOrEqual(WIDEST_PICTURE);
    const texts = textsOf(made?.svg ?? "");
    for (let pin = 1; pin <= pins; pin++)
      expect(texts).toEqual(expect.arrayContaining([`${pin}`, `P${pin}`, `NET_${pin}`]));
  });

  test("goes down the left and up the right of a dual row, seen from above", () => {
    const svg = drawn(chip("DIP-14", 14));
    const [one, seven, eight, fourteen] = ["1", "7", "8", "14"].map((pin) => placeOf(svg, pin));
    expect(one?.[0]).toBe(seven?.[0]);
    expect(eight?.[0]).toBe(fourteen?.[0]);
    expect(one?.[0]).toBeLessThan(fourteen?.[0] ?? 0);
    expect(one?.[1]).toBe(fourteen?.[1]);
    expect(seven?.[1]).toBe(eight?.[1]);
    expect(one?.[1]).toBeLessThan(seven?.[1] ?? 0);
    expect(textsOf(svg).join()).toContain("component side");
  });

  test.each([
    ["TO-3", 3],
    ["DO-41", 2],
    ["BRIDGE-4", 4],
    ["TO-92", 4],
    ["DIP-7", 7],
    ["DIP-9999", 9998],
    ["DIP-0", 0],
    ["", Number.NaN],
  ])("%s with %d pins has no picture", (name, pins) => {
    expect(chipPicture({ title: "X1", package: { name, pins }, pins: [] })).toBeUndefined();
  });

  test("shows a pin the library does not name by its number alone, and none the package has not", () => {
    const svg = drawn({
      title: "U1",
      package: { name: "DIP-8", pins: 8 },
      pins: [{ number: "99", name: "NOWHERE" }],
    });
    expect(textsOf(svg)).toContain("8");
    expect(textsOf(svg)).not.toContain("NOWHERE");
  });
});

describe("verdicts", () => {
  const svg = drawn(
    chip("DIP-14", 14, (number) => {
      const verdict = VERDICTS[number - 1];
      return verdict ? { verdict } : {};
    }),
  );
  const marks = elementsOf(svg).filter(({ name }) => name === "use");

  test("have a shape and a letter each, told apart without colour", () => {
    const definitions = [...svg.matchAll(/<g id="v\d">(.*?)<\/g>/g)].map(([, inside]) =>
      // The words tell unjudged and not measured apart; their dash is one.
      (inside ?? "").replace(/#[\da-f]{6}/g, ""),
    );
    expect(definitions).toHaveLength(VERDICTS.length);
    const shapes = definitions.map((inside) => inside.replace(/<text.*/, ""));
    expect(new Set(shapes).size).toBe(new Set(VERDICTS.map((v) => VERDICT_MARKS[v].glyph)).size);
    // An O would be read as zero, or as open.
    expect(VERDICTS.map((verdict) => VERDICT_MARKS[verdict].letter)).not.toContain("O");
    for (const [i, verdict] of VERDICTS.entries())
      expect(definitions[i]).toContain(`>${VERDICT_MARKS[verdict].letter}</text>`);
  });

  test("stand on the line of their pin and again in the legend, in words", () => {
    for (const [i, verdict] of VERDICTS.entries()) {
      const own = marks.filter(({ attributes }) => attributes.get("href") === `#v${i}`);
      expect(own).toHaveLength(2);
      expect(Number(own[0]?.attributes.get("y"))).toBe(placeOf(svg, `P${i + 1}`)[1] - 4);
      expect(textsOf(svg)).toContain(VERDICT_MARKS[verdict].words.toLowerCase());
    }
  });

  test("are left out, legend and all, where nothing was read", () => {
    expect(drawn(chip("DIP-14", 14))).not.toContain("<use");
  });
});

test.each([
  ["DIP-14", 14],
  ["SIP-6", 6],
  ["TO-92", 3],
])("markup in the names of a %s stays text, wherever it stands", (name, pins) => {
  const evil = '<script>alert("x")</script>&amp;\u0000\ud800]]>';
  const svg = drawn({
    title: evil,
    package: { name, pins },
    pins: pinsOf(6, () => ({ name: evil, net: evil })),
  });
  checkSafe(svg);
  expect(svg).not.toMatch(/<script|<\/script/i);
  expect(textsOf(svg).some((text) => text.startsWith("<scr"))).toBe(true);
});

test("the worst case of forty long names and nets stays small", () => {
  const svg = drawn(
    chip("DIP-40", 40, () => ({ name: "&".repeat(60), net: "<".repeat(60), verdict: "out-of-limits" })),
  );
  checkSafe(svg);
  expect(svg.length).toBeGreaterThan(4_000);
});

test("long names are cut with an ellipsis inside the panel and kept whole in the words beside", () => {
  const svg = drawn(
    chip("DIP-14", 14, () => ({ name: "A_VERY_LONG_PIN_NAME", net: "AN_EVEN_LONGER_NET_NAME" })),
  );
  const cut = textsOf(svg).filter((text) => text.endsWith("…"));
  expect(cut).toHaveLength(28);
  for (const text of cut) expect(text.length).toBeGreaterThan(4);
});

test("the words say the same, the heaviest first, and never more than was read", () => {
  const words = chipWords(
    chip("DIP-14", 14, (number) =>
      number === 1 || number === 4
        ? { verdict: "out-of-limits" }
        : number < 4
          ? { verdict: "within-limits" }
          : {},
    ),
  );
  expect(words).toBe("U14 74LS14, DIP-14. out of limits: pins 1, 4; within limits: pins 2, 3.");
  expect(chipWords(chip("DIP-14", 14))).toMatch(/No pin of it has a reading/);
  expect(words).not.toMatch(/\bgood\b|\bpassed\b/);
});

test("is read by screen readers, and is the same text every time", () => {
  const input = chip("DIP-14", 14, () => ({ verdict: "suspect" }));
  const elements = elementsOf(drawn(input));
  expect(elements[0]?.attributes.get("role")).toBe("img");
  expect(elements.find(({ name }) => name === "title")?.text).toBe("U14 74LS14");
  expect(elements.find(({ name }) => name === "desc")?.text).toBe(chipWords(input));
  expect(drawn(structuredClone(input))).toBe(drawn(input));
});
