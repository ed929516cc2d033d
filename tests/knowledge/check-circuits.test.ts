import { expect, test } from "vitest";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { loadDevice } from "../../server/src/knowledge/load-device";
import { checkProblems } from "./problems";

const HEAD = "mendlog-board: 1\nid: regatta\ntitle: Regatta\n";
const check = (rest: string) => checkProblems((text) => loadBoard(text), HEAD + rest);

test("a supply that says all there is to say", () => {
  const board = check(`rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, regulator: VR1, input: +5V raw, dropout: 2 V }
  "+5V raw": { nominal: 9 V, tolerance: 15 %, load: 1.8 A, reservoir: C1, rectifier: full-wave, mains: 50 Hz }
  "-12V": { nominal: -12 V, tolerance: 5 %, input: -12V raw, dropout: 1.1 V }
  "-12V raw": { nominal: -20 V, tolerance: 15 %, rectifier: half-wave }
parts: { VR1: { device: "7805" }, C1: { value: 4700 uF } }
`);
  expect(board?.rails.get("+5V")).toMatchObject({ regulator: "VR1", input: "+5V raw", dropout: "2 V" });
  expect(board?.rails.get("+5V raw")).toMatchObject({
    reservoir: "C1",
    rectifier: "full-wave",
    mains: "50 Hz",
  });
  expect(board?.rails.get("-12V raw")?.rectifier).toBe("half-wave");
});

test("supplies that cannot be", () => {
  check(`rails:
  A: { nominal: 5 V, tolerance: 0 %, regulator: VR1, reservoir: C1, mains: 0 Hz, load: -1 A }
                                ^^^ zero-tolerance: lets no reading of rail \`A\` be right
                                                                ^^ reservoir-behind-regulator: Put \`reservoir\` on the rail before the regulator
                                                                           ^^^^ not-above-zero: Write the frequency of the mains
                                                                                       ^^^^ negative-load
  B: { nominal: 5 V, tolerance: 5 %, input: B }
                                            ^ rail-feeds-itself
  C: { nominal: 12 V, tolerance: 5 %, input: D }
                                             ^ rail-feeds-itself: Rail \`C\` feeds itself through \`input\`.
  D: { nominal: 18 V, tolerance: 5 %, input: C }
                                             ^ rail-feeds-itself
  E: { nominal: 5 V, tolerance: 5 %, input: A, dropout: -2 V }
                                            ^ input-too-low: Rail \`A\` of \`5 V\` is too low for \`E\` of \`5 V\`. Correct one of them.
                                                        ^^^^ not-above-zero: A regulator's dropout is what it needs across it
  F: { nominal: -5 V, tolerance: 5 %, input: A, dropout: 1 V }
                                             ^ input-of-other-sign: a linear regulator keeps the sign
  G: { nominal: 10.1 V, tolerance: 5 %, input: C, dropout: 2 V }
                                               ^ input-too-low: and the dropout of \`2 V\`
  H: { nominal: 10 V, tolerance: 5 %, input: C, dropout: 2 V }
  I: { nominal: 10 V, tolerance: 5 %, dropout: 2 V }
                                               ^^^ dropout-without-input
  J: { nominal: 10 V, tolerance: 5 %, rectifier: both, mains: 5 V, input: K, reservoir: C9 }
                                                 ^^^^ not-in-list
                                                              ^^^ bad-quantity: \`5 V\` is a voltage, but a frequency is wanted here
                                                                          ^ unknown-rail
                                                                                        ^^ unknown-part
parts: { VR1: {}, C1: {} }
`);
});

test("resets that cannot be are told", () => {
  const board =
    check(`rails: { "+5V": { nominal: 5 V, tolerance: 5 % }, "-5V": { nominal: -5 V, tolerance: 5 % } }
parts: { U1: {}, R1: {}, C1: {} }
resets:
  - { ref: U1, pin: 40, resistor: R1, capacitor: C1, rail: "+5V", threshold: 2.0 V }
  - { ref: U1, pin: 40, resistor: R1, capacitor: C1, rail: "+5V", threshold: 5 V }
                                                                             ^^^ threshold-outside-rail: A capacitor that charges from 0 V to \`+5V\` never crosses \`5 V\`.
  - { ref: U1, pin: 40, resistor: R1, capacitor: C1, rail: "-5V", threshold: 2 V }
                                                                             ^^^ threshold-outside-rail
  - { ref: U1, pin: 40, resistor: R1, capacitor: C1, rail: "+5V", threshold: 0 V }
                                                                             ^^^ threshold-outside-rail
  - { ref: U2, pin: 40, resistor: R2, capacitor: C1, rail: "+6V", threshold: 2 V }
           ^^ unknown-part: \`ref\` of entry 5 of \`resets\` names part \`U2\`
                                  ^^ unknown-part
                                                           ^^^^^ unknown-rail
  - { ref: U1, pin: 40, resistor: R1, rail: "+5V", threshold: 2 s }
    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ missing-key: needs the key \`capacitor\`
                                                              ^^^ bad-quantity
`);
  expect(board?.resets.map(({ index }) => index)).toEqual([0, 1, 2, 3, 4]);
});

test("memory back-ups, coils and clocks", () => {
  const board =
    check(`rails: { "+5V": { nominal: 5 V, tolerance: 5 % }, VMEM: { nominal: 4.4 V, tolerance: 5 % }, COIL: { nominal: 33 V, tolerance: 5 % } }
parts: { U1: {}, R1: {}, C1: {}, Q1: {}, F1: {} }
backups:
  - { rail: VMEM, capacitor: C1, resistor: R1, from: "+5V", drop: 0.6 V, minimum: 2 V, current: 10 uA }
  - { rail: VMEM, capacitor: C1, minimum: 4.4 V, current: 0 A, from: VMEM, drop: -0.6 V }
                                          ^^^^^ minimum-above-nominal: A minimum of \`4.4 V\` is not below rail \`VMEM\` of \`4.4 V\`
                                                          ^^^ not-above-zero: \`0 A\` is not above zero. Write what the memory draws
                                                                     ^^^^ rail-feeds-itself
                                                                                 ^^^^^^ negative-drop
  - { rail: VMEM, capacitor: C1, from: "+5V", drop: 5 V }
                                                    ^^^ drop-above-rail
coils:
  - { title: Gate, driver: Q1, limit: 8 A, resistance: 10 ohm, tolerance: 10 %, supply: COIL, fuse: F1 }
  - { driver: Q1, limit: 3 A, resistance: 10 ohm, supply: COIL }
                         ^^^ coil-above-limit: A coil of \`10 ohm\` on \`COIL\` draws 3.3 A, more than the driver's \`3 A\`.
  - { driver: Q2, resistance: 0 ohm, tolerance: 0 %, supply: COILS, limit: -1 A }
              ^^ unknown-part
                              ^^^^^ not-above-zero
                                                ^^^ zero-tolerance
                                                             ^^^^^ unknown-rail: Did you mean \`COIL\`?
                                                                           ^^^^ not-above-zero
clocks:
  - { ref: U1, pin: 37, nominal: 894886.25 Hz, tolerance: 100 ppm }
  - { ref: U1, pin: 37, nominal: 0 Hz, tolerance: 100 % }
                    ^^ clock-twice: U1 pin 37 has two clocks.
                                 ^^^^ not-above-zero
                                                  ^^^^^ tolerance-too-wide
  - { ref: U1, pin: 38, nominal: 1 MHz, tolerance: 0 ppm, from: Y1 }
                                                   ^^^^^ zero-tolerance
                                                                ^^ unknown-part
`);
  expect(board?.backups[0]).toEqual({
    index: 0,
    rail: "VMEM",
    capacitor: "C1",
    resistor: "R1",
    from: "+5V",
    drop: "0.6 V",
    minimum: "2 V",
    current: "10 uA",
  });
  expect(board?.coils[0]).toMatchObject({ title: "Gate", driver: "Q1", supply: "COIL", fuse: "F1" });
  expect(board?.clocks.map(({ nominal }) => nominal)).toEqual(["894886.25 Hz", "0 Hz", "1 MHz"]);
});

test("pins that the part does not have", () => {
  const inverter = loadDevice(
    'mendlog-device: 1\nid: "7404"\ntitle: Hex inverter\nkind: logic\npackage: { name: DIP-14, pins: 14 }\npins: { 1: { name: A, direction: input } }\nsource: s\n',
  ).value;
  const withPins = (fixture: string) =>
    checkProblems((text) => loadBoard(text, { deviceOf: () => inverter }), HEAD + fixture);
  withPins(`rails: { "+5V": { nominal: 5 V, tolerance: 5 % } }
parts: { U1: { device: "7404" }, R1: {}, C1: {} }
resets:
  - { ref: U1, pin: 40, resistor: R1, capacitor: C1, rail: "+5V", threshold: 2 V }
                    ^^ no-such-pin: U1 is a 7404 (Hex inverter, DIP-14): it has no pin 40, only 1 to 14.
clocks:
  - { ref: U1, pin: 14, nominal: 1 MHz, tolerance: 100 ppm }
  - { ref: U1, pin: 15, nominal: 1 MHz, tolerance: 100 ppm }
                    ^^ no-such-pin
`);
});
