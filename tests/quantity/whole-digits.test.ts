import { describe, expect, it } from "vitest";
import { possibleReadings, wholeReading } from "../../server/src/quantity/whole-digits";

describe("digits without a point on a range up to 3 V", () => {
  const at = { limit: 3 };

  it.each([
    ["558", "0.558 V"],
    ["301", "0.301 V"],
    ["400", "0.400 V"],
    ["999", "0.999 V"],
    ["1487", "1.487 V"],
    ["0312", "0.312 V"],
  ])("are one reading where the point can stand in one place alone: %s is %s", (typed, reading) => {
    expect(wholeReading(typed, at)).toBe(reading);
  });

  it.each(["300", "299", "142", "58", "5", "0", "058", "3001", "12345", "0.58", "-558", "5a8"])(
    "are no reading where it can stand in two places or in none: %s",
    (typed) => expect(wholeReading(typed, at)).toBeUndefined(),
  );

  it("tell of each reading they can be, three decimals first", () => {
    expect(possibleReadings("142", at)).toEqual(["0.142", "1.42"]);
    expect(possibleReadings("58", at)).toEqual(["0.58", "0.058"]);
    expect(possibleReadings("558", at)).toEqual(["0.558"]);
    expect(possibleReadings("1487", at)).toEqual(["1.487"]);
  });

  it.each(["3", "0.58", "OL", "5580"])("tell of no reading where they can be none: %s", (typed) => {
    expect(possibleReadings(typed, at)).toEqual([]);
  });

  it("agree: what is decided is the only one of those that are possible", () => {
    for (const limit of [2, 2.8, 3, 3.2, 5, 6.5])
      for (let n = 10; n < 10_000; n += 1) {
        const typed = String(n);
        const decided = wholeReading(typed, { limit });
        if (decided !== undefined)
          expect(possibleReadings(typed, { limit }).map((v) => `${v} V`)).toEqual([decided]);
      }
  });
});
