// One reading and its judgement, against a board made for the purpose.
import type { Judgement } from "../../server/src/judge";
import { judgeBlock } from "../../server/src/judge";
import { openWorld } from "./workspace";

export const BOARD = `mendlog-board: 1
id: trial
title: Trial board
source: invented for the tests
grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, ripple: 50 mV, load: 1.5 A, net: VCC, test-point: TP1, source: invented }
  "-12V": { nominal: -12 V, tolerance: 10 %, net: VEE, source: invented }
  "-5V": { nominal: -5 V, tolerance: 0.25 V, source: invented }
  "+12V": { nominal: 12 V, tolerance: 1 V }
parts:
  U1: { device: 74LS04 }
  U2: { device: 74LS151 }
  U3: { device: no-such-chip }
  U4: { value: hybrid module }
  U5: { device: 74LS75 }
  U6: { device: 74LS32 }
  U7: { device: 7430 }
  Q1: { device: 2N3904 }
  R1: { value: 10k }
  R2: { value: 150 }
  C1: { value: 10 uF }
  C2: { value: 15000 uF }
  J1: { value: connector }
nets:
  GND: [U1.7, U1.13, U2.8, C1.2, U3.1]
  VCC: [U1.14, U1.9, U2.16, R1.1]
  VEE: [U2.12]
  PULLED: [U1.3, R1.2]
  BUS: [U1.5, U2.1]
  HEADER: [J1.A3, U1.11]
expected:
  - { procedure: diode-check, ref: U2, pin: 3, low: 0.50 V, high: 0.56 V, source: three boards }
  - { procedure: diode-check, ref: U1, pin: 14, low: 0.40 V, high: 0.45 V, source: three boards }
  - { procedure: resistance-to-ground, rail: "+5V", low: 60 ohm, high: 400 ohm, source: three boards }
  - { procedure: resistance-to-ground, ref: U1, pin: 2, low: 1 kohm, high: 10 kohm, source: three boards }
  - { procedure: capacitance-esr, ref: C2, low: 12000 uF, high: 22000 uF, source: three boards }
  - { procedure: transistor-junctions, ref: Q1, low: 0.6 V, high: 0.75 V, source: three boards }
  - { procedure: supply-rails, rail: "+12V", low: 11.5 V, high: 12.5 V, source: three boards }
`;

export const SHOP = `mendlog-shop: 1
name: Trial bench
meters:
  bench:
    title: Trial meter
    ranges:
      - { function: diode, range: 2 V, resolution: 1 mV, accuracy: { reading: 1 %, counts: 2 }, test-voltage: 2.8 V }
      - { function: dc-volts, range: 2 V, resolution: 1 mV, accuracy: { reading: 0.5 %, counts: 2 } }
      - { function: dc-volts, range: 20 V, resolution: 10 mV, accuracy: { reading: 0.5 %, counts: 2 } }
      - { function: ac-volts, range: 2 V, resolution: 1 mV, accuracy: { reading: 1 %, counts: 10 } }
      - { function: ohms, range: 2 kohm, resolution: 1 ohm, accuracy: { reading: 1 %, counts: 2 } }
      - { function: ohms, range: 20 Mohm }
`;

export interface Trial {
  readonly heading?: string;
  /** Front-matter lines; the trial board where nothing is said. */
  readonly front?: string;
}

/** The judgements of a table's readings, in order. */
export async function judgeTable(
  table: string,
  { heading = "Diode check", front = "board: trial" }: Trial = {},
) {
  const { service } = await openWorld(
    `//- trial.board.yaml\n${BOARD}//- mendlog.shop.yaml\n${SHOP}//- log.md\n---\nmendlog: 1\n${front}\n---\n\n## ${heading}\n\n${table}`,
  );
  const view = service.view("mem:/ws/log.md");
  if (!view) throw new Error("not a log");
  return view.doc.blocks.flatMap(({ block }) => [...judgeBlock(block, view.ctx).values()]);
}

/** One reading at a pin: "U1.3" and what was typed. */
export async function judgePin(place: string, typed: string, trial?: Trial): Promise<Judgement> {
  const [ref, pin] = place.split(".");
  const [first] = await judgeTable(
    `| Ref | Pin | Reading |\n|-|-|-|\n| ${ref} | ${pin} | ${typed} |\n`,
    trial,
  );
  if (!first) throw new Error("no reading");
  return first;
}

export async function judgeRailAs(
  rail: string,
  typed: string,
  column = "DC",
  trial: Trial = {},
): Promise<Judgement> {
  const [first] = await judgeTable(`| Rail | ${column} |\n|-|-|\n| ${rail} | ${typed} |\n`, {
    heading: "Supply rails",
    ...trial,
  });
  if (!first) throw new Error("no reading");
  return first;
}
