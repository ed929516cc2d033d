// Whatever number is typed, an answer is a value with finite numbers and a formula, or a reason; nothing throws.
import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { coilCurrent, coilPower, judgeCoil } from "../../../server/src/compute/circuit/coil";
import { deviation, judgeFrequency } from "../../../server/src/compute/circuit/frequency";
import {
  chargeCurrent,
  chargeTime,
  holdUpAtCurrent,
  holdUpIntoResistance,
  impliedCurrent,
} from "../../../server/src/compute/circuit/holdup";
import {
  judgeCapacitanceInCircuit,
  judgeResistanceInCircuit,
} from "../../../server/src/compute/circuit/in-circuit";
import { judgeJunctions } from "../../../server/src/compute/circuit/junction";
import { parallelCapacitance, parallelResistance } from "../../../server/src/compute/circuit/parallel";
import { judgeResetDelay, rcTime, rcVoltage, resetDelay } from "../../../server/src/compute/circuit/rc";
import {
  dissipation,
  dropoutHeadroom,
  judgeDissipation,
  valley,
} from "../../../server/src/compute/circuit/regulator";
import { impliedCapacitance, judgeReservoir, rippleBound } from "../../../server/src/compute/circuit/ripple";
import { inputLevels4000 } from "../../../server/src/compute/logic/family-levels";
import { compareToLevels } from "../../../server/src/compute/logic/levels";
import { netAgreement } from "../../../server/src/compute/nets/agreement";
import { likePinOutliers } from "../../../server/src/compute/nets/outliers";
import { sharedFaults } from "../../../server/src/compute/nets/shared-fault";

type Answer = { readonly ok: boolean };
type Six = readonly [number, number, number, number, number, number];

const full = "full-wave" as const;
const half = "half-wave" as const;
const limitSource = "test";
const place = { ref: "U1", pin: "1" };

const ALL: Readonly<Record<string, (numbers: Six) => Answer>> = {
  rippleBound: ([current, frequency, capacitance]) =>
    rippleBound({ current, frequency, capacitance, rectifier: full }),
  impliedCapacitance: ([current, frequency, ripple]) =>
    impliedCapacitance({ current, frequency, ripple, rectifier: half }),
  judgeReservoir: ([current, frequency, ripple, nominal, tolerance, uncertainty]) =>
    judgeReservoir({ current, frequency, ripple, nominal, tolerance, uncertainty, rectifier: full }),
  valley: ([average, ripple]) => valley({ average, ripple }),
  dropoutHeadroom: ([inputMinimum, output, dropout, uncertainty]) =>
    dropoutHeadroom({ inputMinimum, output, dropout, uncertainty, dropoutSource: "test" }),
  dissipation: ([input, output, current]) => dissipation({ input, output, current }),
  judgeDissipation: ([input, output, current, limit]) =>
    judgeDissipation({ input, output, current, limit, limitSource }),
  rcTime: ([resistance, capacitance, from, to, threshold]) =>
    rcTime({ resistance, capacitance, from, to, threshold }),
  rcVoltage: ([resistance, capacitance, from, to, time]) =>
    rcVoltage({ resistance, capacitance, from, to, time }),
  resetDelay: ([resistance, capacitance, supply, threshold, resistorTolerance, capacitorTolerance]) =>
    resetDelay({ resistance, capacitance, supply, threshold, resistorTolerance, capacitorTolerance }),
  judgeResetDelay: ([resistance, capacitance, supply, threshold, measured, uncertainty]) =>
    judgeResetDelay({ resistance, capacitance, supply, threshold, measured, uncertainty }),
  holdUpAtCurrent: ([capacitance, from, to, current]) => holdUpAtCurrent({ capacitance, from, to, current }),
  holdUpIntoResistance: ([capacitance, from, to, resistance]) =>
    holdUpIntoResistance({ capacitance, from, to, resistance }),
  impliedCurrent: ([capacitance, from, to, time]) => impliedCurrent({ capacitance, from, to, time }),
  chargeCurrent: ([supply, resistance, voltage]) => chargeCurrent({ supply, resistance, voltage }),
  chargeTime: ([supply, resistance, capacitance, voltage, from]) =>
    chargeTime({ supply, resistance, capacitance, voltage, from }),
  parallelResistance: (numbers) => parallelResistance(numbers),
  parallelCapacitance: (numbers) => parallelCapacitance(numbers),
  judgeResistanceInCircuit: ([reading, uncertainty, nominal, tolerance, neighbour]) =>
    judgeResistanceInCircuit({ reading, uncertainty, nominal, tolerance, beside: [neighbour] }),
  judgeCapacitanceInCircuit: ([reading, uncertainty, nominal, tolerance]) =>
    judgeCapacitanceInCircuit({ reading, uncertainty, nominal, tolerance }),
  coilCurrent: ([supply, resistance]) => coilCurrent({ supply, resistance }),
  coilPower: ([supply, resistance]) => coilPower({ supply, resistance }),
  judgeCoil: ([supply, resistance, uncertainty, transistor, fuse]) =>
    judgeCoil({
      supply,
      resistance,
      uncertainty,
      transistor: { value: transistor, source: "test" },
      fuse: { value: fuse, source: "test" },
    }),
  deviation: ([measured, nominal]) => deviation(measured, nominal),
  judgeFrequency: ([measured, nominal, limit, uncertainty]) =>
    judgeFrequency({ measured, nominal, limit, limitSource, uncertainty }),
  judgeJunctions: ([be, bc, ce, eb, cb, uncertainty]) =>
    judgeJunctions({ type: "NPN-Darlington", readings: { be, bc, ce, eb, cb }, uncertainty }),
  judgeLevel: ([volts, uncertainty, vih, vil, supply]) =>
    compareToLevels({
      volts,
      uncertainty,
      receiving: { vih, vil, source: "test" },
      technology: "ttl",
      supply,
    }),
  inputLevels4000: ([supply]) => inputLevels4000(supply),
  netAgreement: (numbers) =>
    netAgreement({
      net: "N",
      kind: "drop",
      readings: numbers.map((value) => ({ ...place, value, uncertainty: Math.abs(numbers[5]) })),
    }),
  likePinOutliers: (numbers) =>
    likePinOutliers(
      numbers.map((value, what) => ({ what, value })),
      { unit: "V", leastSpread: numbers[0] },
    ),
  sharedFaults: (numbers) =>
    sharedFaults({
      kind: "resistance",
      wrong: numbers.map((value, index) => ({ net: "N", ref: `U${index}`, pin: "1", value, uncertainty: 0 })),
      members: () => [],
    }),
};

const ODD = [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY, 0, -0, -1, 5e-324, 1.7e308];
const number = fc.oneof(
  { weight: 3, arbitrary: fc.double({ min: 1e-9, max: 1e6, noNaN: true }) },
  { weight: 2, arbitrary: fc.double() },
  { weight: 2, arbitrary: fc.constantFrom(...ODD) },
);

describe("any input", () => {
  test.each(Object.entries(ALL))("%s", (_name, answer) => {
    fc.assert(
      fc.property(fc.tuple(number, number, number, number, number, number), (numbers) => {
        const found = answer(numbers);
        const text = JSON.stringify(found, (_key, value) => (Number.isNaN(value) ? "NOT A NUMBER" : value));
        expect(text).not.toMatch(/NaN|NOT A NUMBER|[^"]undefined/);
        if (!found.ok) expect(found).toMatchObject({ reason: expect.stringMatching(/\.$/) });
      }),
      { numRuns: 300 },
    );
  });
});
