import { expect, test } from "vitest";
import { howToSeparate } from "../../../server/src/compute/nets/separate";
import { regatta } from "../diagnosis/regatta";

const steps = (net: string) => howToSeparate(regatta.nets.get(net)!, regatta).more;

test("what comes off easily first, iron and knife last", () => {
  expect(steps("ROW_7")).toMatch(
    /^Read the net again after each step: pull U10 from the socket one at a time, then lift U14 pin 2 one at a time, or cut the track/,
  );
  expect(steps("SW_ROW_7")).toMatch(/unplug J3, then lift U14 pin 1, RN1 pin 8 one at a time/);
  expect(steps("SW_ROW_7")).toMatch(/If it stays low with all of them off, its track touches another/);
});

test("the first step is told by itself, with the power off", () => {
  expect(howToSeparate(regatta.nets.get("ROW_7")!, regatta).step).toBe(
    "Power off, pull U10 from the socket one at a time, and read the net again.",
  );
});

test("of a bus a few are named and the rest counted", () => {
  expect(steps("D0")).toMatch(/pull U1, U2 and 4 more from the socket/);
  expect(steps("D0")).toMatch(/lift U7 pin 14, .* and \d more one at a time/);
});

test("a net with a test point alone has nothing to take off", () => {
  expect(howToSeparate({ name: "X", pins: [{ ref: "TP1", pin: "1" }] }, regatta).step).toMatch(
    /^Read the net again/,
  );
});
