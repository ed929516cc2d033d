/** The board that the checks' examples are about; they are read with it beside them. */
export const EXAMPLE_BOARD = `mendlog-board: 1
id: example
title: Example board
source: invented for the examples
grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, ripple: 50 mV, net: VCC, source: invented }
  "+9V raw": { nominal: 9 V, tolerance: 2 V, load: 1 A, reservoir: C1, rectifier: full-wave, mains: 50 Hz, source: invented }
  "+24V": { nominal: 24 V, tolerance: 10 %, source: invented }
parts:
  U14: { device: 74LS04 }
  U15: { device: 74LS04 }
  U20: { device: 74LS74 }
  R12: { value: 4k7 }
  C5: { value: 10 uF 16 V }
  Q1: { device: 2N3904 }
  C1: { value: 4700 uF 25 V }
  Q5: { device: TIP102 }
nets:
  GND: [U14.7, U15.7, U20.7, U15.13]
  VCC: [U14.14, U15.14, U20.14, R12.1]
  ROW_1: [U14.2, U15.1]
  PULLED: [U15.5, R12.2]
coils:
  - { driver: Q5, limit: 8 A, resistance: 12 ohm, supply: "+24V", source: invented }
clocks:
  - { ref: U20, pin: 3, nominal: 1 MHz, tolerance: 500 ppm, source: invented }
expected:
  - { procedure: diode-check, ref: U20, pin: 5, low: 0.50 V, high: 0.56 V, source: three boards on the bench }
  - { procedure: resistance-to-ground, rail: "+5V", low: 60 ohm, high: 400 ohm, source: invented }
`;

/** A log's text: front matter with the lines given, then the body. */
export const exampleLog = (body: string, front = ""): string =>
  `---\nmendlog: 1\nboard: example\n${front}---\n\n${body}`;
