/** A small board with something of everything; `more` is put behind it. */
export const board = (more = ""): string => `mendlog-board: 1
id: test
title: Test board
grounds: [GND]
cautions: [Clear the cabinet of mains before unplugging the board.]
revisions:
  A: first issue
  B: battery moved
circuits:
  reset: { title: Reset circuit, note: look here first }
  display: { title: Display }
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, ripple: 50 mV, net: VCC, test-point: TP1, source: invented }
parts:
  U8: { device: "2716", circuit: display }
  U14: { device: 74LS04, circuit: reset, location: C4 }
  U15: { device: 74LS74 }
  R12: { value: 4k7, circuit: reset }
  SW1: { value: 8-way switch }
  TP1: { value: test point }
nets:
  GND: [U14.7, U15.7]
  VCC: [U14.14, R12.1, TP1.1]
  ROW_1: [U14.2, U15.3]
${more}`;
