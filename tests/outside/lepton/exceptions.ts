// Where our devices and the lepton-eda symbols are known to differ, and why ours stands. Every entry must still be
// needed. "The other library" is KiCad's, which agrees with ours in these.
import { type Exceptions, every, one } from "../kicad/exception";

const SWITCH = "an analog switch carries signal both ways; the symbol calls its contacts passive";
const SWITCHED_OFF = "an enable switches the outputs off; the symbol draws plain outputs";
const BOTH_WAYS = "the pins take data as well as give it; the symbol draws one of the two";
const OPEN = "open collector by the part's data sheet (from memory); the symbol draws plain outputs";
const SECTIONS =
  "the symbol names the two or more inputs of one gate in another order, or counts the gates otherwise";
const UNDRAWN = "the symbol leaves this pin out";
const NO_LEVEL = "a voltage, a current or a timing part, not a logic level";
const BUS = "address and strobe lines float when the bus is given away (data sheet, from memory)";
const MODE = "the symbol draws both modes in one; ours is named for minimum mode";
const GROUND = "ground; a fault of the symbol";
const LED = "leads of an LED take part in no logic";
const SUPPLY_PAIR =
  "supply and ground are the wrong way round in the symbol; the other library has them as here";
const HALVES =
  "the symbol's second half has its pins in the order of the first; the other library has them as here";
const NC = "not connected inside; the symbol calls it passive";

const swapped = (pins: readonly [pin: number, name: string, there: number][]) =>
  pins.map(([pin, name, there]) => one([String(pin)], name, `${name} on pin ${there}`, SECTIONS));

/** The third and the fourth of four sections, which the symbol counts the other way round. */
const thirdAndFourth = (output: "" | "Y") =>
  swapped([
    ...(output === ""
      ? []
      : ([
          [9, "3Y", 12],
          [12, "4Y", 9],
        ] as [number, string, number][])),
    [10, "3B", 13],
    [11, "3A", 14],
    [13, "4B", 10],
    [14, "4A", 11],
  ]);

export const EXCEPTIONS: Exceptions = {
  ...every("4016 4051 4052 4066 4067", one("*", "bidirectional", "passive", SWITCH)),
  ...every("4076 4512 26LS32 MC3487", one("*", "three-state", "output", SWITCHED_OFF)),
  ...every("40245 74243 74245 74299 6116", one("*", "bidirectional", "three-state", BOTH_WAYS)),
  "75176": [
    one(["1"], "three-state", "output", SWITCHED_OFF),
    one("*", "bidirectional", "three-state", BOTH_WAYS),
  ],
  "6264": [one(["1"], "not-connected", "passive", NC)],
  ...every("40107 6821 LM319 Z80-PIO", one("*", "open-collector", "output", OPEN)),
  ...every(
    "40373 40374",
    one(["10"], "ground", "supply", SUPPLY_PAIR),
    one(["20"], "supply", "ground", SUPPLY_PAIR),
    one(["10"], "VSS", "VSS on pin 20", SUPPLY_PAIR),
    one(["20"], "VDD", "VDD on pin 10", SUPPLY_PAIR),
  ),
  ...every(
    "6N135 6N136",
    one(["2"], "passive", "open-collector", LED),
    one(["3"], "passive", "open-emitter", LED),
  ),
  ...every(
    "82S100 82S101",
    one(["1"], "input", "absent", UNDRAWN),
    one(["14"], "ground", "absent", UNDRAWN),
    one(["28"], "supply", "absent", UNDRAWN),
  ),
  ...every("93C46 9306", one(["6", "7"], "not-connected", "passive", NC)),
  ...every("741", one(["1", "5"], "passive", "absent", UNDRAWN)),
  ...every("LM311", one(["5", "6"], "passive", "absent", UNDRAWN)),
  ...every("LM324", one(["4"], "supply", "absent", UNDRAWN), one(["11"], "ground", "absent", UNDRAWN)),
  ...every("4N33", one(["6"], "passive", "absent", UNDRAWN)),
  "4007": [
    one(
      "*",
      "passive",
      "output",
      "sources and drains of single transistors: outputs only as the board wires them",
    ),
    one(["7"], "ground", "supply", GROUND),
  ],
  "4011": swapped([
    [8, "A", 9],
    [9, "B", 8],
    [12, "A", 13],
    [13, "B", 12],
  ]),
  "4012": swapped([
    [9, "A", 12],
    [10, "B", 11],
    [11, "C", 10],
    [12, "D", 9],
  ]),
  "4023": swapped([
    [11, "A", 13],
    [13, "C", 11],
  ]),
  "4073": swapped([
    [11, "A", 13],
    [13, "C", 11],
  ]),
  "4081": swapped([
    [5, "A", 6],
    [6, "B", 5],
    [12, "A", 13],
    [13, "B", 12],
  ]),
  "4044": [
    one(
      ["2"],
      "not-connected",
      "three-state",
      "the symbol has the pins of the 4043; the other library as here",
    ),
    one(["13"], "three-state", "absent", "the symbol has the pins of the 4043; the other library as here"),
  ],
  "4046": [
    one(
      ["13"],
      "three-state",
      "output",
      "the second phase comparator lets go when in step (data sheet, from memory)",
    ),
    one(["15"], "passive", "supply", "cathode of a zener diode, not a supply"),
  ],
  "4048": [
    ...swapped([
      [3, "H", 14],
      [4, "G", 13],
      [5, "F", 12],
      [6, "E", 11],
      [11, "D", 6],
      [12, "C", 5],
      [13, "B", 4],
      [14, "A", 3],
    ]),
    one(["15"], "input", "output", "expansion input (data sheet, from memory); the other library agrees"),
  ],
  "4053": [
    one("*", "bidirectional", "passive", SWITCH),
    one(
      ["6"],
      "input",
      "ground",
      "the inhibit input, often tied to ground; the other library draws an input",
    ),
  ],
  "4060": [
    one(["9", "10"], "output", "passive", "outputs of the oscillator's inverters"),
    one(["11"], "input", "passive", "input of the oscillator"),
    one(["12"], "R", "R on pin 10", "the reset; R at pin 10 is the symbol's name for the resistor's end"),
  ],
  "4514": [
    one(
      ["9"],
      "S#1",
      "S#1 on pin 10",
      "the device's own source says so: makers' sheets have S1 at pin 9 (from memory)",
    ),
    one(
      ["10"],
      "S#2",
      "S#2 on pin 9",
      "the device's own source says so: makers' sheets have S2 at pin 10 (from memory)",
    ),
  ],
  "4515": [
    one(
      ["9"],
      "/S#1",
      "/S#1 on pin 10",
      "the device's own source says so: makers' sheets have S1 at pin 9 (from memory)",
    ),
    one(
      ["10"],
      "/S#2",
      "/S#2 on pin 9",
      "the device's own source says so: makers' sheets have S2 at pin 10 (from memory)",
    ),
  ],
  "4517": [
    one(["9"], "input", "absent", "the symbol numbers this pin 19 on a 16-pin part"),
    one(["19"], "absent", "input", "a pin 19 on a 16-pin part: it is pin 9"),
  ],
  "4520": [
    one(["10"], "input", "output", HALVES),
    one(["14"], "output", "input", HALVES),
    one(["9"], "CLK", "CLK on pin 15", HALVES),
    one(["10"], "EN", "EN on pin 14", HALVES),
    one(["11"], "Q#0", "Q#0 on pin 13", HALVES),
    one(["13"], "Q#2", "Q#2 on pin 11", HALVES),
    one(["14"], "Q#3", "Q#3 on pin 10", HALVES),
  ],
  "4521": [one(["3"], "ground", "supply", GROUND)],
  "4536": [one(["15"], "passive", "input", NO_LEVEL)],
  "4541": [one(["1", "2"], "passive", "output", NO_LEVEL)],
  "4543": [
    one(["14"], "G", "G on pin 15", "the other library has them as here"),
    one(["15"], "F", "F on pin 14", "the other library has them as here"),
  ],
  "40105": [
    one(["2"], "output", "input", "data-in ready goes out (data sheet, from memory)"),
    one(["15"], "input", "output", "shift out is a command (data sheet, from memory)"),
  ],
  "7475": [
    one(
      ["3"],
      "gate 2",
      "drawn with gate 1",
      "the symbol draws the latches in pairs, as they share an enable",
    ),
    one(
      ["7"],
      "gate 4",
      "drawn with gate 3",
      "the symbol draws the latches in pairs, as they share an enable",
    ),
  ],
  "7496": [one(["6"], "D", "D on pin 9", "the fourth preset; the symbol calls the serial input D")],
  "7912": [
    one(["2"], "supply", "passive", "one symbol serves the positive regulators as well"),
    one(["3"], "output", "passive", "one symbol serves the positive regulators as well"),
  ],
  "8031": [
    one(["38"], "P#1", "P#1 on pin 4", "port and bit run together in the symbol's names"),
    one(["39"], "P#0", "P#0 on pin 3", "port and bit run together in the symbol's names"),
  ],
  ...every(
    "8086 8088",
    one("*", "three-state", "output", BUS),
    one(["30"], "output", "bidirectional", MODE),
    one(["31"], "input", "bidirectional", MODE),
  ),
  "74LS51": swapped([
    [9, "1D", 11],
    [11, "1F", 9],
    [12, "1B", 13],
    [13, "1C", 12],
  ]),
  "26LS31": [
    one("*", "three-state", "output", SWITCHED_OFF),
    one(["8"], "ground", "absent", UNDRAWN),
    one(["16"], "supply", "absent", UNDRAWN),
  ],
  "6N137": [
    one(["2"], "passive", "open-collector", LED),
    one(["3"], "passive", "open-emitter", LED),
    one(["7"], "input", "passive", "the enable; the other library draws an input"),
  ],
  "74124": [one(["1", "2", "3", "14"], "passive", "input", NO_LEVEL), one(["8"], "ground", "supply", GROUND)],
  "74147": [
    one(
      ["15"],
      "not-connected",
      "input",
      "the ten-line encoder has no input for zero; the other library agrees",
    ),
  ],
  "74157": thirdAndFourth("Y"),
  "74158": thirdAndFourth(""),
  "74257": thirdAndFourth("Y"),
  "74520": [one(["19"], "output", "passive", "the result; a fault of the symbol")],
  "74684": [
    one("*", "output", "open-collector", "push-pull; the 685 is the open-collector part (from memory)"),
  ],
  LM723: [
    one(["2", "3", "9", "13"], "passive", "bidirectional", NO_LEVEL),
    one(["6", "10"], "passive", "output", NO_LEVEL),
    one(["7"], "ground", "supply", "the negative end; at ground in a positive regulator"),
    one(["11"], "supply", "bidirectional", "collector of the output transistor, fed from the raw supply"),
  ],
  MC34063: [
    one(["1"], "open-collector", "input", "collector of the switch"),
    one(["2"], "open-emitter", "bidirectional", "emitter of the switch"),
    one(["8"], "open-collector", "bidirectional", "collector of the driver"),
    one(["3", "5", "7"], "passive", "bidirectional", NO_LEVEL),
  ],
  MAX232: [one(["2", "6"], "output", "supply", "made inside by the charge pump")],
  PAL16L8: [
    one(
      ["1"],
      "I#0",
      "I#0 on pin 2",
      "all inputs are alike; the symbol numbers two of them the other way round",
    ),
    one(
      ["2"],
      "I#1",
      "I#1 on pin 1",
      "all inputs are alike; the symbol numbers two of them the other way round",
    ),
    one(["10"], "ground", "absent", UNDRAWN),
    one(["20"], "supply", "absent", UNDRAWN),
  ],
  LM2941: [one(["6"], "absent", "unspecified", "the tab")],
};
