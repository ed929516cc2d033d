import { describe, expect, test } from "vitest";
import { coilCurrent, coilPower, judgeCoil } from "../../../server/src/compute/circuit/coil";
import type { Saying } from "../../../server/src/text/saying";
import { words } from "../../support/words";
import { close, reason, ruling } from "./support";

const TRANSISTOR = { value: 8, source: "TIP102 data sheet, from memory" };
const FUSE = { value: 3, source: "invented" };

test("a coil's current and heat follow from its supply and resistance", () => {
  expect(close(coilCurrent({ supply: 43, resistance: 10 }), 4.3).formula).toBe("43 V / 10 Ω = 4.3 A");
  expect(close(coilPower({ supply: 43, resistance: 10 }), 184.9).formula).toBe("(43 V)² / 10 Ω = 184.9 W");
  expect(reason(coilCurrent({ supply: 43, resistance: 0 }))).toMatch(/coil resistance must be above zero/);
  expect(reason(coilPower({ supply: 0, resistance: 4 }))).toMatch(/coil supply/);
});

describe("against driver and fuse", () => {
  test("a current below both limits is within limits", () => {
    const found = ruling(
      judgeCoil({ supply: 25, resistance: 10, transistor: TRANSISTOR, fuse: FUSE }),
      "within-limits",
    );
    expect(found).toMatchObject({ current: 2.5, power: 62.5 });
    expect(found.says).toHaveLength(2);
  });
  test("above the driver's limit must not be connected", () => {
    const found = ruling(judgeCoil({ supply: 43, resistance: 2, transistor: TRANSISTOR }), "out-of-limits");
    expect(words({ says: found.says[0] as Saying })).toMatch(
      /21\.5 A; its driver carries 8 A.* Do not connect it/,
    );
  });
  test("above the fuse alone is suspect: a pulse may exceed it", () => {
    const found = ruling(
      judgeCoil({ supply: 43, resistance: 10, transistor: TRANSISTOR, fuse: FUSE }),
      "suspect",
    );
    expect(found.says[1]?.cause).toMatch(/short pulses only/);
  });
  test("the gravest of both counts", () => {
    ruling(judgeCoil({ supply: 43, resistance: 2, transistor: TRANSISTOR, fuse: FUSE }), "out-of-limits");
  });
  test("leads in the reading make a low coil uncertain, not out", () => {
    const given = { supply: 43, resistance: 5.2, transistor: TRANSISTOR };
    ruling(judgeCoil({ ...given, uncertainty: 0.5 }), "suspect");
    ruling(judgeCoil({ ...given, uncertainty: 0 }), "out-of-limits");
    ruling(judgeCoil({ ...given, resistance: 0.3, uncertainty: 0.5 }), "out-of-limits");
  });
  test("with no limit known nothing is judged", () => {
    expect(ruling(judgeCoil({ supply: 43, resistance: 10 }), "unjudged").says[0]?.fact).toMatch(
      /4\.3 A; neither/,
    );
  });
  test("open and shorted windings are answers", () => {
    expect(
      ruling(judgeCoil({ supply: 43, resistance: Number.POSITIVE_INFINITY }), "out-of-limits").current,
    ).toBe(0);
    const short = judgeCoil({ supply: 43, resistance: 0 });
    expect(ruling(short, "out-of-limits")).toMatchObject({ current: Number.POSITIVE_INFINITY });
  });
  test("what cannot be is refused", () => {
    expect(reason(judgeCoil({ supply: 43, resistance: -2 }))).toMatch(/coil resistance/);
    expect(reason(judgeCoil({ supply: 43, resistance: 2, fuse: { ...FUSE, value: 0 } }))).toMatch(
      /fuse's rating/,
    );
    expect(reason(judgeCoil({ supply: Number.NaN, resistance: 2 }))).toMatch(/coil supply/);
  });
});
