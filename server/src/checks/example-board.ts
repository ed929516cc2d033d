/** The board that the checks' examples are about; they are read with it beside them. */
export const EXAMPLE_BOARD = `mendlog-board: 1
id: example
title: Example board
era: { from: 1978, to: 1983 }
source: invented for the examples
revisions: { A: first issue, B: second issue }
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
  U30: { device: 74LS14 }
  U31: { device: "74145" }
  U32: { device: "2114" }
  U33: { device: "2114" }
  U34: { device: "2716" }
  U35: { device: "2716" }
  SW1: { value: 8-way DIP switch }
  BT1: { value: 3.6 V NiCd }
  J3: { package: header 10 }
nets:
  GND: [U14.7, U15.7, U20.7, U15.13]
  VCC: [U14.14, U15.14, U20.14, R12.1]
  ROW_1: [U14.2, U15.1]
  PULLED: [U15.5, R12.2]
  SW_ROW_1: [U30.1]
  SW_ROW_2: [U30.3]
  SW_ROW_3: [U30.5]
  SW_COL_1: [U31.1]
  SW_COL_2: [U31.2]
  SW_COL_3: [U31.3]
  D0: [U32.14, U34.9, U35.9]
  D1: [U32.13, U34.10, U35.10]
  D2: [U32.12, U34.11, U35.11]
  D3: [U32.11, U34.13, U35.13]
  D4: [U33.14, U34.14, U35.14]
  D5: [U33.13, U34.15, U35.15]
  D6: [U33.12, U34.16, U35.16]
  D7: [U33.11, U34.17, U35.17]
matrices:
  switches:
    kind: switch
    title: Switch matrix
    rows: [SW_ROW_1, SW_ROW_2, SW_ROW_3]
    columns: [SW_COL_1, SW_COL_2, SW_COL_3]
    cells: [[Coin, Start, Tilt], [Gate, Hole, Bell], [Door, Service, Clear memory]]
    reserved: [[3, 3]]
switch-banks:
  SW1:
    settings:
      - { title: Coins, switches: [1, 2], meaning: { "00": one coin, "01": two coins, "11": free play } }
      - { title: Music, switches: [3], meaning: { "0": silent, "1": playing } }
rom-sets:
  first:
    title: First release
    revision: A
    images:
      - { ref: U34, size: 2048, sum16: "6b3e", crc32: "4c90d1ab" }
      - { ref: U35, size: 2048, sum16: "a1f7", crc32: "e27b5609" }
  second:
    title: Second release
    revision: B
    images:
      - { ref: U34, size: 2048, sum16: "70d5", crc32: "9d1f4c72" }
      - { ref: U35, size: 2048, sum16: "9c28", crc32: "37ea80c5" }
coils:
  - { driver: Q5, limit: 8 A, resistance: 12 ohm, supply: "+24V", source: invented }
clocks:
  - { ref: U20, pin: 3, nominal: 1 MHz, tolerance: 500 ppm, source: invented }
codes:
  "E 3": { title: Work memory, parts: [U32, U33] }
  PASS: { title: no fault found, pass: true }
modifications:
  line-clamps:
    title: Clamp diodes on the switch lines
    steps: [Fit two 1N4148 to each line.]
    parts: [12 x 1N4148]
  line-series:
    title: Series resistors in the switch rows
    steps: [Cut each row and bridge the cut with 100 ohm.]
    requires: [line-clamps]
  input-strap:
    title: Strap across J3
    steps: [Link pin 1 of J3 to pin 2.]
    defeats: [Slam switch]
  remote-cell:
    title: Cell off the board
    steps: [Remove BT1 and wire a holder in the cabinet.]
    conflicts: [cell-to-holder]
    revisions: [A]
  cell-to-holder:
    title: Holder in place of the cell
    steps: [Remove BT1 and fit a holder on its pads.]
    revisions: [A]
  quiet-tilt:
    title: Tilt left out
    steps: [Bridge the tilt input to the rail.]
expected:
  - { procedure: diode-check, ref: U20, pin: 5, low: 0.50 V, high: 0.56 V, source: three boards on the bench }
  - { procedure: resistance-to-ground, rail: "+5V", low: 60 ohm, high: 400 ohm, source: invented }
proving:
  - { id: rails, title: Supplies on load, procedure: supply-rails }
  - { id: memory, title: Work memory, procedure: memory-test }
  - { id: switches, title: Every switch row and column, procedure: switch-matrix, matrix: switches }
  - { id: soak, title: One hour on the bench, procedure: soak }
`;

/** A log's text: front matter with the lines given, then the body. */
export const exampleLog = (body: string, front = ""): string =>
  `---\nmendlog: 1\nboard: example\n${front}---\n\n${body}`;
