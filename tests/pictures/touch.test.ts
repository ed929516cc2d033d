import { describe, expect, test } from "vitest";
import { touchPicture, touchWords } from "../../server/src/pictures/touch";
import { checkSafe } from "./strict-xml";

const chip = (pins: number, pin: string, name = "GND") => ({
  title: "U14 74LS14",
  package: { name: `DIP-${pins}`, pins },
  pin,
  name,
});

describe("where to put the probe", () => {
  test.each([
    ["1", "on the left, first from the notch"],
    ["7", "on the left, 7th from the notch"],
    ["8", "on the right, 7th from the notch"],
    ["14", "on the right, first from the notch"],
  ])("pin %s of fourteen is %s", (pin, words) => {
    expect(touchWords(chip(14, pin))).toBe(
      `U14 74LS14, DIP-14, notch up, from above: put the probe on pin ${pin}, GND, ${words}.`,
    );
  });

  test.each([8, 14, 16, 28, 40, 64])("is drawn within its frame, whatever the pin of %d", (pins) => {
    for (let pin = 1; pin <= pins; pin++) {
      const drawn = touchPicture(chip(pins, String(pin)));
      expect(drawn).toBeDefined();
      const { svg = "", height = 0, width = 0 } = drawn ?? {};
      for (const [, x = "", y = ""] of svg.matchAll(/<text x="([\d.-]+)" y="([\d.-]+)"/g)) {
        expect(Number(x)).toBeGreaterThanOrEqual(0);
        expect(Number(x)).toBeLessThanOrEqual(width);
        expect(Number(y), `pin ${pin} of ${pins}`).toBeGreaterThan(12);
        expect(Number(y)).toBeLessThan(height);
      }
      // The marked pin is told by an arrow and by its number, not by colour.
      expect(svg.match(new RegExp(`>${pin}</text>`, "g"))?.length).toBe(2);
    }
  });

  test.each([
    ["no such pin", chip(14, "15")],
    ["a pin that is a name", chip(14, "VCC")],
    ["three legs", { ...chip(3, "1"), package: { name: "TO-92", pins: 3 } }],
    ["no row of pins", { ...chip(4, "1"), package: { name: "TO-3", pins: 4 } }],
  ])("%s has no picture", (_, input) => {
    expect(touchPicture(input)).toBeUndefined();
  });

  test("typed names are text and nothing else", () => {
    const { svg = "" } = touchPicture(chip(14, "2", '<script>"&')) ?? {};
    expect(svg).toContain("&lt;script&gt;");
    checkSafe(svg);
  });
});
