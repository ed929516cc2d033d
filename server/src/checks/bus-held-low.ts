import { pinText } from "../compute/nets/net-text";
import { inJudgedBlocks } from "../judge/in-blocks";
import { type LowBus, lowBusesIn } from "../judge/together/of-buses";
import { formatValue } from "../quantity/format-value";
import type { Saying } from "../text/saying";
import { shift } from "../text/span";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import type { CauseData } from "./from-causes";

export default documentCheck({
  code: "bus-held-low",
  title: "A bus that is held low",
  severity: "warning",
  scope: "document",
  why: "Where every line of a bus reads low at a chip, one thing holds them all: a chip on the bus that has lost its supply or is damaged as a whole, or a buffer. Pin by pin it looks like as many faults, and the chip that was read may have none.",
  remedy:
    "Check the supply pins of every chip on the bus first. Then take the socketed chips out one at a time and read one line again after each. When the line comes back, the chip you took out last is the cause. Switch off and discharge the supplies before you pull a chip.",
  settledBy: "later-reading-of-each-pin",
  examples: {
    bad: [
      exampleLog(`## Diode check U32

| Pin | Reading |
|-----|---------|
| 1   | 0.571   |
| 9   | 0.001   |
| 11  | 0.208   |
        ^^^^^ bus-held-low: U32: all 4 lines of bus I/O1 to I/O4 read low
| 12  | 0.211   |
| 13  | 0.209   |
| 14  | 0.214   |
| 15  | 0.566   |
| 16  | 0.568   |
`),
    ],
    good: [
      exampleLog(`## Diode check U32

<!-- mendlog-allow diode-out-of-window: three lines, each looked at -->

| Pin | Reading |
|-----|---------|
| 9   | 0.001   |
| 11  | 0.208   |
| 12  | 0.211   |
| 13  | 0.569   |
| 14  | 0.214   |
| 15  | 0.566   |
`),
    ],
  },
  *run({ doc, ctx }) {
    for (const { start, found } of lowBuses(doc, ctx)) {
      for (const bus of found) {
        const [first] = bus.lines;
        if (!first) continue;
        const data: CauseData = {
          refs: bus.refs,
          pins: bus.lines.map(pinText),
          explains: bus.lines.map(({ reading }) => shift(reading.cell.span, start).start),
          spoilt: { places: [], pins: [] },
        };
        yield {
          span: shift(first.reading.cell.span, start),
          ...sayingOf(bus),
          related: bus.lines.map(({ ref, pin, name, reading }) => ({
            uri: doc.uri,
            span: shift(reading.cell.span, start),
            message: `${ref} pin ${pin} (${name}) reads ${reading.value.typed}`,
          })),
          data,
        };
      }
    }
  },
  noFix: "The readings are what was measured; the fault is on the board.",
});

const lowBuses = inJudgedBlocks((block, ctx) => {
  if (block.suppressions.some(({ code }) => code === "diode-out-of-window" || code === "pin-shorted"))
    return undefined;
  const buses = lowBusesIn(block, ctx);
  return buses.length === 0 ? undefined : buses;
});

function sayingOf({ refs, first, last, read: lines, of, from, to, limit }: LowBus): Saying {
  const read = from === to ? formatValue(from, "V") : `${formatValue(from, "V")} to ${formatValue(to, "V")}`;
  const below = Number.isFinite(limit) ? `; below ${formatValue(limit, "V")} is low` : "";
  const which = lines === of ? `all ${of}` : `${lines} of ${of}`;
  return {
    fact: `${refs.join(" and ")}: ${which} lines of bus ${first} to ${last} read low, ${read}${below}.`,
    cause: "One part on the bus holds them all: a chip without supply or a damaged buffer.",
    step: "Check the supply pins on the bus. Then pull its socketed chips one by one.",
  };
}
