// What is wrong in each log of the third set, in the words of ../faults.ts.
// All of it is invented; pins are those of server/data/devices.
import type { Planted } from "../faults";

export const PLANTED: Readonly<Record<string, Planted>> = {
  "01-evening-shift": {
    names: ["U4", "U6", "U8"],
    faults: `
row +5 V too low: | +5V | [4.58 V -> 5.03 V]
row shorted output: | U4 | 74LS374 | 5 | [0.001 -> 0.543]
row open clock input: | U4 | 74LS374 | 11 | [OL -> 0.569]
row pin 22 of 20: | U4 | 74LS374 | [22 -> 13]
row driver pulled up to 12 V contradicts: | U8 | 7406 | 2 | [11.8 -> 0.2]
  with pins 1
row NAND contradicts: | U6 | 7420 | 6 | [0.2 -> 3.5]
  with pins 1 2 4 5
`,
  },
  "02-counter-man": {
    names: ["IC7", "IC8", "IC10"],
    faults: `
row ground pin with a drop: | 11 | GND | [0.61 -> 0.001]
row open enable input: | 4 | EN 3/4 | [OL -> 0.587]
row shorted output: | 11 | QD | [0.002 -> 0.564]
row clock input too low: | 14 | CKA | [0.08 -> 0.589]
row pin 15 of 14: | [15 -> 8] | QC
row cleared and yet low at Q bar: | IC7 | 8 | [L -> H]
  with pins 6 9
row open latch contradicts: | IC8 | 16 | [L -> H]
  with pins 13 2
row reset and yet high: | IC10 | 9 | [H -> L]
  with pins 2 3
`,
  },
  "03-side-by-side": {
    names: ["U12", "U13", "U20"],
    faults: `
cell shorted output: | 7 | [0.003 -> 0.541]
cell ground pin with a drop: | 10 | 0.001 | 0.001 | [0.57 -> 0.001]
cell open input: | 11 | 0.569 | [OL -> 0.571]
cell latch enable too high: | 11 | 0.569 | OL | [1.45 -> 0.570]
cell output too low: | 14 | 0.541 | [0.12 -> 0.542]
cell buffer contradicts: | 18 | [L -> H]
  with pins 1 2
cell open latch contradicts: | 2 | H | [H -> L]
  with pins 1 11 3
`,
  },
  "04-list-of-chips-first": {
    names: ["Z5", "Z6", "Z9"],
    faults: `
row shorted data pin: | Z5 | 12 | [0.002 -> 0.689]
row open write input: | Z6 | 10 | [OL -> 0.657]
row shorted port pin: | Z9 | 3 | [0.000 -> 0.860]
row enable input too low: | Z9 | 25 | [0.15 -> 0.699]
row pin 41 of 40: | Z9 | [41 -> 40]
row ground pin with a drop: | Z11 | 10 | [0.63 -> 0.001]
`,
  },
  "05-map-references": {
    names: ["3F", "3H", "5C", "6A"],
    faults: `
row shorted output: | 3F | 74LS157 | 4 | [2 -> 542]
row open clock input: | 3H | 74LS174 | 9 | [OL -> 567]
row pin 18 of 16: | 3H | 74LS174 | [18 -> 15]
row output too high: | 5C | 7402 | 10 | [1490 -> 560]
row open input: | 6A | 7420 | 13 | [OL -> 589]
row selector contradicts: | 3F | 7 | [low -> high]
  with pins 15 1 5 6
row NOR contradicts: | 5C | 1 | [low -> high]
  with pins 2 3
row NAND contradicts: | 6A | 8 | [high -> low]
  with pins 9 10 12 13
`,
  },
  "06-supply-tray": {
    names: ["VR1", "VR3", "D3"],
    faults: `
row +5 V too high: | +5V digital | 5.0 V | [5.47 V -> 5.04 V]
cell ripple on +12 V: | +12V | 12.0 V | 11.9 V | [310 mV -> 11 mV]
row -12 V too low: | -12V | -12.0 V | [-10.6 V -> -12.1 V]
row raw solenoid rail down by more than a third: | +28V solenoids, raw | | [17.2 V -> 29.4 V]
row regulator output too high: | VR1 | 7805 | 3 | [5.47 -> 5.04]
row regulator output too low: | VR3 | 7912 | 3 | [-10.6 -> -12.1]
row regulator off ground: | VR4 | 7905 | 1 | [-0.7 -> 0.00]
row shorted rectifier: | D3 | 1N4004 | A | [0.002 -> 0.570]
row open rectifier: | D4 | 1N4004 | A | [OL -> 0.569]
`,
  },
  "07-lamps-and-keys": {
    names: ["Q2", "Q4", "U15"],
    faults: `
cell shorted base-collector: | Q2 | TIP102 | 0.744 | [0.002 -> 0.660]
cell shorted collector-emitter: | Q4 | TIP102 | 0.741 | 0.660 | [0.003 -> OL]
cell open base-emitter: | Q10 | 2N4403 | [OL -> 0.689]
matrix-dead column 3: | 1 | lit | lit | [dark -> lit]
  and | 2 | lit | lit | [dark -> lit]
  and | 3 | lit | dim | [dark -> lit]
  and | 4 | lit | lit | [dark -> lit]
matrix-dead row 2: | 2 | [dead -> ok] | [dead -> ok] | [dead -> ok] | [dead -> ok]
matrix-stuck 3,3: | 3 | ok | ok | [stuck -> ok]
row driver contradicts: | U15 | ULN2003A | 14 | [18.2 -> 0.9]
  with pins 3
`,
  },
  "08-three-rail-memory": {
    names: ["U30", "U31", "U33"],
    faults: `
row -5 V too low: | -5 V | [-3.9 V -> -5.02 V]
row -5 V all but missing at the chip: | U31 | 4116 | VBB | 1 | [-1.1 -> -5.00]
row +5 V low at the chip: | U32 | 4116 | VCC | 9 | [4.3 -> 5.01]
row +12 V low at the chip: | U33 | 4116 | VDD | 8 | [9.4 -> 12.1]
row ground pin at 0.55 V: | U33 | 4116 | VSS | 16 | [0.55 -> 0.01]
row input at no level: | U40 | 2716 | /OE | 20 | [1.4 -> 0.2]
row shorted write input: | U30 | 4116 | /WE | 3 | [0.002 -> 0.621]
row open data input: | U33 | 4116 | DIN | 2 | [OL -> 0.660]
row pin 17 of 16: | U33 | 4116 | | [17 -> 7]
row strobe input too low: | U33 | 4116 | /CAS | 15 | [0.12 -> 0.623]
`,
  },
  "09-processor-card": {
    names: ["U1", "U8"],
    faults: `
row shorted output: | 5 | VMA | [3 mV -> 650 mV]
row second ground pin with a drop: | 21 | ground | [566 mV -> 1 mV]
row output too low: | 34 | R/W | [102 mV -> 651 mV]
row open reset input: | 40 | /RESET | [OL -> 662 mV]
row port pin too high: | 12 | PB2 | [1622 mV -> 703 mV]
row open control input: | 18 | CB1 | [OL -> 709 mV]
row shorted interrupt output: | 37 | /IRQB | [1 mV -> 689 mV]
row pin 42 of 40: | [42 -> 40] | CA1
row input at no level: | U1 | 2 | [1.3 -> 4.9]
row supply pin at 4.2 V: | U8 | 20 | [4.2 -> 5.01]
`,
  },
  "10-before-the-first-volt": {
    names: ["U2", "U3"],
    faults: `
row +5 V shorted: | +5V | [1.1 -> 165]
row -5 V shorted: | -5V | [0.0 -> 1.2k]
row volts among ohms: | +24V | [4.9 V -> 4.9k]
row output shorted to ground: | U2 | 74LS273 | 5 | [0.8 -> 9.8k]
row ground pin off ground: | U3 | 74LS240 | 10 | [340 -> 0.3]
row output shorted to ground: | U3 | 74LS240 | 18 | [1.2 -> 11.1k]
row pin 22 of 20: | U3 | 74LS240 | [22 -> 13]
row ohms among drops: | U3 | 74LS240 | 4 | [571 ohm -> 0.571]
row open input: | U3 | 74LS240 | 8 | [OL -> 0.569]
`,
  },
  "11-second-visit": {
    names: ["U6", "U3"],
    faults: `
row output too high, never looked at again: | U11 | 74LS08 | 6 | [1.6 -> 0.543]
row shorted output of the new chip: | U6 | 74LS175 | 7 | [0.003 -> 0.544]
row open clock input of the new chip: | U6 | 74LS175 | 9 | [OL -> 0.569]
row ground pin with a drop: | U3 | 74LS04 | 7 | [0.58 -> 0.001]
cell ripple on +5 V: | +5V | 5.01 V | [0.16 V -> 0.01 V]
row cleared and yet high: | U6 | 10 | [H -> L]
  with pins 1
row inverter contradicts: | U3 | 2 | [L -> H]
  with pins 1
`,
  },
  "12-chip-and-pin-in-one": {
    names: ["IC9", "IC14", "IC17"],
    faults: `
row shorted output: | IC9-3 | 7432 | [0.001 -> 0.561]
row open address input: | IC14-2 | 74LS259 | [OL -> 0.571]
row ground pin with a drop: | IC14-8 | 74LS259 | [0.66 -> 0.001]
row pin 17 of 16: | [IC14-17 -> IC14-7] | 74LS259
row output too low: | IC17-13 | 74LS123 | [0.09 -> 0.541]
row OR contradicts: | IC9-6 | [L -> H]
  with | IC9-4 | L
  with | IC9-5 | H
row cleared and yet high: | IC17-5 | [H -> L]
  with | IC17-11 | L
`,
  },
  "13-everything-in-volts": {
    names: ["U2", "U5", "U7", "U9"],
    faults: `
row exclusive OR contradicts: | 74LS86 | U2 | 3 | [0.2 -> 3.5]
  with pins 1 2
row NAND contradicts: | 7410 | U5 | 6 | [3.5 -> 0.2]
  with pins 3 4 5
row input at no level: | 7410 | U5 | 9 | [1.4 -> 3.4]
row both outputs of a selector high: | 74LS151 | U7 | 6 | [3.4 -> 0.2]
  with pins 7 11 10 9 3 5
row ground pin at 0.7 V: | 74LS151 | U7 | 8 | [0.7 -> 0.02]
row driver pulled up to 12 V contradicts: | 7407 | U9 | 6 | [0.2 -> 11.9]
  with pins 5
row supply pin at 4.1 V: | 7407 | U9 | 14 | [4.1 -> 4.98]
`,
  },
  "14-with-the-probe": {
    names: ["U9", "U10", "U12"],
    faults: `
row selected and yet high: | 13 | [H -> L] | Y2
  with pins 6 4 5 1 2 3 15 14 12 11
row two outputs low: | 10 | [L -> H] | 8
  with pins 15 14 13 12 4 5
row switched off and yet low: | 12 | [L -> H] | 2Y0
  with pins 15 14 13 11
row open latch contradicts: | 5 | [H -> L] | 2Q
  with pins 1 11 4
row supply pin low: | 20 | [L -> H] | VCC
row set and yet low: | 5 | [L -> H] | Q
  with pins 1 4 6
`,
  },
  "15-hurried": {
    names: ["U2", "U3", "U5"],
    faults: `
row 5 V too low: 5v | [4.6 -> 5.1]
row shorted output: U2 7408 | 3 | [0 -> .56]
row open input: U3 74LS14 | 1 | [ol -> .57]
row pin 16 of 14: U3 74LS14 | [16 -> 13]
row output too high: U5 74LS125 | 6 | [1.7 -> .54]
row ground pin with a drop: U5 74LS125 | 7 | [.6 -> 0]
row AND contradicts: U2 7408 | 8 | [l -> h]
  with pins 9 10
row inverter contradicts: U3 74LS14 | 4 | [h -> l]
  with pins 3
`,
  },
  "16-whole-job": {
    names: ["IC2", "IC3", "IC4", "Q1"],
    faults: `
row +12 V too high: | TP2 +12V | 12.0 | [13.6 -> 12.1]
row open output: | IC2 | 2 | [OL -> 0.541]
row shorted output: | IC2 | 7 | [0.001 -> 0.542]
row output too low: | IC2 | 10 | [0.21 -> 0.541]
row shorted driver input: | IC4 | 3 | [0.002 -> 0.689]
row driver pulled up to 12 V contradicts: | IC3 | 4 | [11.9 -> 0.2]
  with pins 3
row driver contradicts: | IC4 | 11 | [41.0 -> 0.8]
  with pins 6
matrix-dead column 3: | 1 | ok | ok | [dead -> ok]
  and | 2 | ok | ok | [dead -> ok]
  and | 3 | ok | ok | [dead -> ok]
cell shorted base-emitter: | Q1 | TIP122 | [0.002 -> 0.742]
`,
  },
};
