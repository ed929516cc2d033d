// Judgements of powered readings, against a board that says how its circuits are built.
import { type Judgement, judgeBlock } from "../../server/src/judge";
import { openWorld } from "./workspace";

export const POWERED = `mendlog-board: 1
id: powered
title: Powered board
source: invented for the tests
grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, load: 1 A, regulator: VR1, input: +5V raw, net: VCC }
  "+5V raw": { nominal: 9 V, tolerance: 3 V, load: 1 A, reservoir: C1, rectifier: full-wave, mains: 50 Hz }
  "-12V": { nominal: -12 V, tolerance: 5 %, load: 0.1 A, input: -12V raw, dropout: 1.5 V, source: data sheet }
  "-12V raw": { nominal: -17 V, tolerance: 3 V, ripple: 4 V, reservoir: C2, rectifier: half-wave, mains: 60 Hz }
  Half: { nominal: 9 V, tolerance: 3 V, load: 0.5 A, reservoir: C2, rectifier: half-wave, mains: 60 Hz }
  Limited: { nominal: 9 V, tolerance: 3 V, load: 1 A, ripple: 1 V, reservoir: C1, rectifier: full-wave, mains: 50 Hz }
  NoMains: { nominal: 9 V, tolerance: 3 V, load: 1 A, reservoir: C1, rectifier: full-wave }
  NoShape: { nominal: 9 V, tolerance: 3 V, load: 1 A, reservoir: C1, mains: 50 Hz }
  NoLoad: { nominal: 9 V, tolerance: 3 V, reservoir: C1, rectifier: full-wave, mains: 50 Hz }
  Resistor: { nominal: 9 V, tolerance: 3 V, load: 1 A, reservoir: R1, rectifier: full-wave, mains: 50 Hz }
  VMEM: { nominal: 4.4 V, tolerance: 0.4 V, net: VMEM }
  Coils: { nominal: 24 V, tolerance: 10 % }
parts:
  U1: { device: "6802" }
  U2: { device: 74LS04 }
  U3: { device: bare-chip }
  VR1: { device: "7805" }
  C1: { value: 4700 uF 25 V }
  C2: { value: 2200 uF 35 V 10 % }
  C3: { value: 10 uF 16 V }
  C4: { value: 1 F 5.5 V }
  R1: { value: 10k 5 % }
  R2: { value: 62 ohm }
  R3: { value: about right }
  Q3: { device: TIP102 }
  Q4: { device: TIP102 }
  Q5: { device: TIP102 }
  F4: { value: fuse 1 A slow }
  F5: { value: fuse }
  Y1: { value: 3.579545 MHz crystal }
  J5: { value: 4-way header }
nets:
  GND: [U2.7]
  VCC: [U2.14]
  E: [U1.37, U2.1]
  RESET_N: [U1.40, U2.3]
  COIL_3: [Q3.2, J5.3]
resets:
  - { ref: U1, pin: 40, resistor: R1, capacitor: C3, rail: "+5V", threshold: 2.0 V, source: drawing }
  - { ref: U2, pin: 5, resistor: R3, capacitor: C3, rail: "+5V", threshold: 2.0 V }
  - { ref: U2, pin: 9, resistor: R1, capacitor: C3, rail: "+5V", threshold: 2.0 V }
backups:
  - { rail: VMEM, capacitor: C4, resistor: R2, from: "+5V", drop: 0.6 V, minimum: 2 V, current: 10 uA }
coils:
  - { title: Gate, driver: Q3, limit: 8 A, resistance: 22 ohm, tolerance: 10 %, supply: Coils, fuse: F4, source: machine's manual }
  - { driver: Q4, limit: 8 A, supply: Coils, fuse: F5 }
  - { driver: Q5, supply: Coils }
clocks:
  - { ref: U1, pin: 37, nominal: 894886.25 Hz, tolerance: 100 ppm, from: Y1, source: drawing }
  - { ref: U2, pin: 5, nominal: 1 MHz, tolerance: 100 ppm }
expected:
  - { procedure: frequency, ref: U2, pin: 5, low: 990 kHz, high: 1.01 MHz, source: three boards }
  - { procedure: frequency, ref: U2, pin: 9, low: 2 MHz, high: 1 MHz, source: three boards }
  - { procedure: frequency, ref: U2, pin: 11, low: 1 V, high: 2 V, source: three boards }
  - { procedure: reset-timing, ref: U2, pin: 9, low: 10 ms, high: 20 ms, source: three boards }
`;

const SHOP = `mendlog-shop: 1
name: Bench
meters:
  exact:
    title: Exact meter
    ranges:
      - { function: dc-volts, range: 20 V, resolution: 1 mV, accuracy: { reading: 0.05 %, counts: 3 } }
      - { function: ac-volts, range: 20 V, resolution: 1 mV, accuracy: { reading: 1 %, counts: 5 } }
      - { function: ohms, range: 200 ohm, resolution: 10 mohm, accuracy: { reading: 0.2 %, counts: 10 } }
      - { function: frequency, range: 10 MHz, resolution: 1 Hz, accuracy: { reading: 1 ppm, counts: 1 } }
  plain:
    title: Plain meter
    ranges:
      - { function: dc-volts, range: 20 V }
`;

const BARE = `mendlog-device: 1
id: bare-chip
title: Chip nobody has drawn
kind: logic
package: { name: DIP-14, pins: 14 }
pins: {}
source: invented for the tests
`;

/** The judgements of everything below the front matter, in order. */
export async function judgePowered(body: string, front = ""): Promise<Judgement[]> {
  const { service } = await openWorld(
    `//- powered.board.yaml\n${POWERED}//- bare.device.yaml\n${BARE}//- mendlog.shop.yaml\n${SHOP}//- log.md\n---\nmendlog: 1\nboard: powered\n${front}---\n\n${body}`,
  );
  const view = service.view("mem:/ws/log.md");
  if (!view) throw new Error("not a log");
  return view.doc.blocks.flatMap(({ block }) => [...judgeBlock(block, view.ctx).values()]);
}

/** Rows of a table under a heading, with the header given. */
export const judgeRows = (
  heading: string,
  header: string,
  rows: readonly string[],
  front = "",
): Promise<Judgement[]> => {
  const rule = header.replace(/[^|]+/g, "-");
  return judgePowered(`## ${heading}\n\n${[header, rule, ...rows].join("\n")}\n`, front);
};
