// Logic, memories and processors: where our devices and the symbols are known to differ, and why ours stands.
import type { Exceptions } from "./exception";
import { every, one } from "./exception";

const SWITCHED_OFF = "its enable switches the outputs off; the symbol draws plain outputs";
const SWITCH = "an analog switch carries signal both ways; the symbol calls its contacts passive";
const BUS = "address and strobe lines float when the bus is given away (data sheet, from memory)";
const BOTH_WAYS = "the pins take data as well as give it; the symbol draws one of the two";
const OPEN = "open collector by the part's title (from memory); the symbol serves the push-pull part as well";
const CRYSTAL = "a lead of the crystal; the symbol draws the oscillator's inside";
const VPP = "programming supply, tied to +5 V for reading: it reads as a supply pin, not as an input";
const TIMING = "timing pins take a resistor and a capacitor: neither drives nor is driven like a logic pin";
const LEFT_OUT =
  "left out of the symbol; drawn by the other library and named by the data sheet (from memory)";

export const LOGIC: Exceptions = {
  ...every("4044 4048 4502 4508 4512 40240 40244 40373", one("*", "three-state", "output", SWITCHED_OFF)),
  ...every("74295", one("*", "three-state", "output", SWITCHED_OFF)),
  ...every("74322 74323 74645 628128 28C256", one("*", "bidirectional", "three-state", BOTH_WAYS)),
  ...every("GAL16V8 PAL16L8 PAL20L8", one("*", "bidirectional", "three-state", BOTH_WAYS)),
  ...every("74683 74685 74687", one("*", "open-collector", "output", OPEN)),
  ...every("74465 74466", one("*", "input", "three-state", "the A side only listens: these are buffers")),
  ...every("6844 8086 8088 68000", one("*", "three-state", "output", BUS)),
  ...every(
    "8048 8049 8748 8749",
    one(["1"], "bidirectional", "input", "T0 can put the clock out (from memory)"),
    one(["3"], "passive", "output", CRYSTAL),
  ),
  ...every("27C010 27C020 27C040", one(["1"], "supply", "input", VPP)),
  ...every("4006", one(["2"], "output", "absent", LEFT_OUT)),
  ...every("4099", one(["15"], "output", "absent", LEFT_OUT)),
  "1802": [one(["39"], "passive", "output", CRYSTAL)],
  "4008": [
    one(["8"], "ground", "output", "ground; a known fault of the symbol"),
    one(["16"], "supply", "output", "supply; a known fault of the symbol"),
  ],
  "4047": [one(["1", "2", "3"], "passive", "input", TIMING)],
  "4067": [one("*", "bidirectional", "passive", SWITCH)],
  "4541": [
    one(["1", "2"], "passive", "input", TIMING),
    one(["7"], "ground", "supply", "ground, written V_{SS} in the symbol"),
  ],
  "8250": [one(["17"], "passive", "output", CRYSTAL)],
  "8259": [
    one(["12"], "bidirectional", "input", "the cascade lines go out of the master and into the slaves"),
    one(
      ["13", "15"],
      "bidirectional",
      "output",
      "the cascade lines go out of the master and into the slaves",
    ),
  ],
  "8284": [one(["16"], "passive", "output", CRYSTAL), one(["17"], "passive", "input", CRYSTAL)],
  "40245": [
    one(["1", "19"], "input", "output", "direction and enable; a known fault of the symbol"),
    one("*", "bidirectional", "output", BOTH_WAYS),
  ],
  "74246": [
    one(["4"], "bidirectional", "output", "blanking input and ripple output share the pin (wired-AND)"),
  ],
  "74248": [
    one(
      ["4"],
      "bidirectional",
      "open-collector",
      "blanking input and ripple output share the pin (wired-AND)",
    ),
    one("*", "output", "open-collector", "the 74248 has pull-ups of its own on the segments (from memory)"),
  ],
  "74629": [
    one(["1", "2", "3", "14"], "passive", "input", "frequency and range are voltages, not logic levels"),
    one(["8"], "ground", "passive", "ground of the oscillators (from memory)"),
    one(["15"], "supply", "passive", "supply of the oscillators (from memory)"),
  ],
  "74689": [
    one(["1"], "input", "output", "the enable; a known fault of the symbol"),
    one(["19"], "open-collector", "output", OPEN),
  ],
};
