import { long, noted, rails, type Together, under, wide } from "./tables";

const G04 = "0.571 0.553 0.568 0.551 0.573 0.556 0.001 0.552 0.569 0.555 0.572 0.550 0.567 0.412";
const G138 =
  "0.566 0.568 0.567 0.565 0.569 0.566 0.541 0.001 0.543 0.542 0.544 0.540 0.545 0.541 0.543 0.408";
const G73 = "0.571 0.574 0.568 0.392 0.575 0.572 0.569 0.548 0.546 0.570 0.001 0.545 0.549 0.567";

/** Tables with one cause behind many readings. */
export const CAUSED: readonly Together[] = [
  {
    name: "every pin open, ground and supply too",
    log: long({ U5: ["7404", "OL OL OL OL OL OL OL OL OL OL OL OL OL OL"] }),
    causes: ["lead-off-ground U5"],
  },
  {
    name: "three chips open from end to end",
    log: wide({
      "U5 (7404)": "OL OL OL OL OL OL OL OL OL OL OL OL OL OL",
      "U6 (7400)": "OL OL OL OL OL OL OL OL OL OL OL OL OL OL",
      "U9 (74LS138)": "OL OL OL OL OL OL OL OL OL OL OL OL OL OL OL OL",
    }),
    causes: ["lead-off-ground U5 U6 U9"],
  },
  {
    name: "a memory that reads open but for one stray figure",
    log: under("U12 (2114)", "OL OL OL OL OL OL OL 2.31 OL OL OL OL OL OL OL OL OL OL"),
    causes: ["lead-off-ground U12"],
  },
  {
    name: "ohms to ground, all of them open",
    log: under(
      "U9 (74LS138)",
      "OL OL OL OL OL OL OL OL OL OL OL OL OL OL OL OL",
      "Reading",
      "Resistance to ground",
    ),
    causes: ["lead-off-ground U9"],
  },
  {
    name: "the lead on pin 7 of a chip whose ground is pin 11",
    log: under("U7 7473", "OL 1.92 OL 1.31 OL 1.88 0.000 1.74 OL OL 1.22 1.69 OL OL"),
    causes: ["lead-off-ground U7"],
  },
  {
    name: "the leads swapped over two chips",
    log: wide({
      "U5 (7404)": "OL 1.64 OL 1.61 OL 1.66 0.001 1.62 OL 1.63 OL 1.65 OL 1.28",
      "U6 (74LS138)": "OL OL OL OL OL OL 1.71 0.001 1.69 1.72 1.70 1.68 1.69 1.70 1.71 1.27",
    }),
    causes: ["leads-swapped U5 U6"],
  },
  {
    name: "every drop below zero",
    log: long({
      U5: ["7404", "-0.571 -0.553 -0.568 -0.551 -0.573 -0.556 -0.001 -0.552 -0.569 -0.555 -0.572 -0.550"],
    }),
    causes: ["leads-swapped U5"],
  },
  {
    name: "every rail with the other sign",
    log: rails({ "+5V": "-5.03", "+12V": "-12.1", "-12V": "11.9" }),
    causes: ["leads-swapped"],
  },
  {
    name: "counted from the other end",
    log: long({
      U5: ["7404", "0.412 0.567 0.550 0.572 0.555 0.569 0.552 0.001 0.556 0.573 0.551 0.568 0.553 0.571"],
    }),
    causes: ["pins-miscounted U5"],
    mended: long({ U5: ["7404", G04] }),
  },
  {
    name: "read from the solder side, one column of three",
    log: wide({
      "U5 (7404)": G04,
      "U9 (74LS138)":
        "0.408 0.543 0.541 0.545 0.540 0.544 0.542 0.543 0.001 0.541 0.566 0.569 0.565 0.567 0.568 0.566",
      "U6 (7404)": G04,
    }),
    causes: ["pins-miscounted U9"],
    mended: wide({ "U5 (7404)": G04, "U9 (74LS138)": G138, "U6 (7404)": G04 }),
  },
  {
    name: "a 7473 as though ground were pin 7",
    log: under(
      "U7 (7473)",
      "0.575 0.572 0.569 0.548 0.546 0.570 0.001 0.545 0.549 0.567 0.571 0.574 0.568 0.392",
    ),
    causes: ["pins-miscounted U7"],
    mended: under("U7 (7473)", G73),
  },
  {
    name: "a 7476 as though ground were pin 8",
    log: long({
      U8: [
        "7476",
        "0.571 0.569 0.574 0.572 0.553 0.551 0.570 0.001 0.552 0.554 0.568 0.571 0.573 0.575 0.570 0.401",
      ],
    }),
    causes: ["pins-miscounted U8"],
  },
  {
    name: "the chip turned round",
    log: under(
      "U12 (2114)",
      "0.582 0.579 0.584 0.580 0.577 0.581 0.585 0.583 0.311 0.586 0.582 0.579 0.580 0.584 0.578 0.583 0.581 0.002",
    ),
    causes: ["pins-miscounted U12"],
  },
  {
    name: "the second row counted downwards",
    log: under(
      "U3 (74LS244)",
      "0.561 0.563 0.544 0.562 0.541 0.560 0.543 0.564 0.542 0.001 0.302 0.562 0.541 0.563 0.544 0.561 0.540 0.562 0.543 0.565",
    ),
    causes: ["pins-miscounted U3"],
  },
  {
    name: "a pin left out, and all below it one row too high",
    log: long({
      U5: ["7404", "0.571 0.553 0.551 0.573 0.556 0.001 0.552 0.569 0.555 0.572 0.550 0.567 0.412 ."],
    }),
    causes: ["column-shifted U5"],
  },
  {
    name: "the column one row too low, its last reading beyond the chip",
    log: wide({
      "U9 (74LS138)": G138,
      "U5 (7404)": `. ${G04}`,
    }),
    causes: ["column-shifted U5"],
    mended: wide({ "U9 (74LS138)": G138, "U5 (7404)": G04 }),
  },
  {
    name: "the column one row too low, begun with the last pin",
    log: under(
      "U6 7400",
      "0.411 0.572 0.571 0.554 0.570 0.573 0.552 0.001 0.553 0.569 0.574 0.551 0.572 0.570",
    ),
    // A 7400 is the same from both ends, so that a column that went round fits as well: both are said.
    causes: ["pins-miscounted U6"],
    says: "A column one row too low would fit as well",
  },
  {
    name: "millivolts under volts",
    log: under("U5 (7404)", "571 553 568 551 573 556 1 552 569 555 572 550 567 412", "Reading (V)"),
    causes: ["wrong-scale U5"],
  },
  {
    name: "volts under millivolts",
    log: under("U5 (7404)", G04, "Reading (mV)"),
    causes: ["wrong-scale U5"],
  },
  {
    name: "0.2 on every pin",
    log: under(
      "U20 (74LS74)",
      "0.203 0.201 0.204 0.202 0.203 0.205 0.201 0.202 0.204 0.203 0.202 0.203 0.204 0.201",
    ),
    causes: ["readings-offset U20"],
  },
  {
    name: "a good chip with 0.18 V on top of everything",
    log: long({
      U5: ["7404", "0.751 0.733 0.748 0.731 0.753 0.736 0.181 0.732 0.749 0.735 0.752 0.730 0.747 0.592"],
    }),
    causes: ["readings-offset U5"],
  },
  {
    name: "all twelve signal pins open",
    log: under("U13 (7404)", "OL OL OL OL OL OL 0.001 OL OL OL OL OL OL 0.412"),
    causes: ["chip-as-a-whole U13"],
  },
  {
    name: "one dead chip between two sound ones",
    log: wide({
      "U5 (7404)": G04,
      "U13 (74LS138)": "OL OL 1.91 OL OL OL OL 0.001 OL OL 2.02 OL OL OL 0.541 0.408",
      "U6 (7404)": G04,
    }),
    causes: ["chip-as-a-whole U13"],
  },
  {
    name: "a memory with most of its pins leaking, and its supply open",
    log: under(
      "U12 (2114)",
      "0.121 0.118 0.123 0.119 0.582 0.117 0.122 0.120 0.002 0.124 0.119 0.121 0.118 0.581 0.120 0.122 0.119 OL",
    ),
    causes: ["chip-as-a-whole U12"],
    still: ["U12 pin 18"],
  },
];

/** Tables that look like one and are none. */
export const ALIKE: readonly Together[] = [
  {
    name: "three dead pins",
    log: under("U5 (7404)", "OL 0.553 0.568 OL 0.573 0.556 0.001 0.552 OL 0.555 0.572 0.550 0.567 0.412"),
  },
  {
    name: "an empty socket, by its heading",
    log: under(
      "U5 (7404)",
      "OL OL OL OL OL OL OL OL OL OL OL OL OL OL",
      "Reading",
      "Diode check with U5 out of its socket,",
    ),
  },
  {
    name: "a chip read out of its socket, by its notes",
    log: noted("7404", [
      "U5 1 OL U5 out",
      "U5 2 OL U5 out",
      "U5 3 OL U5 out",
      "U5 4 OL U5 out",
      "U5 7 OL U5 out",
      "U5 14 OL U5 out",
    ]),
  },
  {
    name: "a socket that the work left empty",
    log: `${long({ U5: ["7404", G04] })}\n## Work done\n\n| Ref | Action | Part |\n|---|---|---|\n| U5 | remove | 7404 |\n\n${under("U5 (7404), empty socket", "OL OL OL OL OL OL OL OL OL OL OL OL OL OL")}`,
  },
  {
    name: "a good chip whose pins are all alike",
    log: under(
      "U5 (7404)",
      "0.561 0.560 0.561 0.560 0.562 0.561 0.001 0.560 0.561 0.561 0.560 0.562 0.561 0.488",
    ),
  },
  { name: "two readings, both open", log: noted("7404", ["U5 1 OL", "U5 7 OL"]) },
  {
    name: "all eight inputs tied to ground",
    log: under("U4 (7430)", "0.001 0.001 0.002 0.001 0.001 0.002 0.001 0.552 . . 0.001 0.001 . 0.412"),
  },
  {
    name: "all eight inputs tied to the supply",
    log: under("U4 (7430)", "0.301 0.302 0.301 0.301 0.302 0.301 0.001 0.552 . . 0.301 0.302 . 0.301"),
  },
  {
    name: "a lifted ground pin",
    log: under(
      "U5 (7404)",
      "0.571 0.553 0.568 0.551 0.573 0.556 0.581 0.552 0.569 0.555 0.572 0.550 0.567 0.412",
    ),
  },
  { name: "a 7473 read as it is", log: under("U7 (7473)", G73) },
  {
    name: "pins left blank here and there",
    log: long({ U5: ["7404", "0.571 . 0.568 . 0.573 . 0.001 . 0.569 . 0.572 . 0.567 0.412"] }),
  },
  {
    name: "one side of a bus low together",
    log: under(
      "U3 (74LS245)",
      "0.561 0.203 0.201 0.202 0.204 0.203 0.202 0.201 0.203 0.001 0.544 0.543 0.545 0.541 0.544 0.542 0.543 0.545 0.562 0.388",
    ),
  },
  {
    name: "a connector with nothing plugged in",
    log: noted("header", [
      "J3 1 OL",
      "J3 2 OL",
      "J3 3 OL",
      "J3 4 OL",
      "J3 5 OL",
      "J3 6 OL",
      "J3 7 OL",
      "J3 8 OL",
    ]),
  },
  {
    name: "whole millivolts without a unit",
    log: under("U5 (7404)", "571 553 568 551 573 556 1 552 569 555 572 550 567 412"),
  },
  {
    name: "an open supply pin",
    log: under(
      "U5 (7404)",
      "0.571 0.553 0.568 0.551 0.573 0.556 0.001 0.552 0.569 0.555 0.572 0.550 0.567 OL",
    ),
  },
  {
    name: "a CMOS switch in order",
    log: under(
      "U2 (4016)",
      "0.642 0.655 0.651 0.648 0.661 0.639 0.001 0.652 0.650 0.647 0.654 0.645 0.660 0.512",
    ),
  },
  {
    name: "rails of both signs in order",
    log: rails({ "+5V": "5.03", "-5V": "-5.02", "+12V": "12.1", "-12V": "-11.9" }),
  },
  {
    name: "four shorted pins",
    log: under(
      "U5 (7404)",
      "0.002 0.553 0.003 0.551 0.001 0.556 0.001 0.552 0.002 0.555 0.572 0.550 0.567 0.412",
    ),
  },
  {
    name: "four chips with a fault each",
    log: wide({
      "U5 (7404)": G04.replace("0.568", "OL"),
      "U6 (7404)": G04.replace("0.552", "0.002"),
      "U7 (7473)": G73.replace("0.574", "0.19"),
      "U9 (74LS138)": G138.replace("0.541", "1.6"),
    }),
  },
  {
    name: "a chip that nobody knows",
    log: under(
      "U5 (XQ9917)",
      "0.571 0.553 0.568 0.551 0.573 0.556 0.001 0.552 0.569 0.555 0.572 0.550 0.567 0.412",
    ),
  },
  {
    name: "a 7475 as it is",
    log: under(
      "U8 (7475)",
      "0.552 0.571 0.569 0.573 0.401 0.570 0.572 0.551 0.553 0.550 0.554 0.001 0.571 0.552 0.550 0.551",
    ),
  },
  {
    name: "all a little above the usual",
    log: under(
      "U9 (74LS138)",
      "0.731 0.728 0.733 0.729 0.735 0.730 0.712 0.001 0.714 0.711 0.716 0.713 0.715 0.712 0.714 0.498",
    ),
  },
  {
    name: "a shorted supply",
    log: under(
      "U5 (7404)",
      "0.471 0.453 0.468 0.451 0.473 0.456 0.001 0.452 0.469 0.455 0.472 0.450 0.467 0.004",
    ),
  },
  {
    name: "only the signal pins, all in order",
    log: noted("7404", ["U5 1 0.571", "U5 2 0.553", "U5 3 0.568", "U5 4 0.551", "U5 5 0.573", "U5 6 0.556"]),
  },
].map((one) => ({ ...one, causes: [] }));
