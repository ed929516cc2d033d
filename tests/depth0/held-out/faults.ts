// What is wrong in each log of the held-out set, in the words of ../faults.ts. Nothing is ever tuned on these logs: once
// a rule was written with one of them in view, it measures nothing any more.
// All of it is invented; pins are those of server/data/devices.
import type { Planted } from "../faults";

export const PLANTED: Readonly<Record<string, Planted>> = {
  "01-a-retired-set-repairer": {
    names: ["U12", "U3"],
    faults: `
row +5 V too low: | +5V logic | [4.55 V -> 5.02 V]
row open input: | 4 | [OL -> 569 mV]
row ground pin with a drop: | 10 | [640 mV -> 1 mV]
row shorted output: | 12 | [3 mV -> 541 mV]
row clock input too low: | 3 | [95 mV -> 584 mV]
row pin 16 of 14: | [16 -> 9] | 557 mV
row set and yet low: | 5 | [L -> H]
  with pins 1 4 6
`,
  },
  "02-a-student": {
    names: ["U11", "U4"],
    faults: `
row shorted port pin: | 5 | PA3 | [0.002 -> 0.670]
row open port pin: | 12 | PB2 | [OL -> 0.702]
row clock input too low: | 25 | E | [0.104 -> 0.652]
row pin 41 of 40: | [41 -> 37]
row input too high: | 6 | G1 | [1.62 -> 0.567]
row called and yet high: | 13 | /Y2 | [H -> L]
  with | 1 | A | L
  with | 2 | B | H
  with | 3 | C | L
  with | 4 | /G2A | L
  with | 5 | /G2B | L
  with | 6 | G1 | H
  with | 15 | /Y0 | H
  with | 14 | /Y1 | H
  with | 12 | /Y3 | H
  with | 11 | /Y4 | H
  with | 10 | /Y5 | H
  with | 9 | /Y6 | H
  with | 7 | /Y7 | H
`,
  },
  "03-strict-forms": {
    names: ["U31", "U33"],
    faults: `
cell ripple on +5 V: | +5 V DC | 5.00 V | 4.97 V | [0.19 Vpp -> 0.02 Vpp]
row +12 V too low: | +12 V DC | 12.00 V | [10.3 V -> 11.9 V]
row shorted output: | U31 | 74LS273 | 5 | [0.001 V -> 0.541 V]
row open clock input: | U31 | 74LS273 | 11 | [OL -> 0.569 V]
row open input: | U33 | 74LS03 | 2 | [OL -> 0.565 V]
row open ground pin: | U33 | 74LS03 | 7 | [OL -> 0.000 V]
row cleared and yet high: | U31 | 74LS273 | 6 | [H -> L]
  with pins 1
row OR contradicts: | U32 | 74LS32 | 3 | [L -> H]
  with pins 1 2
`,
  },
  "04-typed-on-the-phone": {
    names: ["IC3", "IC7"],
    faults: `
row 5 V too high: 5v | [5.48 -> 5.06]
row shorted input: ic 3 | 74ls157 | 3 | [0.0 -> .57]
row open output: ic 3 | 74ls157 | 7 | [ol -> .54]
row ground pin with a drop: ic 7 | 74ls161 | 8 | [.66 -> .00]
row shorted output: ic 7 | 74ls161 | 14 | [short -> .55]
row pin 19 of 16: ic 7 | 74ls161 | [19 -> 12]
row selector contradicts: ic 3 | 74ls157 | 4 | [l -> h]
  with pins 1 15 2 3
`,
  },
  "05-one-wide-table": {
    names: ["U1", "U3", "U4"],
    faults: `
cell shorted bus pin: | 4 | 570 | 571 | 568 | [3 -> 553]
cell open input: | 6 | [OL -> 569]
cell shorted output: | 6 | OL | 570 | [0 -> 541]
cell output too low: | 9 | [118 -> 540]
cell open input: | 10 | 1 | 1 | 1 | 1 | [OL -> 572]
cell latch enable too high: | 11 | 568 | 570 | [1490 -> 565]
cell open bus pin: | 14 | 541 | 540 | 566 | [OL -> 551]
cell pin 15 of 14: | 15 | 570 | 571 | 541 | 550 | [563 -> -]
`,
  },
  "06-bullets-beside-tables": {
    names: ["U8", "U9"],
    faults: `
cell ripple on +5 V: | +5V | 5.01 | [150mVpp -> 12mVpp]
row shorted output: | U8 | 5 | [0.001 -> 0.541]
row open clock input: | U8 | 9 | [OL -> 0.567]
row output too high: | U9 | 11 | [1.71 -> 0.541]
row cleared and yet high: | U9 | 7 | [H -> L]
  with pins 1
  and | U9 | 6 | [L -> H]
row driver contradicts: | U10 | 4 | [L -> H]
  with pins 3
`,
  },
  "07-with-equal-signs": {
    names: ["U6", "U14"],
    faults: `
row VCC too low: | VCC (5V) | [4.49 V -> 5.04 V]
row open input: | U5=7404 | 3 | [OL -> 0.584]
row shorted input: | U6=74LS151 | 3 | [0.001 -> 0.567]
row output too low: | U6=74LS151 | 6 | [0.071 -> 0.543]
row pin 15 of 14: | U14=74LS14 | [15 -> 13]
row inverter contradicts: | U14=74LS14 | 2 | [H -> L]
  with pins 1
row selected and not passed on: | U6=74LS151 | 5 | [L -> H]
  with pins 7 11 10 9 1 6
`,
  },
  "08-dashes-and-colons": {
    names: ["U5", "U7"],
    faults: `
row unregulated 12 V down by a third: | 12V unregulated | [7.9 V -> 13.4 V]
row shorted output: | U5 - 74LS393 | 4 | [0.002 V -> 0.541 V]
row open clock input: | U5 - 74LS393 | 13 | [OL -> 0.570 V]
row input too low: | U6: 74LS04N | 5 | [0.131 V -> 0.573 V]
row ground pin with a drop: | U7: SN7420N | 7 | [0.59 V -> 0.001 V]
row inverter contradicts: | U6: 74LS04N | 4 | [0.2 V -> 3.5 V]
  with pins 3
row NAND contradicts: | U7: SN7420N | 8 | [3.5 V -> 0.2 V]
  with pins 9 10 12 13
row input at no level: | U7: SN7420N | 1 | [1.5 V -> 3.4 V]
`,
  },
  "09-number-then-place": {
    names: ["U2", "U4"],
    faults: `
row shorted input: | 4 | [0.001 -> 0.570]
row open output: | 6 | [OL -> 0.542]
row input too high: | 74LS00 (U2) | 2 | [1.8 -> 0.563]
row open input: | 74LS00 (U2) | 9 | [OL -> 0.564]
row shorted output: | 7410 (U3) | 8 | [0.000 -> 0.558]
row pin 18 of 14: | 7410 (U3) | [18 -> 13]
row NAND contradicts: | 74LS00 (U2) | 6 | [L -> H]
  with pins 4 5
row supply pin low: | 20 | [L -> H]
`,
  },
  "10-slashes": {
    names: ["U15", "U16"],
    faults: `
row -5 V too high: | -5V | [-6,1 -> -5,04]
row shorted clock input: | U15/74LS74 | 3 | [0,000 -> 0,567]
row open output: | U15/74LS74 | 6 | [OL -> 0,541]
row open input: | U16/74LS86 | 4 | [OL -> 0,559]
row shorted output: | U17/74LS139 | 5 | [0,002 -> 0,544]
row exclusive OR contradicts: | U16/74LS86 | 8 | [0,2 -> 3,5]
  with pins 9 10
row clear input at no level: | U15/74LS74 | 13 | [1,3 -> 3,5]
`,
  },
  "11-with-commas": {
    names: ["IC5", "IC8"],
    faults: `
row -12 V too low: | -12V | [-8.4 -> -11.8]
row shorted input: | IC5, 7400 | 1 | [0.003 -> 0.588]
row ground pin with a drop: | IC5, 7400 | 7 | [0.72 -> 0.001]
row open output: | IC5, 7400 | 8 | [OL -> 0.562]
row pin 15 of 14: | IC5, 7400 | [15 -> 9]
row open input: | IC6, 74LS27 | 13 | [OL -> 0.572]
row output too low: | IC8, 74LS125 | 8 | [0.12 -> 0.543]
row NAND contradicts: | IC5, 7400 | 8 | [H -> L]
  with pins 9 10
row NOR contradicts: | IC6, 74LS27 | 6 | [L -> H]
  with pins 3 4 5
row buffer contradicts: | IC8, 74LS125 | 3 | [L -> H]
  with pins 1 2
`,
  },
  "12-letters-and-makers": {
    names: ["Z12", "Z13"],
    faults: `
row shorted input: | Z12 SN74LS138N | 2 | [1 mV -> 568 mV]
row open output: | Z12 SN74LS138N | 9 | [0L -> 542 mV]
row pin 17 of 16: | Z12 SN74LS138N | [17 -> 11]
row shorted output: | Z13 DM74LS244N | 14 | [2 mV -> 541 mV]
row input too low: | Z13 DM74LS244N | 17 | [88 mV -> 570 mV]
row open input: | Z14 HD7407P | 5 | [0L -> 591 mV]
row lamp supply down by a third: | +18V lamps | [11.2 V -> 18.6 V]
row driver contradicts: | Z14 HD7407P | 10 | [11.9 V -> 0.2 V]
  with pins 11
row buffer contradicts: | Z13 DM74LS244N | 18 | [0.1 V -> 3.5 V]
  with pins 1 2
`,
  },
  "13-power-supply-bench": {
    names: ["VR1", "VR3", "BR2"],
    faults: `
row +5 V shorted: | +5V | [0.8 ohm -> 210 ohm]
row -12 V shorted: | -12V | [short -> 820 ohm]
row shorted bridge: | BR2 | AC2 | [0.001 -> 0.509]
row solenoid rail down by a third: | +43 V solenoids | [27 V -> 42 V]
row display rail down by a third: | +170V display | [96 V -> 172 V]
cell ripple on +12 V: | +12V | 12.05 V | [0.9 Vpp -> 0.02 Vpp]
row regulator output too high: | VR1 | 7805 | OUT | [6.9 -> 5.03]
row regulator off ground: | VR2 | 7812 | GND | [0.61 -> 0.00]
row regulator output too low: | VR3 | 7905 | OUT | [-2.9 -> -5.04]
`,
  },
  "14-twelve-volt-cmos": {
    names: ["U2", "U3", "U4"],
    faults: `
row shorted input: | U2 | CD4011BE | 2 | [0.001 -> 0.594]
row shorted output: | U4 | LM339N | 14 | [0.002 -> 0.610]
row open input: | U3 | CD4069UBE | 9 | [OL -> 0.598]
row NAND contradicts: | U2 | CD4011BE | 4 | [12.0 -> 0.0]
  with pins 5 6
row output at no level: | U2 | CD4011BE | 10 | [6.1 -> 12.0]
  with pins 8 9
row inverter contradicts: | U3 | CD4069UBE | 2 | [0.1 -> 12.0]
  with pins 1
row comparator contradicts: | U4 | LM339N | 2 | [0.1 -> 12.0]
  with pins 5 4
row held in reset and yet high: | U1 | NE555 | 3 | [10.9 -> 0.1]
  with pins 4
row driver contradicts: | U5 | ULN2003A | 15 | [18.2 -> 0.9]
  with pins 2
`,
  },
  "15-named-matrices": {
    names: ["Q5", "Q8", "U22"],
    faults: `
matrix-stuck white-brown, green-yellow: | White-brown | ok | ok | ok | [stuck -> ok]
matrix-dead row white-orange: | White-orange | [dead -> ok] | [dead -> ok] | [dead -> ok] | [dead -> ok]
matrix-dead column L2: | Red | lit | [dark -> lit]
  and | Blue | lit | [dark -> lit]
  and | Yellow | lit | [dark -> lit]
cell shorted base-collector: | Q5 | TIP102 | 0.741 | [0.002 -> 0.664]
cell open base-emitter: | Q7 | TIP102 | [OL -> 0.740]
cell shorted collector-emitter: | Q8 | TIP122 | 0.712 | 0.648 | [0.001 -> OL]
row shorted diode: | D22 | 1N4004 | A | [0.003 -> 0.563]
row driver contradicts: | 17 | [17.8 -> 0.9]
  with pins 2
`,
  },
  "16-odd-corners": {
    names: ["IC21", "IC22", "IC23"],
    faults: `
row shorted input where others have ground: | IC21 | 7473 | 7 | [1 -> 590]
row open input where others have supply: | IC21 | 7473 | 14 | [OL -> 591]
row open supply pin: | IC22 | 7475 | 5 | [OL -> 421]
row shorted output where others have ground: | IC22 | 7475 | 8 | [3 -> 563]
row ground pin with a drop: | IC23 | 7490 | 10 | [580 -> 1]
row open clock input: | IC23 | 7490 | 14 | [OL -> 594]
row output too high: | IC24 | 7493 | 12 | [1512 -> 561]
row pin 16 of 14: | IC24 | 7493 | [16 -> 11]
row cleared and yet high: | IC21 | 7473 | 12 | [H -> L]
  with pins 2 13
row reset and yet high: | IC24 | 7493 | 9 | [H -> L]
  with pins 2 3
row supply pin low: | IC22 | 7475 | 5 | [L -> H]
`,
  },
  "17-before-and-after": {
    names: ["U6", "U10"],
    faults: `
row shorted output after repair: | U6 | 4 | [0.003 -> 0.567]
row open clock input: | U10 | 11 | [OL -> 0.568]
row output too high: | U10 | 12 | [1.44 -> 0.542]
row ground pin with a drop: | U10 | 10 | [0.601 -> 0.001]
row pin 21 of 20: | U10 | [21 -> 19]
row driver fitted contradicts: | U6 | 8 | [H -> L]
  with pins 9
row driver fitted contradicts: | U6 | 6 | [H -> L]
  with pins 5
cell ripple on +5 V: | +5V logic | 5.00 V | [0.17 V -> 0.01 V]
`,
  },
  "18-memory-and-bus": {
    names: ["U17", "U20", "U31"],
    faults: `
row one of the address lines alike too low: | U1 | MC6802P | 12 | [0.412 -> 0.650]
row shorted reset pin: | U1 | MC6802P | 40 | [0.002 -> 0.588]
row open write pin: | U17 | 2114 | 10 | [OL -> 0.661]
row shorted data pin: | U17 | 2114 | 14 | [0.001 -> 0.702]
row pin 19 of 18: | U17 | 2114 | [19 -> 17]
row ground pin with a drop: | U20 | 2716 | 12 | [0.688 -> 0.001]
row open output-enable pin: | U20 | 2716 | 20 | [OL -> 0.653]
row shorted port pin: | U24 | R6532 | 9 | [0.000 -> 0.690]
row open data output: | U31 | 4116 | 14 | [OL -> 0.702]
row -5 V missing at the chip: | U31 | 4116 | 1 | [-0.2 -> -5.02]
row +12 V low at the chip: | U31 | 4116 | 8 | [8.3 -> 12.1]
row supply pin at 4.1 V: | U17 | 2114 | 18 | [4.1 -> 5.01]
`,
  },
  "19-probe-only": {
    names: ["U4", "U11", "U13", "U15"],
    faults: `
row switched off and yet low: | 10 | [L -> H]
  with | 6 | L | off, no output may be low
row two outputs low: | 6 | [L -> H] | 1Y2
  with | 2 | H | A
  with | 3 | L | B
  with | 5 | L | 1Y1
row selector contradicts: | 4 | [H -> L] | 1Y
  with | 15 | L | enabled
  with | 1 | H | B side
  with | 2 | H | 1A
  with | 3 | L | 1B
row cleared and yet high: | 13 | [H -> L] | QB
  with | 1 | L | cleared
row exclusive OR contradicts: | 11 | [H -> L] | 4Y
  with | 12 | H | 4A
  with | 13 | H | 4B
row ground pin high: | 7 | [H -> L] |
`,
  },
  "20-rung-out": {
    names: ["U5", "U6", "U8"],
    faults: `
row shorted input: | 4 | [0.001 -> 0.570]
row open output: | 12 | [OL -> 0.541]
row two drops on one net: | 18 | [0.402 -> 0.541]
  with | U8 | 1 | 0.541
row open input: | U8 | 13 | [OL -> 0.569]
row shorted output: | U6 | 13 | [0.002 -> 0.547]
row ground pin with a drop: | U7 | 8 | [0.66 -> 0.001]
row two states on one net: | U7 | 4 | [L -> H]
  with | U6 | 1 | H
row two states on one net: | U8 | 2 | [H -> L]
  with | U6 | 4 | L
  and | U8 | 12 | [H -> L]
row NOR contradicts: | U6 | 10 | [H -> L]
  with pins 8 9
`,
  },
};
