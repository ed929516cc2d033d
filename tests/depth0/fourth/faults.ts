// What is wrong in each log of the fourth set, in the words of ../faults.ts.
// All of it is invented; pins are those of server/data/devices.
import type { Planted } from "../faults";

export const PLANTED: Readonly<Record<string, Planted>> = {
  "01-night-desk": {
    names: ["U11", "U12"],
    faults: `
row shorted input: | 2 | [0.003 -> 0.581]
row pin 15 of 14: | [15 -> 13]
row open input: | 3 | [OL -> 0.571]
cell +5 V low: | +5 | 5.0 | [4.61 -> 5.02]
cell ripple: | +5 | 5.0 | 4.61 | [120 mV -> 14 mV]
row +12 V high: | +12 | 12 | [13.9 -> 12.1]
`,
  },
  "02-spreadsheet": {
    names: ["U3", "U4"],
    faults: `
row NAND high with both inputs high: | U3 | SN74LS00N | 3 | 1Y | 0.543 | [3.6 -> 0.2] | [1 -> 0]
  with | U3 | SN74LS00N | 1
  with | U3 | SN74LS00N | 2
row shorted input: | U3 | SN74LS00N | 4 | 2A | [0.002 -> 0.568]
row input far too high: | U4 | SN74LS32N | 2 | 1B | [1.98 -> 0.570]
row ground pin open: | U4 | SN74LS32N | 7 | GND | [0.55 -> 0.001]
row level neither low nor high: | U4 | SN74LS32N | 11 | 4Y | 0.539 | [1.4 -> 3.5]
`,
  },
  "03-comma-man": {
    names: ["IC2", "IC5"],
    faults: `
row shorted output: | IC2 | 74LS14 | 2 | [0,002 -> 0,541]
row open input: | IC2 | 74LS14 | 5 | [OL -> 0,571]
row shorted driver output: | IC5 | 74LS244 | 18 | [0,004 -> 0,549]
row pin 21 of 20: | IC5 | 74LS244 | [21 -> 16]
cell +5 V sags under load: | +5 V | 5,08 V | [4,52 V -> 5,01 V]
cell ripple: | -12 V | -12,1 V | -11,9 V | [240 mV -> 9 mV]
cell +12 V sags: | +12 V | 12,2 V | [10,1 V -> 11,9 V]
`,
  },
  "04-prose-above": {
    names: ["U7", "U9"],
    faults: `
row shorted input: | 3 | [0.000 -> 0.574]
row open input: | 6 | [.OL -> 0.579]
row shorted output: | 3 | [0.011 -> 0.548]
row pin 16 of 14: | [16 -> 13]
row NOR low with both inputs low: | 1 | [lo -> hi]
  with | 2 | lo
  with | 3 | lo
row exclusive OR contradicts: | 3 | [low -> high]
  with | 1 | high
  with | 2 | low
`,
  },
  "05-chip-by-chip": {
    names: ["U5", "U6", "VR1"],
    faults: `
row shorted open collector: | 4 | [0.001 -> 0.524]
row inverting driver contradicts: | 2 | [hi -> lo]
  with | 1 | hi
row open select input: | 3 | [O.L -> 0.574]
row decoder does not pull the called output: | 15 | [H -> L]
  with | 1 | L
  with | 2 | L
  with | 3 | L
  with | 4 | L
  with | 5 | L
  with | 6 | H
  with | 14 | H
  with | 13
  with | 12
  with | 11
  with | 10
  with | 9
  with | 7 | H
row regulator output low: | OUT | [4.31 V -> 5.04 V]
`,
  },
  "06-rails-wide": {
    names: ["VR1", "VR2"],
    faults: `
cell +5 V low loaded: | full load | [4.58 -> 5.02]
cell -12 V high: | full load | 4.58 | 12.0 | [-13.6 -> -11.9]
cell ripple on +12 V: | ripple, mVpp | 11 | [180 -> 9]
cell 7805 out too high: | VR1 7805 | 9.8 V | [5.61 V -> 5.03 V]
cell 7812 out too low: | VR2 7812 | 17.9 V | [10.2 V -> 12.1 V]
row +5 V shorted: | +5V | [0.6 -> 145]
`,
  },
  "07-resistors": {
    names: ["Q2", "Q3", "Q4"],
    faults: `
row resistor 49 % high: | R2 | 10k | [14.9k -> 9.97k]
row open resistor: | R4 | 1M | [OL -> 0.998M]
row resistor low: | R6 | 47 ohm | [12.4 ohm -> 46.9 ohm]
cell capacitor lost its value: | C2 | 4700uF | [1900 -> 4610]
cell shorted base-emitter: | Q2 | 2N3904 | [0.003 -> 0.674]
cell open base-collector: | Q3 | 2N4403 | 0.668 | [OL -> 0.664]
cell shorted collector-emitter: | Q4 | TIP31C | 0.559 | 0.556 | [0.004 -> OL]
row shorted rectifier: | D2 | 1N4004 | [0.002 -> 0.563] | [0.002 -> OL]
row open diode: | D3 | 1N4148 | [OL -> 0.612]
`,
  },
  "08-lamp-grid": {
    names: ["Q11"],
    faults: `
matrix-dead dark column L3: | R1 | ok | ok | [off -> ok]
  and | R2 | ok | ok | [off -> ok]
  and | R3 | ok | ok | [off -> ok]
  and | R4 | ok | ok | [off -> ok]
matrix-dead dead strobe S1: | S1 | [x -> •] | [x -> •] | [x -> •] | [x -> •]
cell collector to ground short: | Q11 | TIP102 | 0.71 | [0.01 -> 0.52]
`,
  },
  "09-grid-places": {
    names: ["3B", "4D", "11E"],
    faults: `
row shorted clock: | 3B | LS161 | 2 | [.004 -> .574]
row open output: | 4D | LS157 | 4 | [OPEN -> .541]
row pin 17 of 16: | 4D | LS157 | [17 -> 7]
row shorted data pin: | 11E | 2114 | 11 | [.001 -> .691]
row selector contradicts: | 4D | 4 | [LO -> HI]
  with | 4D | 15
  with | 4D | 1
  with | 4D | 2
`,
  },
  "10-transposed": {
    names: ["U1", "U2", "U3"],
    faults: `
cell shorted output: | U1 7400 | .57 | .57 | .54 | .57 | .58 | .54 | .00 | [.00 -> .54]
cell open input: | U2 7404 | .57 | .54 | [OL -> .57]
cell ground pin open: | U3 7408 | .58 | .57 | .54 | .57 | .57 | .54 | [.61 -> .00]
cell NAND contradicts: | U1 7400 | H | H | [H -> L]
cell inverter contradicts: | U2 7404 | H | L | L | H | L | [L -> H]
cell AND contradicts: | U3 7408 | H | L | [H -> L]
`,
  },
  "11-before-after": {
    names: ["U20"],
    faults: `
cell shorted still: | U20 | 74LS373 | 3 | 0.568 | [0.002 -> 0.572]
cell open after the wash: | U20 | 74LS373 | 11 | 0.57 | [OL -> 0.574]
cell Vcc too high: | Vcc | [5.44 -> 5.03]
cell ripple: | Vdd 12 V | 12.1 | 11.4...12.6 | [160 -> 7]
row -5 V low: | Vbb -5 V | [-3.9 -> -5.0]
`,
  },
  "12-cmos-desk": {
    names: ["U1", "U2"],
    faults: `
row shorted input: | U1-2 | [0.001 -> 0.639]
row open input: | U2-1 | [>3V -> 0.641]
row pin 18 of 16: | [U3-18 -> U3-13]
row CMOS NAND contradicts: | U1-4 | [4.9 V -> 0.0 V]
  with | U1-5
  with | U1-6
row level undefined: | U2-4 | [2.4 V -> 5.0 V]
`,
  },
  "13-meter-copy": {
    names: ["U14"],
    faults: `
row shorted input: | 3 | 14:02:31 | U14.3 | [0.0012 -> 0.5712]
row open input: | 5 | 14:02:55 | U14.5 | [OL -> 0.5699]
row +5 V low: | 8 | 14:20:02 | +5V | [4.6102 -> 5.0210]
row -12 V low: | 10 | 14:20:31 | -12V | [-9.112 -> -12.05]
row ripple: | 11 | 14:22:40 | +5V | [131.20 -> 11.20]
`,
  },
  "14-terse": {
    names: ["U1", "U2"],
    faults: `
row shorted output: | u1 | ls08 | 3 | [.00 -> .54]
row open clock: | u2 | ls74 | 3 | [ol -> .57]
row pin 15 of 14: | u2 | ls74 | [15 -> 12]
row 5 V low: | 5 | [4.6 -> 5.0]
cell ripple: | 12 | 12.0 | [140mV -> 9mV]
row AND contradicts: | u1 | 6 | [0 -> 1]
  with | u1 | 4
  with | u1 | 5
`,
  },
  "15-chatty": {
    names: ["U21", "U22"],
    faults: `
row shorted output: | U21 pin 2 | [0.002 V -> 0.546 V] | [hm, a dead short -> fine]
row open clock: | U21 pin 11 | [OL -> 0.569 V] | [clock not connected? -> fine]
row output far too low: | U22 pin 18 | [0.09 V -> 0.544 V] | [rather low -> fine]
row pin 23 of 20: | [U22 pin 23 -> U22 pin 16]
row the 5 volts low: | the 5 volts | [4.55 V -> 5.04 V]
cell the 12 volts high: | the 12 volts | [14.2 V -> 12.1 V]
cell ripple: | the 12 volts | 14.2 V | [150 mV -> 10 mV]
`,
  },
  "16-two-in-one": {
    names: ["U1", "U2"],
    faults: `
row shorted input: | 3 | [0.001 -> 0.573]
row open input: | 2 | [OL -> 0.570]
row pin 17 of 16: | [17 -> 12]
row two levels on one net: | U2 | 1 | [0.1 -> 3.5]
  with | U1
  with | U2 | 2
  with | U2 | 3
  with | U2 | 4
row supply pin low: | U2 | 16 | [4.2 -> 5.0]
`,
  },
  "17-windows": {
    names: ["U15"],
    faults: `
matrix-shorted columns 2 and 3: | R1 | OK | [R1C3 too -> OK] | [R1C2 too -> OK]
  and | R2 | OK | [R2C3 too -> OK] | [R2C2 too -> OK]
  and | R3 | OK | [R3C3 too -> OK] | [R3C2 too -> OK]
matrix-stuck 4,1: | R4 | [always on -> OK]
row leaks both ways: | D2 | 1N4148 | 0.62 | [0.62 -> OL]
row shorted diode: | D3 | 1N4148 | [0.00 -> 0.61] | [0.00 -> OL]
row shorted output: | 18 | [0.002 -> 0.541]
`,
  },
  "18-tester": {
    names: ["U32", "U34"],
    faults: `
row chip failed in the tester: | U32 | 74LS175 | [BAD -> ok]
row another failed: | U34 | 4040 | [failed -> ok]
row output shorted to ground: | U31 | 3 | [1.2 ohm -> 8.4 kohm]
row bus pin shorted: | U33 | 3 | [0.8 ohm -> 11.4 kohm]
cell analog 5 V too high: | 5V analog | [5.6 V -> 5.02 V]
cell lamp supply low: | 18V lamps | [11.0 V -> 17.9 V]
`,
  },
  "19-sides": {
    names: ["U41", "U42"],
    faults: `
cell shorted A1: | 2 | [0.003 -> 0.562]
cell open B2: | 4 | 0.566 | 17 | [OL -> 0.560]
row shorted output: | 3 | 1Y | [3 -> 544]
row shorted input: | 4 | 2A | [1 -> 575]
`,
  },
  "20-names-not-numbers": {
    names: ["REG1", "Q7", "Q8"],
    faults: `
row 7805 low: | REG1 | LM7805 | OUT | [4.2 -> 5.0]
row 7905 high: | REG2 | LM7905 | OUT | [-6.1 -> -5.0]
row collector shorted to ground: | Q7 | TIP122 | C | [0.00 -> 0.53]
row base open: | Q8 | TIP122 | B | [OL -> 0.70]
`,
  },
  "21-truth": {
    names: ["U51", "U52", "U54"],
    faults: `
row three-input NAND contradicts: | 12 | [high -> low]
  with | 1 | high
  with | 2 | high
  with | 13 | high
row three-input NOR contradicts: | 12 | [low -> high]
  with | 1 | low
  with | 2 | low
  with | 13 | low
row buffer contradicts: | 2 | [4.9 -> 0.1]
  with | 1 | 0.1 | 
row supply pin low: | 14 | [4.4 -> 5.0]
row cleared and yet high: | 5 | [3.4 -> 0.1]
  with | 1 | 0.1 | clear held low
  with | 4 | 3.5
  with | 6 | 3.5
`,
  },
  "22-inventory-table": {
    names: ["U5", "U3", "U2"],
    faults: `
cell shorted select: | 2 | 0.69 | [0.00 -> 0.57]
cell open address pin: | 4 | [OL -> 0.68]
cell ground pin not grounded: | 1 | 0.00 | [0.66 -> 0.00]
cell shorted port pin: | 3 | 0.62 | [0.001 -> 0.67]
row reset at no level: | U1 pin 40 | RESET | [1.5 V -> 4.8 V]
`,
  },
};
