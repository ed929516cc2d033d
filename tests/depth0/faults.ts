// What is wrong in each log, put there on purpose: its rows with `[as it stands -> as it would be on a sound board]`.
// A row is given from its first cell and only as far as it takes to be the one row of the log that begins so.
//
//   row WHAT: | U5 | 7404 | 1 | [0.001 -> 0.577]    found by any finding in that row
//   cell WHAT: | 6 | [0.002 -> 0.556]               found by any finding in that cell: tables with a column a chip
//   matrix-dead WHAT: | 3 | [dead -> ok]            found by that check, wherever in the table
//     and ...                                       one more row of the same fault
//     with | U3 | 6                                 one more row where it may be told: the other end of a net
//     with pins 1 2                                 the same of the same chip's other pins: the inputs of a gate
//
// `names`: whom a diagnosis of the log has to name among its first five.
// All of it is invented; pins are those of server/data/devices, limits those of the families there.

export interface Planted {
  readonly names: readonly string[];
  readonly faults: string;
}

export const PLANTED: Readonly<Record<string, Planted>> = {
  "01-eight-of-the-issue": {
    names: ["U5", "U7", "U8", "U9"],
    faults: `
cell +5 V too low: | +5V | [4.61 V -> 5.02 V]
cell ripple on +5 V: | +5V | 4.61 V | [120 mV -> 12 mV]
row +12 V too high: | +12V | [13.9 V -> 12.1 V]
row shorted input: | U5 | 7404 | 1 | [0.001 -> 0.575]
row pin 15 of 14: | U5 | 7404 | [15 -> 13]
row open input: | U8 | 74LS138 | 3 | [OL -> 0.570]
row NAND contradicts: | U7 | 7400 | 3 | [H -> L]
  with pins 1 2
row NOR contradicts: | U9 | 7402 | 1 | [H -> L]
  with pins 2 3
`,
  },
  "02-comma-decimals": {
    names: ["IC3", "IC4", "IC12"],
    faults: `
row -12 V too low: | -12V | [-10,1 -> -11,9]
row ground pin with a drop: | IC3 | 74LS32 | 7 | [0,62 -> 0,001]
row output too high: | IC3 | 74LS32 | 11 | [1,62 -> 0,549]
row clock input too low: | IC4 | 74LS74 | 3 | [0,214 -> 0,576]
row pin 15 of 14: | IC4 | 74LS74 | [15 -> 13]
row shorted output: | IC12 | 7490 | 8 | [0,000 -> 0,567]
row open clock input: | IC12 | 7490 | 14 | [OL -> 0,590]
`,
  },
  "03-part-number-first": {
    names: ["U2", "U6"],
    faults: `
row supply pin at 3.9 V: | SN7408N | U2 | 14 | [3.9 -> 4.96]
row AND contradicts: | SN7408N | U2 | 3 | [0.2 -> 3.4]
  with pins 1 2
row input at no level: | SN7408N | U2 | 9 | [1.4 -> 3.4]
  with pins 8 10
row ground pin lifted by 0.6 V: | SN7432N | U6 | 7 | [0.6 -> 0.02]
row output at no level: | SN7432N | U6 | 6 | [1.6 -> 3.5]
  with pins 4 5
row OR contradicts: | SN7432N | U6 | 8 | [3.3 -> 0.2]
  with pins 9 10
row shorted output: | U2 | SN7408N | 6 | [0.002 -> 0.553]
`,
  },
  "04-chip-in-heading": {
    names: ["U5", "U11", "U14"],
    faults: `
row shorted input: | 3 | [0.000 -> 0.587]
row open output: | 8 | [OL -> 0.556]
row pin 15 of 14: | [15 -> 10] | 0.559
row open select input: | 2 | [OL -> 0.567]
row shorted output: | 12 | [0.003 -> 0.543]
row output too low: | U14 | 6 | [0.19 -> 0.562]
row open ground pin: | U14 | 7 | [OL -> 0.001]
row NAND contradicts: | 6 | [L -> H]
  with pins 4 5
row VCC too low: | VCC | [4.52 V -> 4.98 V]
`,
  },
  "05-wide-with-devices": {
    names: ["U5", "U6", "U9"],
    faults: `
cell shorted output: | 6 | [0.002 -> 0.555] | 0.554
cell ground pin with a drop: | 7 | 0.001 | [0.58 -> 0.001]
cell open input: | 9 | 0.585 | [OL -> 0.583]
cell output too low: | 11 | 0.582 | 0.553 | [0.11 -> 0.542]
cell pin 15 of 14: | 15 | [0.55 -> -]
cell open supply pin: | 16 | - | | [OL -> 0.408]
cell OR contradicts: | 3 | [H -> L]
  with pins 1 2
cell NOR contradicts: | 1 | L | [L -> H]
  with pins 2 3
`,
  },
  "06-device-in-ref-cell": {
    names: ["U5", "U7", "U8"],
    faults: `
row +5 V too low: | +5 (logic) | [4.58 -> 5.03]
row shorted output: | U5 7404 | 2 | [0.000 -> 0.55]
row open input: | 7404 U6 | 13 | [OL -> 0.58]
row drop below zero: | U7 (74LS10) | 4 | [-0.57 -> 0.57]
row output too high: | U7 (74LS10) | 12 | [1.31 -> 0.54]
row shorted output: | U8 74LS20 | 8 | [0.001 -> 0.55]
row pin 15 of 14: | U8 74LS20 | [15 -> 13]
row inverter contradicts: | U5 7404 | 6 | [L -> H]
  with pins 5
`,
  },
  "07-parts-on-the-board": {
    names: ["U3", "U4", "U9"],
    faults: `
row shorted output: | U3-4 | [0.001 -> 0.546]
row open input: | U3.8 | [OL -> 0.571]
row output too high: | U4 pin 12 | [1.5 -> 0.543]
row pin 17 of 16: | [U4 pin 17 -> U4 pin 13]
row shorted diode: | D3-A | [0.002 -> 0.611]
row decoder contradicts: | U4 | 5 | [H -> L]
  with pins 1 2 3 4 6 7
row flip-flop contradicts: | U9 | 6 | [H -> L]
  with pins 1 4 5
row clock at no level: | U9 | 3 | [1.5 -> 3.4]
`,
  },
  "08-grid-places": {
    names: ["2C", "A5", "7F"],
    faults: `
row shorted input: | 2C | 74LS138 | 1 | [0.000 -> 0.567]
row open output: | 2C | 74LS138 | 9 | [OL -> 0.542]
row clock input too low: | 7F | 74LS161 | 2 | [0.17 -> 0.570]
row pin 17 of 16: | 7F | 74LS161 | [17 -> 15]
row shorted output: | A5-4 | 7404 | [0.002 -> 0.557]
row open input: | A5-9 | 7404 | [OL -> 0.585]
row inverter contradicts: | A5 | 7404 | 6 | [L -> H]
  with pins 5
row AND contradicts: | B11 | 74LS08 | 3 | [H -> L]
  with pins 1 2
`,
  },
  "09-from-the-work": {
    names: ["U12", "U13"],
    faults: `
row shorted output: | U12 | 3 | [0.001 -> 0.548]
row open input: | U12 | 13 | [OL -> 0.571]
row open three-state output: | U13 | 5 | [OL -> 0.532]
row pin 21 of 20: | U13 | [21 -> 18]
row NAND contradicts: | U12 | 6 | [L -> H]
  with pins 4 5
row +5 V too low: | +5V | [4.63 V -> 5.01 V]
`,
  },
  "10-shorthand": {
    names: ["U21", "U25", "U26"],
    faults: `
row open output: | U21 | LS139 | 6 | [OL -> 0.54]
row shorted input: | U22 | HC04 | 5 | [0.000 -> 0.61]
row pin 17 of 16: | U23 | 74LS139N | [17 -> 15]
row input too low: | U24 | SN7404N | 9 | [0.08 -> 0.58]
row ground pin with a drop: | U25 | MC6821P | 1 | [0.71 -> 0.00]
row shorted port pin: | U25 | MC6821P | 12 | [0.001 -> 0.68]
row shorted data pin: | U26 | MM2114 | 14 | [0.000 -> 0.70]
row decoder contradicts: | U21 | LS139 | 6 | [H -> L]
  with pins 1 2 3 4 5 7
`,
  },
  "11-transistors-and-diodes": {
    names: ["Q2", "Q4", "Q7", "D2"],
    faults: `
cell shorted base-emitter: | Q2 | 2N3904 | [0.002 -> 0.664]
cell shorted base-collector: | Q4 | TIP102 | 0.738 | [0.003 -> 0.660]
cell open base-emitter: | Q6 | 2N4401 | [OL -> 0.668]
cell shorted collector-emitter: | Q7 | TIP31C | 0.561 | 0.558 | [0.002 -> OL]
row shorted rectifier: | D2 | 1N4004 | A | [0.001 -> 0.574]
row open diode: | D4 | 1N4148 | A | [OL -> 0.610]
row pin 3 of a diode: | D6 | 1N4148 | [3 -> A]
row base shorted to ground: | Q9 2N3904 | B | [0.001 -> 0.666]
`,
  },
  "12-power-supply": {
    names: ["VR2", "VR5"],
    faults: `
row +5 V too high: | +5V | [5.41 V -> 5.05 V]
row -12 V too low: | -12V | [-9.8 V -> -12.0 V]
row coil rail down by a third: | +34V coils | [21 V -> 33.4 V]
row ripple on +5 V: | +5V | [210 mV -> 11 mV]
row regulator off ground: | VR1 | 7805 | 2 | [0.7 V -> 0.00 V]
row regulator output too low: | VR2 | 7812 | 3 | [9.1 V -> 12.06 V]
row regulator output too high: | VR5 | LM323K | OUT | [5.42 V -> 5.05 V]
`,
  },
  "13-shorts-and-units": {
    names: ["U8"],
    faults: `
row +5 V shorted: | +5V | [0.4 ohm -> 118 ohm] | [0.4 ohm -> 131 ohm]
row volts among ohms: | +12V | [1.2 V -> 1.2 k]
row -5 V shorted: | -5V | [0R2 -> 640 ohm] | [0R2 -> 710 ohm]
row output shorted to ground: | U8 | 74LS244 | 18 | [0.3 ohm -> 12.2 k]
row resistance below zero: | U8 | 74LS244 | 14 | [-56 ohm -> 12.4 k]
row ohms among drops: | U8 | 74LS244 | 2 | [557 ohm -> 0.557]
row ohms among volts: | -12V | [11.9 ohm -> -11.9 V]
`,
  },
  "14-dead-row-dark-column": {
    names: ["U3", "U4"],
    faults: `
matrix-dead row 3: | 3 | [dead -> ok] | [dead -> ok] | [dead -> ok] | [dead -> ok] | [dead -> ok]
matrix-dead column 4: | A | lit | lit | lit | [dark -> lit]
  and | B | lit | lit | lit | [dark -> lit]
  and | C | lit | lit | lit | [dark -> lit]
  and | D | lit | lit | lit | [dark -> lit]
row open input: | 74LS14 | U3 | 5 | [OL -> 0.576]
row shorted output: | 7407 | U4 | 8 | [0.003 -> 0.560]
`,
  },
  "15-joined-and-stuck": {
    names: ["Z1", "Z2"],
    faults: `
matrix-shorted columns 3 and 4: | 1 | ok | ok | [closes 1,4 too -> ok] | [closes 1,3 too -> ok]
  and | 2 | ok | ok | [closes 2,4 too -> ok] | [closes 2,3 too -> ok]
  and | 3 | ok | ok | [closes 3,4 too -> ok] | [closes 3,3 too -> ok]
  and | 4 | ok | ok | [closes 4,4 too -> ok] | [closes 4,3 too -> ok]
matrix-stuck 2,6: | 2 | ok | ok | closes 2,4 too | closes 2,3 too | ok | [stuck -> ok]
row decoder contradicts: | Z1 | 5 | [L -> H]
  with pins 1 2 3 4 6 7 9 10 11 12 13 14 15
row driver contradicts: | Z2 | 2 | [H -> L]
  with pins 1
row ground pin high: | Z2 | 7 | [H -> L]
row shorted output: | Z1 | 5 | [0.002 -> 0.546]
row open input: | Z2 | 9 | [OL -> 0.579]
`,
  },
  "16-continuity": {
    names: ["U9", "U10"],
    faults: `
row two states on one net: | U9 | 2 | [L -> H]
  with | U3 | 6 | H
row cleared and yet high: | U10 | 5 | [H -> L]
  with pins 1
row two drops on one net: | U10 | 11 | [0.431 -> 0.547]
  with | U3 | 8 | 0.548
row shorted input: | U9 | 4 | [0.002 -> 0.566]
row open output: | U10 | 16 | [OL -> 0.540]
`,
  },
  "17-in-a-hurry": {
    names: ["U3", "U4"],
    faults: `
row 5 V too low: 5v | [4.49 -> 5.03]
row shorted output: u3 | 74ls04 | 2 | [.001 -> .55]
row open input: u3 | 74ls04 | 5 | [ol -> .57]
row input too high: u4 | 74ls157 | 3 | [1430 mV -> 572 mV]
row output too low: u4 | 74ls157 | 7 | [12 mV -> 544 mV]
row ground pin with a drop: u4 | 74ls157 | 8 | [.61 -> .00]
row pin 18 of 16: u4 | 74ls157 | [18 -> 10]
row inverter contradicts: u3 | 74ls04 | 8 | [hi -> lo]
  with pins 9
`,
  },
  "18-decoders-wide": {
    names: ["U7", "U8", "U10", "U12"],
    faults: `
cell switched off and yet low: | 11 | [L -> H]
  with pins 9 10 12 13 14 15
cell supply pin low: | 16 | [L -> H]
cell called and yet high: | 12 | H | [H -> L]
  with pins 1 2 3 4 5 6 7 9 10 11 13 14 15
cell switched off and yet low: | 15 | H | H | [L -> H]
  with pins 1 2 3 4 5 6 7 9 10 11 12 13 14
cell ground pin high: | 8 | L | L | [H -> L]
cell called and yet high: | 6 | L | H | L | [H -> L]
  with pins 1 2 3 4 5 7 9 10 11 12 13 14 15
row exclusive OR contradicts: | U12 | 74LS86 | 3 | [H -> L]
  with pins 1 2
row NAND contradicts: | U13 | 74LS30 | 8 | [L -> H]
  with pins 1 2 3 4 5 6 11 12
`,
  },
  "19-subheadings": {
    names: ["U2", "U3"],
    faults: `
row shorted output: | 5 | [0.001 -> 0.541]
row open clock input: | 11 | [OL -> 0.570]
row output too low: | 10 | [0.09 -> 0.547]
row NOR contradicts: | 1 | [H -> L]
  with pins 2 3
`,
  },
  "20-drivers": {
    names: ["U2", "U5", "Q13"],
    faults: `
row driver contradicts: | U1 | 7406 | 4 | [3.6 V -> 0.2 V]
  with pins 3
row input at no level: | U1 | 7406 | 5 | [1.3 V -> 3.4 V]
row output above its supply: | U2 | SN7404N | 2 | [8.2 V -> 3.4 V]
  with pins 1
row driver contradicts: | U5 | ULN2003A | 16 | [H -> L]
  with pins 1
cell open base-collector: | Q13 (TIP102) | 0.742 | [OL -> 0.662]
matrix-dead row B: | B | 1 | [dark -> lit]
  and | B | 2 | [dark -> lit]
  and | B | 3 | [dark -> lit]
`,
  },
  "21-odd-grounds": {
    names: ["U1", "U2", "U3", "U4", "U5"],
    faults: `
row shorted input where others have ground: | U1 | 7473 | 7 | [0.001 -> 0.592]
row open input where others have supply: | U1 | 7473 | 14 | [OL -> 0.591]
row shorted output: | U2 | 7475 | 8 | [0.000 -> 0.561]
row open output where others have supply: | U2 | 7475 | 16 | [OL -> 0.562]
row ground pin with a drop: | U3 | 7476 | 13 | [0.57 -> 0.001]
row input too low: | U3 | 7476 | 16 | [0.11 -> 0.589]
row shorted input where others have ground: | U4 | 7483 | 8 | [0.002 -> 0.588]
row open supply pin: | U5 | 7493 | 5 | [OL -> 0.431]
row input too high: | U5 | 7493 | 14 | [1.48 -> 0.591]
row cleared and yet high: | U3 | 7476 | 15 | [H -> L]
  with pins 2 3 14
row sum contradicts: | U4 | 7483 | 9 | [L -> H]
  with pins 10 11 13
`,
  },
  "22-levels-and-decoder": {
    names: ["U20", "U21"],
    faults: `
row output at no level: | 10 | [1.1 V -> 3.6 V]
row called and yet high: | 13 | [3.5 V -> 0.2 V]
  with pins 1 2 3 4 5 6 7 9 11 12 14 15
row supply pin at 4.4 V: | 16 | [4.4 V -> 4.97 V]
row exclusive OR contradicts: | U21 | 3 | [0.1 V -> 3.5 V]
  with pins 1 2
row -5 V too low: | -5V | [-3.9 -> -4.95]
`,
  },
  "23-stands-out": {
    names: ["U15", "U16"],
    faults: `
row one of eight alike too low: | 13 | [0.412 -> 0.551]
row one of eight alike too high: | 9 | [0.672 -> 0.541]
row shorted input: | 18 | [0.003 -> 0.570]
row enable at no level: | 1 | [1.5 V -> 0.2 V]
row supply pin at 3.9 V: | 20 | [3.9 V -> 4.97 V]
`,
  },
  "24-everything-typed": {
    names: ["U6", "U17", "U22"],
    faults: `
row ripple on +5 V: | +5 V | 5.01 | [0.13 V -> 0.01 V]
row unregulated rail down by a third: | +12 V unreg | [8.1 -> 13.4]
row shorted output: | 74LS125N | U6 | reset | 3 | [0.001 -> 0.539]
row open input: | DM7427N | U17 | decode | 2 | [OL -> 0.589]
row shorted output: | LM339N | U22 | reset | 1 | [0.002 -> 0.60]
row pin 16 of 14: | LM339N | U22 | reset | [16 -> 14]
row NOR contradicts: | DM7427N | U17 | 6 | [L -> H]
  with pins 3 4 5
row buffer contradicts: | 74LS125N | U6 | 6 | [L -> H]
  with pins 4 5
`,
  },
  "25-headings-of-all-sorts": {
    names: ["IC7", "IC9", "IC10"],
    faults: `
row +5 V low at a chip: | +5V | IC10 pin 14 | [4.41 V -> 5.01 V]
row input too low: | 5 | [0.108 -> 0.572]
row open output: | 8 | [OL -> 0.557]
row shorted input: | 2 | [0.001 -> 0.571]
row open supply pin: | 14 | [OL -> 0.396]
row cleared and yet high: | 5 | [H -> L]
  with pins 1 4 6
matrix-shorted rows 2 and 3: | 2 | [closes 3,1 too -> ok] | [closes 3,2 too -> ok] | [closes 3,3 too -> ok]
  and | 3 | [closes 2,1 too -> ok] | [closes 2,2 too -> ok] | [closes 2,3 too -> ok]
matrix-dead crossing 4,4: | 4 | ok | ok | ok | [dead -> ok]
`,
  },
  "26-nearly-nothing": {
    names: ["U4", "U8"],
    faults: `
row open input: | U4 | 3 | [OL -> 0.570]
row inverter contradicts: | U8 | 6 | [3.5 V -> 0.2 V]
  with pins 5
`,
  },
};
