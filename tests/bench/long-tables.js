// Logs of one long table each, by kind of table. Each row has a figure with two places behind its point, to be typed over.

const head = (heading, columns, board = "whole") =>
  `---\nmendlog: 1\nboard: ${board}\n---\n\n# Long\n\n## ${heading}\n\n| ${columns.join(" | ")} |\n|${columns.map(() => "---|").join("")}\n`;
const line = (cells) => `| ${cells.join(" | ")} |\n`;
const drop = (i) => (i % 14 === 6 ? "0.001" : `0.5${10 + ((i * 7) % 60)}`);
const volts = (i) => (i % 14 === 13 ? `5.0${i % 10}` : `${i % 3 ? 4 : 0}.1${10 + ((i * 7) % 60)}`);
const chip = (i) => `U${1 + Math.floor(i / 14)}`;
const firstOnly = (i) => (i % 14 === 0 ? chip(i) : "  ");
const upTo = (count, make) => Array.from({ length: count }, (_, i) => make(i));

/** Kind, heading, columns, the cells of a row. */
const KINDS = [
  [
    "voltages, chip after chip",
    "Logic levels",
    ["Ref", "Pin", "Reading"],
    (i) => [firstOnly(i), 1 + (i % 14), volts(i)],
  ],
  [
    "states, chip after chip",
    "Logic states",
    ["Ref", "Pin", "State", "Note"],
    (i) => [firstOnly(i), 1 + (i % 14), "HLPL"[(i * 7) % 4], `seen 0.5${10 + (i % 90)}`],
  ],
  [
    "ohms to ground",
    "Resistance to ground",
    ["Ref", "Pin", "Reading"],
    (i) => [firstOnly(i), 1 + (i % 14), `${1 + (i % 40)}0.5${10 + ((i * 7) % 60)}k`],
  ],
  [
    "drops and volts beside each other",
    "Bench sheet",
    ["Ref", "Pin", "Drop", "Volts"],
    (i) => [firstOnly(i), 1 + (i % 14), drop(i), volts(i)],
  ],
  ["one chip in the heading", "Diode check U5 (7404)", ["Pin", "Reading"], (i) => [1 + (i % 14), drop(i)]],
  [
    "one number in the heading",
    "Diode check, all of them 7404",
    ["Ref", "Pin", "Reading"],
    (i) => [firstOnly(i), 1 + (i % 14), drop(i)],
  ],
  [
    "work",
    "Work",
    ["Ref", "Action", "Part", "Note"],
    (i) => [
      `U${1 + (i % 700)}`,
      ["replaced", "reflowed", "socketed", "cleaned"][i % 4],
      i % 4 ? "" : "7404",
      `took 0.5${10 + (i % 90)} h`,
    ],
  ],
  [
    "swaps",
    "Swap test",
    ["Ref", "Part", "Result", "Note"],
    (i) => [`U${1 + (i % 700)}`, "7404", i % 9 ? "same" : "better", `after 0.5${10 + (i % 90)} h`],
  ],
  [
    "parts fitted",
    "Parts fitted",
    ["Ref", "Part", "Qty", "Note"],
    (i) => [`U${1 + (i % 700)}`, "7404", 1, `bag 0.5${10 + (i % 90)}`],
  ],
  [
    "parts on board",
    "Parts on board",
    ["Ref", "Part", "Value"],
    (i) => [`R${1 + i}`, "resistor", `0.5${10 + (i % 90)}k`],
  ],
  [
    "rails",
    "Supply rails",
    ["Rail", "Reading", "Note"],
    (i) => [["+5V", "+12V", "-5V"][i % 3], ["5.0", "12.0", "-5.0"][i % 3] + (10 + (i % 90)), ""],
  ],
  [
    "resistors",
    "Resistance",
    ["Ref", "Reading", "Expected"],
    (i) => [`R${1 + i}`, `4.5${10 + (i % 90)}k`, "4k7"],
  ],
  [
    "continuity",
    "Continuity",
    ["From", "To", "Reading"],
    (i) => [`U${1 + (i % 700)}.2`, `U${2 + (i % 700)}.1`, `0.5${10 + (i % 90)}`],
  ],
  [
    "inspection",
    "Inspection",
    ["Item", "Ref", "Result", "Note"],
    (i) => ["Joint", `U${1 + (i % 700)}`, i % 9 ? "good" : "cracked", `page 0.5${10 + (i % 90)}`],
  ],
  [
    "soak",
    "Soak",
    ["After", "Rail", "Reading", "Result"],
    (i) => [`${i} min`, "+5V", `5.0${10 + (i % 90)}`, "works"],
  ],
  [
    "under no heading known",
    "Thoughts",
    ["What", "Who", "How"],
    (i) => ["thing", "somebody", `0.5${10 + (i % 90)}`],
  ],
  [
    "wide, 6 chips",
    "Diode check",
    ["Pin", ...upTo(6, (at) => `U${at + 1}`)],
    (i) => [1 + (i % 14), ...upTo(6, (at) => drop(i + at * 3))],
  ],
  [
    "wide, 6 chips, levels",
    "Logic levels",
    ["Pin", ...upTo(6, (at) => `U${at + 1}`)],
    (i) => [1 + (i % 14), ...upTo(6, (at) => volts(i + at * 3))],
  ],
  [
    "two sides of a chip",
    "Diode check U5 (7404)",
    ["Pin", "Reading", "Pin", "Reading"],
    (i) => [1 + (i % 7), drop(i), 14 - (i % 7), drop(i + 3)],
  ],
  [
    "turned, pins across",
    "Diode check",
    ["Ref", ...upTo(14, (at) => at + 1)],
    (i) => [`U${1 + (i % 700)}`, ...upTo(14, (at) => drop(i + at * 3))],
  ],
  [
    "turned, times of one chip",
    "Diode check U5 (7404)",
    ["When", ...upTo(14, (at) => at + 1)],
    (i) => [`read ${i}`, ...upTo(14, (at) => drop(i + at * 3))],
  ],
  [
    "turned, rails across",
    "Supply rails",
    ["When", "+5V", "+12V", "-5V"],
    (i) => [`after ${i} min`, `5.0${10 + (i % 90)}`, `12.0${10 + (i % 90)}`, `-5.0${10 + (i % 90)}`],
  ],
];

/** By name: makes a log with so many rows. */
export const BY_KIND = [
  ...KINDS.map(([name, heading, columns, row]) => [
    name,
    (rows) => head(heading, columns) + upTo(rows, (i) => line(row(i))).join(""),
  ]),
  // As many cells as rows are asked for, in two dozen rows.
  [
    "wide, a column a chip",
    (cells) => {
      const chips = Math.max(2, Math.round(cells / 24));
      return (
        head("Diode check", ["Pin", ...upTo(chips, (at) => `U${at + 1}`)]) +
        upTo(24, (pin) => line([pin + 1, ...upTo(chips, (at) => drop(pin + at * 3))])).join("")
      );
    },
  ],
  [
    "switch matrix",
    (cells) => {
      const side = Math.max(3, Math.round(Math.sqrt(cells)));
      return (
        head("Switch matrix", ["Row", ...upTo(side, (at) => `C${at + 1}`)]) +
        upTo(side, (row) => line([`R${row}`, ...upTo(side, (at) => (at === row ? "0.517" : "ok"))])).join("")
      );
    },
  ],
];
