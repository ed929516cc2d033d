// Everything that is not logic: where our devices and the symbols are known to differ, and why ours stands.
import type { Exceptions } from "./exception";
import { every, one } from "./exception";

const TRIMMER = "offset and compensation take a trimmer or a capacitor";
const NEGATIVE = "the symbol draws the negative supply; ours is named ground as on single-supply boards";
const COOLING = "ground, and the heat goes out there; the symbol leaves the joined pins passive";
const NO_LEVEL = "a voltage or a current, not a logic level";
const TIMING = "timing pins take a resistor and a capacitor: neither drives nor is driven like a logic pin";
const TAP = "divider tap, usually with a capacitor";
const DISCHARGE = "discharge transistor; a known fault of the symbol";
const OPTO = "the symbol draws every pin of this optocoupler passive";
const TERMINALS = "main terminals: MT1 and MT2 here, A1 and A2 in the symbol";
const EMITTER =
  "open emitter (data sheet's pin table and from memory); both libraries draw an open collector";
const CHANNEL = "pin 3 is channel B and pin 4 channel A, as in the AY-3-8910 (from memory)";
const BITS = "the maker counts from the most significant bit, the symbol from the least";

export const LINEAR: Exceptions = {
  ...every("LF351 LF356 TL061 TL071 TL081", one(["1", "5"], "passive", "input", TRIMMER)),
  ...every("LM301 NE5534", one(["1", "5", "8"], "passive", "input", TRIMMER)),
  ...every("LM13600 LM13700", one(["1", "2", "15", "16"], "passive", "input", "bias currents")),
  ...every("LM380 LM384", one(["4", "5", "10", "11", "12"], "ground", "passive", COOLING)),
  ...every(
    "6N135 6N136 6N138 6N139",
    one(["5"], "ground", "passive", OPTO),
    one(["6"], "open-collector", "passive", OPTO),
    one(["8"], "supply", "passive", OPTO),
  ),
  ...every(
    "BT136 BT138 BT139 TIC206 TIC216 TIC226",
    one(["1"], "MT1", "A1", TERMINALS),
    one(["2"], "MT2", "A2", TERMINALS),
  ),
  ...every("TL7702A TL7705A TL7709A TL7712A TL7715A", one(["6"], "open-emitter", "open-collector", EMITTER)),
  ...every(
    "LM2575-5 LM2576-5",
    one(["2"], "passive", "output", "switches into the coil; the output is behind it"),
  ),
  "7555": [one(["5"], "passive", "input", TAP), one(["7"], "open-collector", "input", DISCHARGE)],
  "7556": [one(["3", "11"], "passive", "input", TAP), one(["1", "13"], "open-collector", "input", DISCHARGE)],
  "74C923": [one(["6", "7"], "passive", "input", TIMING)],
  "75176": [one(["1"], "three-state", "output", "the receiver's enable switches it off (from memory)")],
  AD558: [
    one(["12", "13"], "ground", "supply", "grounds; the symbol has one kind for both"),
    one(["14", "15"], "passive", "input", NO_LEVEL),
    one(["16"], "passive", "output", NO_LEVEL),
  ],
  DAC08: [
    one(["1", "14", "15", "16"], "passive", "input", NO_LEVEL),
    one(["2", "4"], "passive", "output", NO_LEVEL),
  ],
  H11L1: [
    one(["4"], "open-collector", "output", "open collector (from memory)"),
    one(["5"], "ground", "supply", "ground; the symbol has one kind for both"),
  ],
  ICL7660: [
    one(["2", "4", "6", "7"], "passive", "input", "take capacitors"),
    one(["5"], "passive", "output", "a negative supply made inside, not a logic level"),
  ],
  LM319: [one(["3", "8"], "ground", "passive", "emitter of an output transistor, at ground on logic boards")],
  LM377: [
    one(["1"], "passive", "input", "takes a capacitor"),
    one(["4", "5", "10", "11", "12"], "ground", "passive", COOLING),
  ],
  LM3914: [
    one(["2"], "ground", "supply", NEGATIVE),
    one(["4", "5", "6", "8", "9"], "passive", "input", NO_LEVEL),
    one(["7"], "passive", "output", NO_LEVEL),
  ],
  LM723: [
    one(["2", "3", "9", "13"], "passive", "input", NO_LEVEL),
    one(["6", "10"], "passive", "output", NO_LEVEL),
    one(["7"], "ground", "supply", NEGATIVE),
  ],
  MAX691: [one(["1"], "passive", "supply", "the backup battery; no rail of the board")],
  MC1408: [
    one(["4"], "passive", "input", NO_LEVEL),
    one(["14", "15"], "passive", "output", NO_LEVEL),
    ...[5, 6, 7, 8, 9, 10, 11, 12].map((pin) =>
      one([String(pin)], `A#${pin - 5}`, `A#${pin - 5} on pin ${17 - pin}`, BITS),
    ),
  ],
  MC34063: [one(["5", "7"], "passive", "input", NO_LEVEL)],
  MC34064: [
    one(["2"], "supply", "input", "what it watches is what feeds it"),
    one(["3"], "ground", "input", "ground; a known fault of the symbol"),
  ],
  MID400: [one(["1", "3"], "passive", "input", "the line, not a logic level")],
  NE567: [
    one(["1", "2"], "passive", "output", TIMING),
    one(["3", "5", "6"], "passive", "input", TIMING),
    one(["8"], "open-collector", "output", "open collector (from memory)"),
  ],
  YM2149: [
    one(["3", "4", "38"], "passive", "output", "sound, not a logic level"),
    one(["3"], "B", "B on pin 4", CHANNEL),
    one(["4"], "A", "A on pin 3", CHANNEL),
  ],
};
