/** The board that the checks' examples are about; they are read with it beside them. */
export const EXAMPLE_BOARD = `mendlog-board: 1
id: example
title: Example board
source: invented for the examples
grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, ripple: 50 mV, net: VCC, source: invented }
parts:
  U14: { device: 74LS04 }
  U15: { device: 74LS04 }
  U20: { device: 74LS74 }
  R12: { value: 4k7 }
  C5: { value: 10 uF 16 V }
  Q1: { device: 2N3904 }
nets:
  GND: [U14.7, U15.7, U20.7, U15.13]
  VCC: [U14.14, U15.14, U20.14, R12.1]
  ROW_1: [U14.2, U15.1]
  PULLED: [U15.5, R12.2]
expected:
  - { procedure: diode-check, ref: U20, pin: 5, low: 0.50 V, high: 0.56 V, source: three boards on the bench }
  - { procedure: resistance-to-ground, rail: "+5V", low: 60 ohm, high: 400 ohm, source: invented }
`;

/** A log's text: front matter with the lines given, then the body. */
export const exampleLog = (body: string, front = ""): string =>
  `---\nmendlog: 1\nboard: example\n${front}---\n\n${body}`;
