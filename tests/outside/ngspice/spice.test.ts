import { expect, test } from "vitest";
import { describeSpice, measure, simulate } from "./spice";

describeSpice("the way ngspice is read", () => {
  const divider = ["v1 a 0 dc 10", "r1 a b 1k", "r2 b 0 3k", ".tran 1u 10u"];
  test("a result is found by its name", () => {
    expect(measure("vb", [...divider, ".measure tran vb find v(b) at=5u"])).toBeCloseTo(7.5, 6);
  });
  test("a measurement that fails is an error, though ngspice ends with success", () => {
    expect(() => simulate([...divider, ".measure tran never when v(b)=9"])).toThrow(/no result for never/);
    expect(() => simulate(divider)).toThrow(/no result/);
  });
});
