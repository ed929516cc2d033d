// Written after the first set was in order.
import { long, noted, rails, type Together, under, wide } from "./tables";

const G00 = "0.572 0.571 0.554 0.570 0.573 0.552 0.001 0.553 0.569 0.574 0.551 0.572 0.570 0.411";
const G74 = "0.574 0.571 0.573 0.575 0.549 0.547 0.002 0.548 0.550 0.572 0.574 0.570 0.573 0.395";
const G193 =
  "0.566 0.543 0.541 0.568 0.567 0.544 0.542 0.001 0.565 0.569 0.566 0.540 0.543 0.567 0.568 0.352";

export const MORE_CAUSED: readonly Together[] = [
  {
    name: "a processor's socket with the lead hanging loose",
    log: under("U1 (6802)", Array.from({ length: 40 }, () => "OL").join(" ")),
    causes: ["lead-off-ground U1"],
  },
  {
    name: "two chips of four open from end to end, the others in order",
    log: wide({
      "U5 (7400)": G00,
      "U6 (7474)": "OL OL OL OL OL OL OL OL OL OL OL OL OL OL",
      "U7 (7474)": G74,
      "U8 (7400)": "OL OL OL OL OL OL OL OL OL OL OL OL OL OL",
    }),
    causes: ["lead-off-ground U6 U8"],
  },
  {
    name: "rails of both signs, leads swapped",
    log: rails({ "+5V": "-4.98", "-5V": "5.03", "+24V": "-24.6" }),
    causes: ["leads-swapped"],
  },
  {
    name: "CMOS with the leads swapped",
    log: long({
      U2: ["4016", "1.21 1.19 1.22 1.20 1.23 1.21 0.001 1.22 1.20 1.19 1.21 1.22 1.20 0.81"],
      U3: ["4049", "0.82 1.21 1.20 1.19 1.22 1.21 1.20 0.001 1.21 1.22 1.20 1.19 OL 1.21 1.22 OL"],
    }),
    causes: ["leads-swapped U2 U3"],
  },
  {
    name: "a 7490 as though ground were pin 7",
    log: under(
      "U11 (7490)",
      "0.551 0.318 0.570 0.552 0.571 0.554 0.001 0.569 0.572 0.570 0.573 0.571 0.570 0.572",
      "Reading",
    ),
    // Ground is pin 10 and the supply pin 5: as counted, pin 7 was 10 and pin 2 was 5.
    causes: ["pins-miscounted U11"],
  },
  {
    name: "a 16-pin counter turned round in a table of two",
    log: long({
      U20: ["74193", G193],
      U21: [
        "74193",
        "0.565 0.569 0.566 0.540 0.543 0.567 0.568 0.352 0.566 0.543 0.541 0.568 0.567 0.544 0.542 0.001",
      ],
    }),
    causes: ["pins-miscounted U21"],
    mended: long({ U20: ["74193", G193], U21: ["74193", G193] }),
  },
  {
    name: "a pin left out in a column of three",
    log: wide({
      "U5 (7400)": G00,
      "U7 (7474)": "0.574 0.571 0.573 0.549 0.547 0.002 0.548 0.550 0.572 0.574 0.570 0.573 0.295 .",
      "U8 (7400)": G00,
    }),
    causes: ["column-shifted U7"],
  },
  {
    name: "a pin read twice, so that the last was not read at all",
    log: under(
      "U5 (7400)",
      "0.572 0.571 0.554 0.554 0.570 0.573 0.552 0.001 0.553 0.569 0.574 0.551 0.572 0.570",
    ),
    causes: ["column-shifted U5"],
  },
  {
    name: "a pin of a short chip read twice beside a longer one, whose rows stay blank below it",
    log: wide({
      "U20 (74193)": G193,
      "U5 (7400)": "0.572 0.571 0.554 0.554 0.570 0.573 0.552 0.001 0.553 0.569 0.574 0.551 0.572 0.570 . .",
    }),
    causes: ["column-shifted U5"],
  },
  {
    name: "millivolts with a V behind them, some in volts",
    log: under(
      "U5 (7400)",
      "572 V 571 V".replace(/ V/g, "V") + " 0.554 570V 573V 552V 1V 553V 569V 0.574 551V 572V 570V 411V",
    ),
    causes: ["wrong-scale U5"],
  },
  {
    name: "the leads touching each other",
    log: under(
      "U7 7474",
      "0.001 0.001 0.001 0.002 0.001 0.001 0.001 0.002 0.001 0.001 0.001 0.001 0.002 0.001",
    ),
    causes: ["readings-offset U7"],
  },
  {
    name: "a PIA that is dead",
    log: under(
      "U10 (6821)",
      "0.001 OL OL OL OL 2.3 OL OL OL OL OL OL OL 2.1 OL OL OL OL OL 0.36 OL OL OL OL OL OL OL 0.61 OL OL OL OL OL OL OL OL OL OL OL OL",
    ),
    causes: ["chip-as-a-whole U10"],
  },
  {
    name: "a dead chip by its signal pins alone",
    log: noted("7474", [
      "U7 1 OL",
      "U7 2 OL",
      "U7 3 OL",
      "U7 4 OL",
      "U7 5 OL",
      "U7 6 OL",
      "U7 8 OL",
      "U7 9 OL",
    ]),
    causes: ["chip-as-a-whole U7"],
  },
];

export const MORE_ALIKE: readonly Together[] = [
  {
    name: "a 7490 as it is",
    log: under("U11 (7490)", "0.570 0.569 0.572 OL 0.368 0.571 0.573 0.551 0.553 0.001 0.552 0.554 OL 0.570"),
  },
  {
    name: "a 7483 as it is",
    log: under(
      "U4 (7483)",
      "0.571 0.552 0.570 0.572 0.361 0.551 0.569 0.570 0.553 0.571 0.572 0.001 0.570 0.550 0.552 0.571",
    ),
  },
  {
    name: "a 4049 as it is, with its supply at pin 1",
    log: under(
      "U3 (4049)",
      "0.421 0.652 0.648 0.655 0.651 0.650 0.649 0.001 0.653 0.648 0.652 0.655 OL 0.650 0.651 OL",
    ),
  },
  {
    name: "a 2114 with two dead outputs and a dead select",
    log: under(
      "U12 (2114)",
      "0.582 0.579 0.584 0.580 0.577 0.581 0.585 OL 0.002 0.586 0.582 OL OL 0.584 0.578 0.583 0.581 0.311",
    ),
  },
  {
    name: "a gate with both inputs tied and its output shorted",
    log: under(
      "U5 (7400)",
      "0.001 0.001 0.002 0.570 0.573 0.552 0.001 0.553 0.569 0.574 0.551 0.572 0.570 0.411",
    ),
  },
  {
    name: "an unconnected socket's note on each row",
    log: noted("7474", [
      "U7 1 OL socket empty",
      "U7 2 OL socket empty",
      "U7 3 OL socket empty",
      "U7 4 OL socket empty",
      "U7 5 OL socket empty",
      "U7 7 OL socket empty",
      "U7 14 OL socket empty",
    ]),
  },
  {
    name: "seven of fourteen read so far",
    log: under("U5 (7400)", "0.572 0.571 0.554 0.570 0.573 0.552 0.001 . . . . . . ."),
  },
  {
    name: "a lifted ground and a shorted pin beside it, the supply where it belongs",
    log: under(
      "U5 (7400)",
      "0.572 0.571 0.554 0.570 0.573 0.552 0.581 0.001 0.569 0.574 0.551 0.572 0.570 0.411",
    ),
  },
  {
    name: "the same beside a longer chip, whose rows stay blank below it",
    log: wide({
      "U20 (74193)": G193,
      "U5 (7400)": "0.572 0.571 0.554 0.570 0.573 0.552 0.581 0.001 0.569 0.574 0.551 0.572 0.570 0.411 . .",
    }),
  },
  { name: "one rail with the wrong sign", log: rails({ "+5V": "-5.02", "+12V": "12.1" }) },
  { name: "rails that are off", log: rails({ "+5V": "0.00", "+12V": "0.01", "-12V": "0.00" }) },
  {
    name: "ohms to ground, the signal pins open",
    log: under("U7 (7474)", "OL OL OL OL OL OL 0.2 OL OL OL OL OL OL 410", "Reading", "Resistance to ground"),
  },
  {
    name: "a shorted output beside a lifted ground",
    log: under(
      "U5 (7400)",
      "0.572 0.571 0.002 0.570 0.573 0.552 0.581 0.553 0.569 0.574 0.551 0.572 0.570 0.411",
    ),
  },
].map((one) => ({ ...one, causes: [] }));
