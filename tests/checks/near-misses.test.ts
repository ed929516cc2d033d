// What looks like trouble and is none: nothing may be said of any of these.
import { describe, it } from "vitest";
import { checkFindings } from "../support/workspace";

const BOARD = `//- example.board.yaml
mendlog-board: 1
id: example
title: Example board
source: invented for the tests
grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, ripple: 50 mV, net: VCC, test-point: TP1, source: invented }
  "-12V": { nominal: -12 V, tolerance: 10 %, source: invented }
parts:
  U14: { device: 74LS04 }
  U15: { device: 74LS04 }
  U16: { device: 74LS75 }
  U17: { device: "7430" }
  U18: { device: "2114" }
  Q1: { device: 2N3904 }
  R1: { value: 10k }
  J1: { value: header }
  TP1: { value: test point }
  BT1: { value: battery }
  SW1: { value: DIP switch }
nets:
  GND: [U14.7, U14.13, U15.7, U16.12, U17.7]
  VCC: [U14.14, U14.9, U15.14, U16.5, U17.14, R1.1]
  PULLED: [U14.3, R1.2]
expected:
  - { procedure: resistance-to-ground, rail: "+5V", low: 60 ohm, high: 400 ohm, source: invented }
  - { procedure: diode-check, ref: U15, pin: 1, low: 0.50 V, high: 0.56 V, source: invented }
//- mendlog.shop.yaml
mendlog-shop: 1
name: Bench
meters:
  bench:
    title: Bench meter
    ranges:
      - { function: diode, range: 2 V, resolution: 1 mV, accuracy: { reading: 0.5 %, counts: 2 }, test-voltage: 2.8 V }
      - { function: dc-volts, range: 20 V, resolution: 1 mV, accuracy: { reading: 0.05 %, counts: 2 } }
`;

const log = (body: string, front = "") =>
  `${BOARD}//- logs/1.md\n---\nmendlog: 1\nboard: example\nmeter: bench\n${front}---\n\n${body}`;
const diode = (rows: string) =>
  log(`## Diode check\n\n| Ref | Pin | Reading | Note |\n|---|---|---|---|\n${rows}\n`);

const silent = (name: string, fixture: string) => it(name, async () => void (await checkFindings(fixture)));

describe("diode-out-of-window leaves alone", () => {
  silent("the very ends of the usual window", diode("| U14 | 1 | 0.400 | |\n| U14 | 2 | 0.700 | |"));
  silent(
    "ground and supply where the corner rule has them elsewhere",
    diode("| U16 | 12 | 0.001 | |\n| U16 | 5 | 0.31 | |"),
  );
  silent("an open pin that is not connected inside", diode("| U17 | 9 | OL | |\n| U17 | 13 | OL | |"));
  silent("pins tied to ground and to a rail", diode("| U14 | 13 | 0.002 | |\n| U14 | 9 | 0.31 | |"));
  silent("transistors and passives", diode("| Q1 | 2 | OL | |\n| R1 | 1 | 0.02 | |"));
  silent("what was not measured", diode("| U14 | 1 | - | |\n| U14 | 2 | | |\n| U14 | 3 | n/a | |"));
  silent("a reading within what the board expects, told by its meter", diode("| U15 | 1 | 0.530 | |"));
  silent(
    "any reading of a board nobody named, but for asking for its name",
    `---\nmendlog: 1\n^^^^^^^^^^ board-not-named: No board is named\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 1.9 |\n`,
  );
});

describe("impossible-value leaves alone", () => {
  silent("a drop just under the test voltage of a part without a window", diode("| Q1 | 1 | 2.79 | |"));
  silent("a bound above the test voltage", diode("| Q1 | 1 | >3 | |"));
  silent(
    "negative rails",
    log(
      "## Supply rails\n\n| Rail | DC |\n|-|-|\n| -12V | -12.10 |\n\n## Supply rails, loaded\n\n| Rail | DC |\n|-|-|\n| -12 | \u221212.00 V |\n",
    ),
  );
  silent("a list mark in front of a number", diode("| Q1 | 1 | - | |"));
  silent("zero", diode("| U14 | 7 | 0 | |"));
});

describe("wrong-unit leaves alone", () => {
  silent(
    "every way to write the unit",
    diode("| U14 | 1 | 580mV | |\n| U14 | 2 | 0.58V | |\n| U14 | 3 | .58 volts | |"),
  );
  silent(
    "millivolts said in the header",
    log("## Diode check\n\n| Ref | Pin | Reading (mV) |\n|-|-|-|\n| U14 | 1 | 580 |\n"),
  );
  silent("a resistor in letters", log("## Resistance\n\n| Ref | Reading |\n|-|-|\n| R1 | 9k98 |\n"));
  silent(
    "each measure of a capacitor in its own unit",
    log("## Capacitance and ESR\n\n| Ref | Capacitance | ESR |\n|-|-|-|\n| BT1 | 980 uF | 0.05 |\n"),
  );
});

describe("unreadable-value leaves alone", () => {
  silent(
    "what people write for open, short and not sure",
    diode("| Q1 | 1 | o.l. | |\n| Q1 | 2 | >2 | |\n| Q1 | 3 | ~0.6 | |\n| U14 | 7 | short | |"),
  );
  silent("words in a note", diode("| U14 | 1 | 0.58 | O.58? no, 0.58 |"));
  silent(
    "results with a remark behind",
    log(
      "## Inspection\n\n| Item | Result |\n|-|-|\n| Edge | stained, cleaned off |\n| J1 | ok (resoldered) |\n",
    ),
  );
});

describe("duplicate-reading leaves alone", () => {
  silent(
    "the same pin before and after repair",
    log(
      "## Diode check before repair\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 0.58 |\n\n## Diode check after repair\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 0.57 |\n",
    ),
  );
  silent(
    "the same pin under headings that say what differs",
    log(
      "## Diode check, cold\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 0.58 |\n\n## Diode check, warm\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 0.57 |\n",
    ),
  );
  silent(
    "the same pin in two procedures",
    log(
      "## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 0.58 |\n\n## Logic levels\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 3.4 |\n",
    ),
  );
  silent("a pin not measured the first time", diode("| U14 | 1 | - | |\n| U14 | 1 | 0.58 | |"));
  silent(
    "one pin of two chips",
    log("## Diode check\n\n| Pin | U14 | U15 |\n|-|-|-|\n| 2 | 0.58 | 0.57 |\n"),
  );
  silent(
    "a rail followed over time",
    log(
      "## Soak\n\n| After | Rail | DC | Result |\n|-|-|-|-|\n| 1 min | +5V | 5.020 | ok |\n| 60 min | +5V | 5.010 | ok |\n",
    ),
  );
  silent(
    "one rail's voltage and ripple",
    log("## Supply rails\n\n| Rail | DC | Ripple |\n|-|-|-|\n| +5V | 5.020 | 12 mV |\n"),
  );
});

describe("unknown-designator leaves alone", () => {
  silent(
    "a designator in small letters or with its device",
    diode("| u14 (74LS04) | 1 | 0.58 | |\n| U14/15 strap | 2 | 0.58 | |"),
  );
  silent(
    "designators in notes and sentences",
    log(
      "U99 is on the other board.\n\n## Diode check\n\n| Ref | Pin | Reading | Note |\n|-|-|-|-|\n| U14 | 1 | 0.58 | like U99 |\n",
    ),
  );
  silent(
    "a place in words",
    log("## Inspection\n\n| Item | Where | Result |\n|-|-|-|\n| Joints | whole header row | ok |\n"),
  );
  silent(
    "a table of a heading that is no procedure",
    log("## Letters\n\n| Date | From |\n|-|-|\n| U99 | owner |\n"),
  );
});

describe("pin-outside-package leaves alone", () => {
  silent(
    "pins by name, with a word, with zeros",
    diode(
      "| U14 | VCC | 0.31 | |\n| U14 | pin 1 | 0.58 | |\n| U14 | 02 | 0.58 | |\n| U14 | 7 (GND) | 0.001 | |",
    ),
  );
  silent(
    "the empty cells of a wide table below the smaller chip",
    log(
      "## Diode check\n\n| Pin | U14 | U18 |\n|-|-|-|\n| 14 | 0.31 | - |\n| 15 | - | - |\n| 16 |   |   |\n",
    ),
  );
  silent("connectors, which have the pins they have", diode("| J1 | 44 | 0.5 | |\n| J1 | A12 | 0.5 | |"));
});

describe("rail-out-of-tolerance leaves alone", () => {
  silent(
    "rails by any of their names",
    log(
      "## Supply rails\n\n| Rail | DC |\n|-|-|\n| TP1 | 5.020 |\n\n## Supply rails, loaded\n\n| Rail | DC |\n|-|-|\n| 5 v | 4.980 |\n| -12 | -11.90 |\n",
    ),
  );
  silent("a current", log("## Supply rails\n\n| Rail | DC | Current |\n|-|-|-|\n| +5V | 5.020 | 1.8 A |\n"));
  silent(
    "rails that the board file does not have",
    log(
      "## Supply rails\n\n<!-- mendlog-allow not-in-board-file: not ours -->\n\n| Rail | DC |\n|-|-|\n| +9V raw | 11.3 |\n",
    ),
  );
});

describe("outside-expected leaves alone", () => {
  silent(
    "a reading with the leads reversed",
    log("## Resistance to ground\n\n| Rail | Reading | Reversed |\n|-|-|-|\n| +5V | 118.0 | 21 |\n"),
  );
  silent(
    "a place the board file says nothing of",
    log("## Resistance to ground\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 2 |\n"),
  );
});

describe("unknown-heading and section-not-read leave alone", () => {
  silent(
    "tables of something else",
    log("## Parts on order\n\n| Part | From | Price |\n|-|-|-|\n| 74LS04 | shelf | 0.65 |\n"),
  );
  silent("headings without a table", log("## Diod chekc\n\nTomorrow.\n"));
  silent(
    "headings around a procedure's name",
    log(
      "## 3. Lane 3: diode check (U14, second try)\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1 | 0.58 |\n",
    ),
  );
  silent("a long section", log(`## Notes\n\n${"A sentence of no consequence. ".repeat(3_000)}\n`));
});

describe("almost-a-table leaves alone", () => {
  silent(
    "pipes in prose, in code and in a list",
    log("A pipe | in prose.\n\n`| a | b |`\n\n- a | b\n- c | d\n\n```\n| a | b |\n|---|\n```\n"),
  );
  silent(
    "a table with rows of any length",
    log("## Diode check\n\n| Ref | Pin | Reading |\n|:--|:-:|--:|\n| U14 | 1 |\n| U14 | 2 | 0.58 | | |\n"),
  );
});

describe("the front matter's checks leave alone", () => {
  silent("fields of one's own", log("", "x-shelf: 4\nserial: 0017\n"));
  silent("the same day for coming and going", log("", "received: 2026-03-02\nreturned: 2026-03-02\n"));
  silent(
    "dates in headings in order, and other numbers",
    log("## 2026-03-02 Notes\n\n## 2026-03-02 More\n\n## Part 2026-01\n", "received: 2026-03-02\n"),
  );
  silent("a log without a board and a meter", "---\nmendlog: 1\njob: 3\n---\n\n# Notes\n");
  silent("fields still empty", "---\nmendlog: 1\nboard:\nmeter:\nstage:\n---\n");
  silent("a stage that asks for nothing", log("", "stage: received\n"));
  silent("a scrapped board without proof of anything", log("", "stage: scrapped\n"));
});

describe("replaced-not-retested leaves alone", () => {
  silent(
    "a part read again further down",
    log(
      "## Work\n\n| Ref | Action |\n|-|-|\n| U14 | replaced |\n\n## Logic states\n\n| Ref | Pin | State |\n|-|-|-|\n| U14 | 1 | H |\n",
    ),
  );
  silent(
    "a part read again in a wide table, in small letters",
    log(
      "## Work\n\n| Ref | Action |\n|-|-|\n| U14 | replaced |\n\n## Diode check after repair\n\n| Pin | u14 (new) |\n|-|-|\n| 1 | 0.58 |\n",
    ),
  );
  silent(
    "what was only cleaned, socketed or reflowed",
    log("## Work\n\n| Ref | Action |\n|-|-|\n| U14 | socket |\n| J1 | reflow |\n| BT1 | remove |\n"),
  );
});

describe("matrix checks leave alone", () => {
  const full =
    "| Row / column | 1 | 2 | 3 |\n|-|-|-|-|\n| 1 | ok | ok | ok |\n| 2 | ok | ok | ok |\n| 3 | ok | ok | - |\n";
  const sw = (body: string, front = "") => `---\nmendlog: 1\nboard: example\n${front}---\n\n${body}`;

  silent("a grid that is still empty", sw(`## Switch matrix\n\n${full.replaceAll("ok", "  ")}`));
  silent("a matrix nobody has tested yet", sw("## Notes\n\nNothing yet.\n", "stage: diagnosing\n"));
  silent("a lamp matrix the board does not have, all of it working", sw(`## Lamp matrix\n\n${full}`));
  silent("a log without a board", `---\nmendlog: 1\n---\n\n## Switch matrix\n\n${full}`);
  silent(
    "a fault that was there before the repair and answers after it",
    sw(
      `## Switch matrix\n\n${full.replace("| 2 | ok | ok | ok |", "| 2 | dead | stuck | closes 1,3 too |")}\n## Work done\n\n| Ref | Action |\n|-|-|\n| U14 | clean |\n\n## Switch matrix after repair\n\n${full}`,
    ),
  );
  silent(
    "one closure more that shows what it should",
    sw(`## Switch matrix\n\n${full}\n| Switch | Result |\n|-|-|\n| 1,1 + 1,2 | ok |\n`),
  );
  silent(
    "a part replaced on a row alone",
    sw(
      "## Work done\n\n| Ref | Action |\n|-|-|\n| U30 | replaced |\n\n## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U30 | 1 | 0.58 |\n",
    ),
  );
  silent(
    "a crossing the log names for the owner",
    sw(
      `Owner to clear the start button, row 1 column 2.\n\n## Diode check before repair\n\n<!-- mendlog-allow diode-out-of-window: replaced -->\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U30 | 1 | 1.42 |\n| U31 | 2 | OL |\n\n## Work done\n\n| Ref | Action |\n|-|-|\n| U14 | clean |\n`,
      "stage: proving\n",
    ),
  );
});

describe("memory, ROM, settings and date checks leave alone", () => {
  const on = (body: string, front = "") => `---\nmendlog: 1\nboard: example\n${front}---\n\n${body}`;
  silent(
    "a test that failed without a word of where",
    on("## Memory test\n\n| Ref | Result |\n|-|-|\n| U32 | fail |\n"),
  );
  silent(
    "what read back as written",
    on(
      "## Memory test\n\n| Address | Wrote | Read | Result |\n|-|-|-|-|\n| 0000 | 55 | 0x55 | ok |\n| 0001 | AA | AAh | ok |\n",
    ),
  );
  silent(
    "one position of a set, by its sum alone",
    on("## ROM check\n\n| Ref | Sum |\n|-|-|\n| U34 | 70D5 |\n"),
  );
  silent("an 8-bit sum that is the low byte", on("## ROM check\n\n| Ref | Sum |\n|-|-|\n| U34 | d5 |\n"));
  silent(
    "a figure that is noted later",
    on("## ROM check\n\n| Ref | CRC-32 | Sum |\n|-|-|-|\n| U34 | - | |\n"),
  );
  silent(
    "a mixed set that was put right",
    on(
      "## ROM check before repair\n\n| Ref | CRC-32 |\n|-|-|\n| U34 | 9d1f4c72 |\n| U35 | e27b5609 |\n\n## ROM check after repair\n\n| Ref | CRC-32 |\n|-|-|\n| U35 | 37ea80c5 |\n",
      "rom-set: second\n",
    ),
  );
  silent("half a setting", on("## Settings\n\n| Bank | 1 | 2 | 3 |\n|-|-|-|-|\n| SW1 | on | - | up |\n"));
  silent(
    "the technician's own words beside a switch",
    on("## Settings\n\n| Bank | Switch | State | Meaning |\n|-|-|-|-|\n| SW1 | 3 | on | loud |\n"),
  );
  silent(
    "chip numbers shaped like date codes",
    on("## Inspection\n\n| Item | Result | Note |\n|-|-|-|\n| Chips | ok | a 7404 and a 7486 |\n"),
  );
  silent(
    "codes of the board's years",
    on(
      "## Inspection\n\n| Item | Result | Note |\n|-|-|-|\n| Date codes | 7748 | 7931, 83.52 |\n",
      "received: 2026-03-02\n",
    ),
  );
});

describe("suppressions that work are not reported", () => {
  silent(
    "one of a finding in its section",
    diode("| U14 | 1 | 1.42 | |\n\n<!-- mendlog-allow diode-out-of-window: seen on every one -->"),
  );
  silent(
    "one above the headings for the front matter",
    log("<!-- mendlog-allow unknown-meter -->\n\n# Notes\n").replace("meter: bench", "meter: borrowed"),
  );
});

describe("knowledge files are left alone", () => {
  silent(
    "with two boards of two ids and quantities in any form",
    `${BOARD}//- second.board.yaml
mendlog-board: 1
id: second
title: Second
rails:
  "+5V": { nominal: "5V", tolerance: 0.25 V }
parts:
  R1: { value: 4R7 }
  U1: { device: SN74LS04N }
`,
  );
});
