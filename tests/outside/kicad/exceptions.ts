// Where our devices and the symbols are known to differ, and why ours stands. Every entry must still be needed.
import { type Exception, type Exceptions, one as exception } from "./exception";
import { LINEAR } from "./exceptions-linear";
import { LOGIC } from "./exceptions-logic";
import { NOT_DRAWN as LISTED } from "./not-drawn";

const TIMING = "timing pins take a resistor and a capacitor: neither drives nor is driven like a logic pin";
const SWITCH = "an analog switch carries signal both ways; the symbol calls its contacts passive";
const TRANSCEIVER = "both sides drive and listen; the symbol draws the A to B direction only";
const OPEN_COLLECTOR =
  "open collector by the part's title and data sheet (from memory); a known fault of the symbol";
const BUS = "address and strobe lines float when the bus is given away (data sheet, from memory)";
const NEGATIVE =
  "the symbol draws an amplifier's negative supply; ours is named ground as on single-supply boards";
const VPP = "programming supply, tied to +5 V for reading: it reads as a supply pin, not as an input";
const BLANKING = "blanking input and ripple output share the pin (wired-AND); the symbol draws one half";

const LEADS = "leads of a display take part in no logic; the symbol draws them as inputs";

const one = (...of: Parameters<typeof exception>): Exception[] => [exception(...of)];
const timing = (...pins: string[]) => one(pins, "passive", "input", TIMING);

const bridge: Exception[] = ["AC1", "AC2"].map((name, at) =>
  exception([String(at + 2)], name, "~", "the symbol gives the two mains leads one name"),
);

export const EXCEPTIONS: Exceptions = {
  ...LOGIC,
  ...LINEAR,
  "7422": one("*", "open-collector", "output", OPEN_COLLECTOR),
  "7446": one(["4"], "bidirectional", "input", BLANKING),
  "7447": one(["4"], "bidirectional", "input", BLANKING),
  "7448": [
    ...one(["4"], "bidirectional", "input", BLANKING),
    ...one(
      "*",
      "output",
      "open-collector",
      "the 7448 has pull-ups of its own on the segment outputs (from memory)",
    ),
  ],
  "74121": timing("9", "10", "11"),
  "74122": timing("9", "11", "13"),
  "74123": timing("6", "7", "14", "15"),
  "74221": timing("6", "7", "14", "15"),
  "74156": one("*", "open-collector", "output", OPEN_COLLECTOR),
  "74170": one(
    "*",
    "open-collector",
    "three-state",
    "the 74170 is open collector, the 74670 three-state; one symbol serves both",
  ),
  "74181": one(["14"], "open-collector", "output", OPEN_COLLECTOR),
  "74242": [
    ...one("*", "bidirectional", "input", TRANSCEIVER),
    ...one("*", "bidirectional", "three-state", TRANSCEIVER),
  ],
  "74243": [
    ...one("*", "bidirectional", "input", TRANSCEIVER),
    ...one("*", "bidirectional", "three-state", TRANSCEIVER),
  ],
  "74245": one("*", "bidirectional", "three-state", TRANSCEIVER),
  "74247": one(["4"], "bidirectional", "output", BLANKING),
  "74293": one(["1", "3"], "not-connected", "input", "the symbol kept the nine-set inputs of the 74290"),
  "74299": one("*", "bidirectional", "three-state", "the data pins also take the parallel load"),
  "4016": one("*", "bidirectional", "passive", SWITCH),
  "4066": one("*", "bidirectional", "passive", SWITCH),
  "4051": one("*", "bidirectional", "passive", SWITCH),
  "4052": one("*", "bidirectional", "passive", SWITCH),
  "4053": one("*", "bidirectional", "passive", SWITCH),
  "4046": [
    ...one(["4"], "output", "input", "the oscillator's output; a known fault of the symbol"),
    ...timing("6", "7", "11", "12"),
    ...one(["15"], "passive", "output", "cathode of a zener diode, not a driver"),
  ],
  "4098": timing("1", "2", "14", "15"),
  "4528": timing("1", "2", "14", "15"),
  "4538": timing("1", "2", "14", "15"),
  "555": [
    ...one(["5"], "passive", "input", "divider tap, usually with a capacitor"),
    ...one(["7"], "open-collector", "input", "discharge transistor; a known fault of the symbol"),
  ],
  "556": [
    ...one(["3", "11"], "passive", "input", "divider tap, usually with a capacitor"),
    ...one(["1", "13"], "open-collector", "input", "discharge transistor; a known fault of the symbol"),
  ],
  "741": one(["1", "5"], "passive", "input", "offset null takes a trimmer"),
  LM311: [
    ...one(["1"], "ground", "passive", "emitter of the output transistor, at ground on logic boards"),
    ...one(["5", "6"], "passive", "input", "balance takes a trimmer"),
  ],
  LM324: one(["11"], "ground", "supply", NEGATIVE),
  LM339: one(["12"], "ground", "supply", NEGATIVE),
  LM358: one(["4"], "ground", "supply", NEGATIVE),
  LM393: one(["4"], "ground", "supply", NEGATIVE),
  LM386: one(["1", "7", "8"], "passive", "input", "gain and bypass take a capacitor"),
  "62256": one("*", "bidirectional", "three-state", "the data pins also take what is written"),
  "2764": one(["1"], "supply", "input", VPP),
  "27128": one(["1"], "supply", "input", VPP),
  "27256": one(["1"], "supply", "input", VPP),
  "6800": one("*", "three-state", "output", BUS),
  "6802": [
    ...one(["1"], "ground", "passive", "drawn on top of the other ground pin"),
    ...one(["39"], "input", "passive", "crystal input, or the clock from outside"),
  ],
  "6809": [
    ...one("*", "three-state", "output", BUS),
    ...one(["39"], "passive", "input", "crystal's second lead"),
  ],
  "6809E": [
    ...one("*", "three-state", "output", BUS),
    ...one(["39"], "input", "output", "TSC is the input that floats the bus (from memory)"),
  ],
  "8039": [
    ...one(["1"], "bidirectional", "input", "T0 can put the clock out (from memory)"),
    ...one(["3"], "passive", "output", "crystal's second lead"),
  ],
  "8080A": one("*", "three-state", "output", BUS),
  KBU4J: bridge,
  KBU8J: bridge,
  MAN72: one("*", "passive", "input", LEADS),
  MAN74: one("*", "passive", "input", LEADS),
  Z80: one("*", "three-state", "output", BUS),
  "6850": one(["7"], "open-collector", "output", "interrupt outputs share a line (data sheet, from memory)"),
};

const NOT_DRAWN = "no symbol of this part in the library";

/** Devices not compared, each with its reason. */
export const UNCOMPARED: Readonly<Record<string, string>> = {
  "7451": "the library draws only the LS part, which has other pins (compared as 74LS51)",
  "74LS54": "the library's symbol of that name has the standard part's pins (compared as 7454)",
  UDN2981: "drawn only in a 20-lead surface-mount package",
  "6840": "the library's symbol is a 40-pin part; the real one has 28 pins",
  ...Object.fromEntries(
    (
      "7416 7417 7425 7445 7489 7496 74141 74150 74180 74189 74260 74266 74279 74640 " +
      "4014 4015 4018 4019 4024 4030 4042 4043 4060 4068 4076 4082 4094 4503 4511 4514 4515 4516 4555 4556 " +
      "2101 2102 2112 2114 2316 2332 2532 2708 2716 2732 4116 4164 5101 6116 6264 6810 " +
      "82S123 82S126 82S129 82S23 6502 6808 8085 6522 6530 6532 8251 8T26 8T28 MC1488 MC1489 " +
      "75451 75452 75453 75454 2N4401 2N4403 2N5060 2N5062 2N5064 2N5401 2N5551 C106 IRL540 MPSA13 " +
      "TIP102 TIP107 TIP31 TIP32 LM309 LM323 bridge-rectifier " +
      "1N34A 1N270 resistor-sip-bussed-6 resistor-sip-bussed-8 " +
      "resistor-sip-bussed-10 resistor-sip-isolated-6 resistor-sip-isolated-10 " +
      "resistor-dip-bussed-14 resistor-dip-bussed-16"
    )
      .split(" ")
      .map((id) => [id, NOT_DRAWN]),
  ),
  ...Object.fromEntries(LISTED.map((id) => [id, NOT_DRAWN])),
};
