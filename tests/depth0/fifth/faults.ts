// What is wrong in each log of the fifth set, in the words of ../faults.ts.
// All of it is invented; pins are those of server/data/devices.
import type { Planted } from "../faults";

export const PLANTED: Readonly<Record<string, Planted>> = {
  "01-telex": {
    names: ["U4", "U5"],
    faults: `
row shorted input: | 2 | [SHORT -> .57]
row pin 15 of 14: | [15 -> 13]
row open input: | 5 | [OPEN -> .56]
row +5 low: | +5 | [4.61 -> 5.04]
row +12 high: | +12 | [13.9 -> 12.0]
`,
  },
  "02-werkstatt": {
    names: ["IC1", "IC7"],
    faults: `
cell +5 V low: | +5 V | 5,00 V | [4,58 V -> 5,02 V]
cell ripple: | +5 V | 5,00 V | 4,58 V | [130 mVss -> 11 mVss]
cell -5 V low: | -5 V | -5,0 V | [-3,8 V -> -5,0 V]
row shorted input: | IC1 | 74LS138 | 2 | [0,00 V -> 0,57 V]
row open input: | IC7 | 74LS86 | 2 | [OL -> 0,57 V]
row XOR contradicts: | IC7 | 3 | [H -> L]
  with | IC7 | 1
  with | IC7 | 2
`,
  },
  "03-pencil": {
    names: ["A1", "A2", "B3"],
    faults: `
row shorted output: | A1-2 | [.00 -> .52]
row input too high: | A2-3 | [1.9 -> .58]
row ground pin not grounded: | B3-10 | [.45 -> .00]
row pin 21 of 20: | [B3-21 -> B3-19]
row inverting driver contradicts: | A1-4 | [H -> L]
  with | A1-3
row driver contradicts: | A2-2 | [H -> L]
  with | A2-1
`,
  },
  "04-inline-notes": {
    names: ["U2", "U6"],
    faults: `
row shorted port: | U2 | MC6821P | 3 | PA1 | [0.003 -> 0.675]
row open clear input: | U6 | SN74LS273N | 1 | CLR | [O/L -> 0.571]
row clock too low: | U6 | SN74LS273N | 11 | CLK | [0.12 -> 0.568]
row +5 V too high: | +5V (TP3) | 5.0 V | [5.48 V -> 5.03 V]
row -12 V low: | -12V (TP5) | -12.0 V | [-9.7 V -> -12.1 V]
`,
  },
  "05-multi-chip-wide": {
    names: ["U10", "U11", "U12", "U13"],
    faults: `
cell short: | 2 | 0.57 | [0.00 -> 0.57]
cell shorted output: | 3 | 0.54 | 0.54 | [0.02 -> 0.54]
cell open: | 5 | [OL -> 0.57]
cell output far too high: | 6 | 0.54 | 0.54 | 0.54 | [1.60 -> 0.54]
cell supply pin shorted: | 14 | 0.39 | 0.39 | [0.00 -> 0.39]
cell NAND contradicts: | 3 | [1 -> 0]
cell AND contradicts: | 3 | 1 | [0 -> 1]
cell OR contradicts: | 3 | 1 | 0 | [1 -> 0]
cell inverter contradicts: | 4 | 0 | 1 | 1 | [1 -> 0]
`,
  },
  "06-psu-story": {
    names: ["U1", "U3"],
    faults: `
cell 5 V folds under load: | +5V | 5.06 | [4.49 -> 5.01]
cell ripple: | +12V | 12.2 | 12.0 | [0.21 V -> 0.01 V]
cell -12 V too high: | -12V | -12.1 | [-14.1 -> -11.9]
cell 7805 out: | U1 LM7805 | 9.6 | 0.0 | [4.49 -> 5.01]
cell 7912 out: | U3 LM7912 | -17.4 | 0.0 | [-14.1 -> -11.9]
`,
  },
  "07-passives-quick": {
    names: ["Q4", "Q5", "Q6"],
    faults: `
row resistor high: | R12 | 4.7k | [7.9k -> 4.69k]
row resistor open: | R13 | 100 | [open -> 99.6]
row resistor low: | R16 | 220K | [165K -> 219K]
cell lost half: | C11 | 1000uF | [430uF -> 980uF]
cell be open: | Q4 | 2N2222A | [OL -> .66]
cell be short: | Q5 | TIP42C | [.002 -> .58]
cell bc short: | Q5 | TIP42C | .002 | [.002 -> .57]
cell ce short: | Q6 | MPSA42 | .67 | .66 | [.01 -> OL]
`,
  },
  "08-keypad": {
    names: [],
    faults: `
matrix-dead column 4: | ROW1 | y | y | y | [n -> y]
  and | ROW2 | y | y | y | [n -> y]
  and | ROW3 | y | y | y | [n -> y]
matrix-dead row 2: | 2 | [off -> on] | [off -> on] | [off -> on] | [off -> on]
row pin 19 of 18: | [19 -> 12]
`,
  },
  "09-csv": {
    names: ["U1", "U3"],
    faults: `
row bus pin shorted: | U1 | 74LS245 | 2 | A1 | [0.001 -> 0.559] | [0.4 -> 12.0k]
row bus pin open: | U1 | 74LS245 | 18 | B1 | [OL -> 0.558] | [OL -> 12.4k]
row enable far too high: | U3 | 74LS373 | 11 | LE | [1.31 -> 0.563]
cell 5 V high: | +5V | 5 | [5.39 -> 5.02]
cell ripple: | +12V | 12 | 12.1 | [145 -> 8]
`,
  },
  "10-letter": {
    names: ["IC3", "IC4"],
    faults: `
row cleared and yet high: | 5 | [high -> low]
  with | 1 | low
  with | 4
  with | 6
row XOR contradicts: | 3 | [high -> low]
  with | 1 | high
  with | 2 | high
row ground pin high: | 7 | [high -> low]
cell shorted data: | 2 | [0.00 -> 0.58]
cell open output: | 8 | 0.54 | [OL -> 0.54]
`,
  },
  "11-inventory-first": {
    names: ["U3", "U4", "U5"],
    faults: `
row shorted select: | U4 | 2 | [2 -> 574]
row open input: | U5 | 2 | [OL -> 577]
row pin 15 of 14: | U5 | [15 -> 8]
row shorted data: | U3 | 9 | [4 -> 660]
row four-input NAND contradicts: | U5 | 6 | [3.5 -> 0.2]
  with | U5 | 1 | 3.6
  with | U5 | 2 | 3.5
  with | U5 | 4
  with | U5 | 5
row level undefined: | U4 | 4 | [1.3 -> 3.6]
`,
  },
  "12-hand-drawn": {
    names: ["D2"],
    faults: `
cell collector short: | Q2 TIP122 | 0.00 | 0.72 | [0.00 -> 0.53]
row diode short: | D2 | [0.00 -> 0.55] | [0.00 -> OL]
row diode open: | D3 | [OL -> 0.56]
row motor supply low: | +24V motors | [14.1 V -> 25.2 V]
row -5 V high: | -5V | [-5.9 V -> -5.0 V]
row 5 V shorted: | +5V | [0.9 -> 160]
`,
  },
  "13-ring-out": {
    names: ["U2"],
    faults: `
row one net two states: | U2 | 1 | [L -> H]
  with | U1 | 15
  with | U2 | 2
row OR contradicts: | U2 | 6 | [H -> L]
  with | U2 | 5
row shorted enable: | U1 | 6 | [0.00 -> 0.57]
row open input: | U2 | 9 | [OL -> 0.57]
`,
  },
  "14-shop-form": {
    names: ["U7", "U8"],
    faults: `
row shorted input: | U7-2 | 74LS244 | [0.002 -> 0.570] | [0.001 -> 0.571]
row open output: | U7-18 | 74LS244 | [OL -> 0.546] | [OL -> 0.547]
cell +5 low: | +5 VDC | 4.75-5.25 | [4.60 -> 5.01]
cell ripple: | +12 VDC | 11.4-12.6 | 12.0 | [128 -> 10]
row AND contradicts: | U8-3 | 74LS08 | [1 -> 0]
  with | U8-1
  with | U8-2
`,
  },
  "15-bold-titles": {
    names: ["U21", "U22"],
    faults: `
row shorted input: | 2 | [0.00 -> 0.58]
row pin 17 of 16: | [17 -> 13]
row CMOS AND contradicts: | 3 | [L -> H]
  with | 1 | H
  with | 2 | H
cell 5 V low: | +5V | [4.4 -> 5.0]
cell ripple: | +12V | 12.1 | [0.15 V -> 0.01 V]
`,
  },
  "16-one-table": {
    names: ["U30", "U31"],
    faults: `
row +5 V low: | +5V | volts at TP1 | [4.66 V -> 5.01 V] | [low -> fine]
row -12 V low: | -12V | volts at TP3 | [-10.2 V -> -11.9 V] | [low -> fine]
row shorted clock: | U30 pin 2 | [0.002 V -> 0.574 V]
row open output: | U31 pin 14 | [open -> 0.547 V]
`,
  },
};
