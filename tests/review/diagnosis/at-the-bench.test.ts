// What went wrong at the bench or lies in the machine, as words and odd tables tell it, each beside what only looks so.
import { describe, expect, test } from "vitest";
import { suspectName } from "../../../server/src/compute/diagnosis/suspects";
import { boardHead } from "../../support/boards";
import { diagnosedInDemo, diagnosedOn } from "../../support/diagnosed";

const BOARD = `${boardHead()}grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, load: 1 A, net: VCC, source: invented }
  "+12V": { nominal: 12 V, tolerance: 5 %, load: 1 A, net: V12, source: invented }
parts:
  U1: { device: 74LS138 }
  U2: { device: "7406", socketed: true }
  R1: { value: 1k }
  C1: { value: 27 pF }
  Q1: { device: 2N3904 }
  SW1: { value: 2-way DIP switch }
switch-banks:
  SW1:
    settings:
      - { title: Balls in a game, switches: [1], meaning: { "0": "3", "1": "5" } }
nets:
  GND: [U1.8, U2.7, C1.2, Q1.1]
  VCC: [U1.16, U2.14, R1.1]
  V12: [R1.2]
  BASE: [U2.6, Q1.2]
  SET: [U2.9, SW1.1]
`;

const table = (heading: string, columns: string, ...rows: readonly string[]): string =>
  `## ${heading}\n\n| ${columns} |\n|${columns.replace(/[^|]+/g, "---")}|\n${rows.map((row) => `| ${row} |\n`).join("")}\n`;

/** Kinds of what was found, signs by their own name, and the first suspect. */
async function found(...body: readonly string[]) {
  const { findings, result } = await diagnosedOn(BOARD, body.join("\n"));
  const [first] = result.ranked;
  return {
    kinds: findings.map(({ finding }) => (finding.kind === "sign" ? finding.sign : finding.kind)),
    mistakes: findings.flatMap(({ finding }) => (finding.kind === "table" ? finding.mistake : [])),
    first: first && suspectName(first.suspect),
  };
}

describe("voltages of which none is above nothing", () => {
  const levels = (...volts: readonly string[]): string =>
    table("Pin voltages", "Pin | U1", ...[1, 4, 6, 8, 15, 16].map((pin, i) => `${pin} | ${volts[i]}`));

  test("with ground among them a fifth of a volt up: the lead, whoever read the rails", async () => {
    const { mistakes } = await found(levels("0.21", "0.20", "0.22", "0.19", "0.21", "0.22"));
    expect(mistakes).toEqual(["the lead was off ground"]);
  });

  test("with ground at nothing: a board without power shows that", async () => {
    const { mistakes } = await found(levels("0.21", "0.20", "0.22", "0.00", "0.21", "0.22"));
    expect(mistakes).toEqual([]);
  });
});

describe("rails that read their ripple", () => {
  const rails = (remark: string): string =>
    table("Supply rails", "Rail | Reading | Remark", `+5V | 0.01 | ${remark}`, "+12V | 0.4 | ");

  test("while a remark says that it runs", async () => {
    expect((await found(rails("LED1 flashes, though"))).kinds).toEqual(["table"]);
  });

  test("while nobody says so", async () => {
    expect((await found(rails("LED1 dark"))).kinds).not.toContain("table");
  });
});

test("one swing at every place, ground among them: what a lead hears that has no ground", async () => {
  const swings = (ground: string): string =>
    table(
      "Frequencies",
      "Chip | Pin | Reading | Swing",
      ...["1 | 50 Hz | 1.3 V", "4 | 50 Hz | 1.3 V", "15 | 50 Hz | 1.2 V", `8 | ${ground}`].map(
        (row) => `U1 | ${row}`,
      ),
    );
  expect((await found(swings("50 Hz | 1.3 V"))).mistakes).toEqual(["the lead was off ground"]);
  expect((await found(swings("50 Hz | 0.01 V"))).mistakes).toEqual([]);
});

test("a chip at nothing with its driven inputs, beside one that reads right; an unfed one still shows what drives it", async () => {
  const board = BOARD.replace("parts:", "parts:\n  U3: { device: 74LS04 }").replace(
    "U1.16,",
    "U1.16, U3.14,",
  );
  const volts = (input: string): string =>
    table("Supply rails", "Rail | Reading", "+5V | 5.02") +
    table(
      "Pin voltages",
      "Chip | Pin | Reading",
      ...[
        "U1 | 16 | 5.01",
        "U1 | 15 | 3.6",
        "U3 | 14 | 0.02",
        `U3 | 1 | ${input}`,
        "U3 | 3 | 0.01",
        "U3 | 5 | 0.03",
      ],
    );
  const told = async (input: string) =>
    (await diagnosedOn(board, volts(input))).findings.flatMap(({ finding }) =>
      finding.kind === "table" ? finding.refs : [],
    );
  expect(await told("0.02")).toEqual(["U3"]);
  expect(await told("3.5")).toEqual([]);
});

test("lines of a network that read nothing to ground, beside what does: its common leg", async () => {
  const board = BOARD.replace("parts:", 'parts:\n  RN1: { value: "4 x 10k, SIP-5, pin 1 common" }').replace(
    "GND: [",
    "LA: [RN1.2, U1.1]\n  LB: [RN1.3, U1.2]\n  LC: [RN1.4, U1.3]\n  GND: [RN1.1, ",
  );
  const ohms = (...reads: readonly string[]): string =>
    table(
      "Resistance to ground",
      "Part | Pin | Reading",
      ...reads.map((one, i) => `RN1 | ${i + 2} | ${one}`),
      "U1 | 8 | 0.2",
    );
  const told = async (...reads: readonly string[]) =>
    (await diagnosedOn(board, ohms(...reads))).result.ranked.map(({ suspect }) => suspectName(suspect))[0];
  expect(await told("OL", "OL", "OL")).toBe("the joint of RN1 pin 1");
  expect(await told("9.9k", "OL", "9.9k")).toBe("RN1");
  expect(await told("9.9k", "9.9k", "9.9k")).toBeUndefined();
});

test("five volts on ground and nothing on the supply: counted from the other corner, by few pins", async () => {
  const { mistakes } = await found(
    table("Pin voltages", "Pin | U1", "1 | 3.4", "2 | 0.14", "4 | 0.15", "8 | 5.01", "11 | 3.5", "16 | 0.00"),
  );
  expect(mistakes).toEqual(["the pins were counted from the wrong end"]);
});

test("rails in millivolts, and rails beside the wrong name", async () => {
  const rails = (...volts: readonly string[]): string =>
    table(
      "Supply rails",
      "Rail | Reading",
      ...["+5V", "+12V", "-12V", "-5V"].map((name, i) => `${name} | ${volts[i]}`),
    );
  const told = async (...volts: readonly string[]) =>
    (
      await diagnosedOn(
        BOARD.replace(
          "parts:",
          '  "-12V": { nominal: -12 V, tolerance: 5 %, source: invented }\n  "-5V": { nominal: -5 V, tolerance: 5 %, source: invented }\nparts:',
        ),
        rails(...volts),
      )
    ).findings.flatMap(({ finding }) => (finding.kind === "table" ? finding.mistake : []));
  expect(await told("5010", "12080", "-11970", "-5020")).toEqual([
    "the meter was on another range, or the unit is",
  ]);
  expect(await told("", "5.02", "12.1", "-11.9")).toEqual(["the column was shifted by a row"]);
  expect(await told("5.02", "12.1", "-11.9", "")).toEqual([]);
});

test("counts of nothing, the processor's among them", async () => {
  const board = BOARD.replace("parts:", "parts:\n  U9: { device: 6502 }");
  const counts = table("Frequencies", "Chip | Pin | Reading", "U9 | 37 | 0 Hz", "U9 | 39 | 0 Hz");
  const first = async (words: string) => {
    const { findings } = await diagnosedOn(board, `${words}\n\n${counts}`);
    return findings[0]?.finding.kind;
  };
  expect(await first("The game runs.")).toBe("table");
  expect(await first("The game is dead.")).toBe("sign");
});

describe("diodes and ranges", () => {
  const board = BOARD.replace(
    "parts:",
    `parts:\n${[1, 2, 3].map((n) => `  D${n}: { device: 1N4148 }`).join("\n")}\n${["100", "220", "22k", "33k", "47k", "68k"].map((value, i) => `  R${i + 2}: { value: ${value} }`).join("\n")}`,
  );
  const mistakes = async (body: string) =>
    (await diagnosedOn(board, body)).findings.flatMap(({ finding }) =>
      finding.kind === "table" ? finding.mistake : [],
    );
  const diodes = (forward: string, reverse: string): string =>
    table("Diodes", "Ref | Forward | Reverse", ...[1, 2, 3].map((n) => `D${n} | ${forward} | ${reverse}`));

  test("all of them the other way round", async () => {
    expect(await mistakes(diodes("OL", "0.56"))).toEqual(["the leads were reversed"]);
    expect(await mistakes(diodes("0.56", "OL"))).toEqual([]);
    // Another path beside them, longer than one junction.
    expect(await mistakes(diodes("0.79", "0.58"))).toEqual(["the leads were reversed"]);
  });

  test("transistors: all that came after a pause, by what each type shows, and one of another type", async () => {
    const parts = [1, 2, 3, 4, 5].map((n) => `  Q${n + 10}: { device: 2N3904 }`).join("\n");
    const mixed = board.replace(
      "parts:",
      `parts:\n${parts}\n  Q21: { device: TIP102 }\n  Q22: { device: TIP107 }`,
    );
    const told = async (...rows: readonly string[]) =>
      (await diagnosedOn(mixed, table("Junctions", "Ref | B-E | B-C | C-E", ...rows))).findings.flatMap(
        ({ finding }) => (finding.kind === "table" ? finding.refs : []),
      );
    const right = (ref: string): string => `${ref} | 0.67 | 0.65 | OL`;
    const back = (ref: string): string => `${ref} | OL | OL | OL`;
    expect(await told(right("Q11"), ...["Q12", "Q13", "Q14", "Q15"].map(back))).toEqual([
      "Q12",
      "Q13",
      "Q14",
      "Q15",
    ]);
    expect(await told(right("Q11"), back("Q12"), right("Q13"), right("Q14"))).toEqual([]);
    expect(
      await told("Q21 | 0.574 | OL | 0.471", "Q22 | 0.661 | 0.642 | OL", back("Q11"), back("Q12")),
    ).toHaveLength(4);
  });

  test("all resistors above one value over", async () => {
    const ohms = (...reads: readonly string[]): string =>
      table("Resistance", "Part | Reading", ...reads.map((one, i) => `R${i + 2} | ${one}`));
    expect(await mistakes(ohms("99", "221", "OL", "OL", "OL", "OL"))).toEqual([
      "the meter was on another range",
    ]);
    expect(await mistakes(ohms("99", "OL", "22.1k", "OL", "OL", "OL"))).toEqual([]);
  });
});

describe("values of parts", () => {
  test("an empty cell and a capacitor that reads open are no findings", async () => {
    expect((await found(table("Resistance", "Part | Reading", "R1 | -", "C1 | OL"))).kinds).toEqual([]);
  });

  test("a resistor that reads open is", async () => {
    expect((await found(table("Resistance", "Part | Reading", "R1 | OL"))).kinds).toEqual(["part"]);
  });
});

describe("an output that is told to pull and stands in between", () => {
  const levels = (sister: string): string =>
    table(
      "Pin voltages",
      "Pin | U2",
      "1 | 4.2",
      `2 | ${sister}`,
      "5 | 4.2",
      "6 | 1.3",
      "7 | 0.00",
      "14 | 5.01",
    );

  test("beside a sister that pulls: its gate", async () => {
    expect((await found(levels("0.14"))).kinds).toContain("gate");
  });

  test("beside none that does: what a meter shows of a line that moves", async () => {
    expect((await found(levels("1.3"))).kinds).not.toContain("gate");
  });
});

test("one chip's voltages a tenth above nothing, ground and supply alike, beside another that is right", async () => {
  const levels = (ground: string): string =>
    table(
      "Pin voltages",
      "Ref | Pin | Reading",
      ...["U2 | 14 | 5.01", "U2 | 7 | 0.00", "U2 | 1 | 3.4"],
      ...["U1 | 16 | 0.12", `U1 | 8 | ${ground}`, "U1 | 1 | 0.11", "U1 | 2 | 0.12"],
    );
  expect((await found(levels("0.12"))).mistakes).toEqual(["the lead was off ground"]);
  expect((await found(levels("0.00"))).mistakes).toEqual([]);
});

test("ground three volts down and the supply with it: a lead on another place", async () => {
  const levels = (supply: string): string =>
    table("Pin voltages", "Pin | U2", "1 | 0.4", "2 | -2.9", "7 | -3.12", `14 | ${supply}`, "3 | -0.6");
  expect((await found(levels("1.90"))).mistakes).toEqual(["the lead was off ground"]);
  expect((await found(levels("4.98"))).mistakes).toEqual([]);
});

test("a one-shot that stays up for a moment only: what sets its time", async () => {
  const board = BOARD.replace(
    "parts:",
    "parts:\n  U5: { device: 74LS123 }\n  R5: { value: 100k }\n  C5: { value: 1 uF }",
  ).replace("nets:", "nets:\n  RC: [U5.15, R5.1, C5.1]\n  CX: [U5.14, C5.2]\n  OUT: [U5.13, U2.1]");
  const told = async (width: string) => {
    const { findings, result } = await diagnosedOn(
      board.replace("VCC: [", "VCC: [R5.2, U5.16, ").replace("GND: [", "GND: [U5.8, "),
      table("Reset timing", "Ref | Pin | Width | Should be", `U5 | 13 | ${width} | 45 ms`),
    );
    const [first] = result.ranked;
    return { kinds: findings.length, first: first && suspectName(first.suspect) };
  };
  expect(await told("3 ms")).toEqual({ kinds: 1, first: "C5" });
  expect((await told("44 ms")).kinds).toBe(0);
});

test("a drop at ground and none at the supply: counted from the other corner, by few pins", async () => {
  const drops = (ground: string, supply: string): string =>
    table("Diode check", "Pin | U1", "1 | 0.60", "4 | 0.58", `8 | ${ground}`, "11 | 0.57", `16 | ${supply}`);
  expect((await found(drops("0.41", "0.00"))).mistakes).toEqual(["the pins were counted from the wrong end"]);
  expect((await found(drops("0.00", "0.41"))).mistakes).toEqual([]);
});

test("levels along the way of a reset are no times", async () => {
  const path = (unit: string): string =>
    table(
      "Reset path",
      "Ref | Pin | Got",
      `U2 | 1 | 4.1${unit}`,
      `U2 | 2 | 3.9${unit}`,
      `U2 | 5 | 4.0${unit}`,
    );
  const kinds = async (unit: string) => {
    const { findings } = await diagnosedOn(BOARD, path(unit));
    return findings.flatMap(({ table }) => table?.procedure.id ?? []);
  };
  expect(new Set(await kinds(""))).toEqual(new Set(["logic-levels"]));
  expect(await kinds(" ms")).toEqual([]);
});

test("voltages beyond the range", async () => {
  const levels = (volts: string): string =>
    table("Pin voltages", "Pin | U2", `14 | ${volts}`, `1 | ${volts}`, "7 | 0.0", "2 | 0.1");
  expect((await found(levels("OL"))).mistakes).toEqual(["the meter was on another range"]);
  expect((await found(levels("5.01"))).mistakes).toEqual([]);
});

test("ohms below nothing, and ohms that run down", async () => {
  const board = BOARD.replace("parts:", "parts:\n  R2: { value: 10k }\n  R3: { value: 22k }");
  const told = async (...ohms: readonly string[]) =>
    (
      await diagnosedOn(
        board,
        table("Resistance", "Part | Reading", ...ohms.map((one, i) => `R${i + 1} | ${one}`)),
      )
    ).findings.flatMap(({ finding }) => (finding.kind === "table" ? finding.mistake : []));
  expect(await told("-0.4k", "OL, falling", "1.9M, runs down")).toEqual(["the board was still charged"]);
  expect(await told("1.0k", "9.9k", "1.9M, runs down")).toEqual([]);
});

test("pairs of which none rings", async () => {
  const nets = [1, 2, 3, 4, 5].map((n) => `  N${n}: [U1.${n}, U2.${n}]`).join("\n");
  const board = BOARD.replace("nets:", `nets:\n${nets}`);
  const told = async (last: string) =>
    (
      await diagnosedOn(
        board,
        table(
          "Continuity",
          "From | To | Reading",
          ...[1, 2, 3, 4, 5].map((n) => `U1.${n} | U2.${n} | ${n === 5 ? last : "no beep"}`),
        ),
      )
    ).findings.flatMap(({ finding }) => (finding.kind === "table" ? finding.mistake : []));
  expect(await told("no beep")).toEqual(["the lead was off or made no contact"]);
  expect(await told("beep")).toEqual([]);
});

test("a chip that is pressed, and it works", async () => {
  expect((await found("If I press U2 into its socket it works again.")).kinds).toEqual(["force-reacts"]);
  expect((await found("I pressed U2 into its socket and nothing changes.")).kinds).toEqual([]);
  expect((await found("Leaned on U2 with a finger:\n\n- finger on: passes ten times")).kinds).toEqual([
    "force-reacts",
  ]);
});

test("a chip that was replaced and changed nothing makes no history of what it was read by", async () => {
  const test = table("Chip test", "Ref | Result", "U2 | fail");
  const swap = (came: string): string =>
    table("Swap test", "Ref | Put in | Result | Then", `U2 | 7406 | ${came} | left in`);
  expect((await found(test, swap("same"))).kinds).toEqual(["failed-alone"]);
  expect((await found(test, swap("cured"))).kinds).not.toContain("failed-alone");
});

test("a plug that looks bad is of the machine, and tracks that do are not the chip above them", async () => {
  const look = (what: string, where: string): string =>
    table("Inspection", "Item | Ref | Result", `${what} | ${where} | fail`);
  const { first, kinds } = await found(look("plug, way 2", ""));
  expect(kinds).toEqual(["wiring-apart"]);
  expect(first).toBe("the wiring in the machine: plug, way 2");
  const whole = await diagnosedOn(BOARD, look("", "U2"));
  const under = await diagnosedOn(BOARD, look("tracks under it", "U2"));
  expect(under.share("U2")).toBeLessThan(whole.share("U2"));
});

test("nothing read wrong, and a setting that was tried", async () => {
  const settings = table("Settings", "Bank | 1 | 2", "SW1 | off | off");
  expect((await found(settings, "With SW1-1 on it gives five.")).first).toBe("the setting of SW1");
  expect((await found("It gives only three balls.", settings)).first).toBe("the setting of SW1");
  expect((await found(settings, "All as it came.")).first).toBeUndefined();
});

test("a ghost that is told with what was held beside it", async () => {
  const ghosts = (...rows: readonly string[]): string =>
    table("Switch matrix in the machine", "Row | Col | Got | Remark", ...rows);
  const { first } = await diagnosedInDemo(
    "controller",
    "phantom-switches",
    ghosts(
      "1 | 5 | stuck | ghost, with 2,3 and 2,5 and 1,3 closed",
      "4 | 1 | stuck | ghost, with 2,3 and 2,1 and 4,3 closed",
      "1 | 1 | ok | no ghost with 1,2 and 2,2 and 2,1 closed",
    ),
  );
  expect(first[0]).toMatch(/^the diode at row 2, column 3/);
});

test("a matrix whose heading says no more, as a grid and as a list", async () => {
  const grid = table(
    "Matrix, in the machine",
    "Row / column | 1 | 2 | 3",
    "3 | ok | ok | ok",
    "4 | ok | no | ok",
    "5 | ok | ok | ok",
  );
  expect((await diagnosedInDemo("controller", "row-dead", grid)).first[0]).toMatch(/row 4, column 2/);
  const list = table(
    "Matrix, in the machine",
    "Switch | Result",
    "3,2 | ok",
    "4,1 | ok",
    "4,2 | dead",
    "4,3 | ok",
  );
  expect((await diagnosedInDemo("controller", "row-dead", list)).signs).toContain("crossing-dead");
});

test("outputs that only pull and float, while the number before them moves", async () => {
  const signs = async (out: string) =>
    (
      await diagnosedInDemo(
        "controller",
        "row-dead",
        table(
          "Logic states",
          "Pin | U12",
          ...[15, 14, 13, 12].map((pin) => `${pin} | pulsing`),
          `1 | ${out}`,
          ...[2, 3, 4, 5, 6, 7, 9].map((pin) => `${pin} | floating`),
        ),
      )
    ).signs;
  expect(await signs("floating")).toContain("chip-silent");
  expect(await signs("pulsing")).not.toContain("chip-silent");
});

test("rows that name their own pins are not of the header that the words above unplug", async () => {
  const ohms =
    `Power off, J4 unplugged.\n\n${table("", "Point | Value", "U2.6 | 1.1 ohm", "U2.9 | 5.2 Mohm")}`.replace(
      "## \n\n",
      "",
    );
  const { findings } = await diagnosedOn(
    BOARD.replace("parts:", "parts:\n  J4: { value: 4-way header }").replace("SET: [", "SET: [J4.1, "),
    `## Resistance to ground\n\n${ohms}`,
  );
  expect(
    findings.map(({ finding }) => (finding.kind === "pin" ? `${finding.ref}.${finding.pin}` : finding.kind)),
  ).toEqual(["U2.6"]);
});

describe("ohms to ground", () => {
  const ohms = (...rows: readonly string[]): string =>
    table("Resistance to ground", "Point | Value", ...rows);

  test("open at the grounds of several chips of which little was read: the lead", async () => {
    const { mistakes } = await found(ohms("U1.8 | OL", "U1.16 | OL", "U2.7 | OL", "U2.14 | OL"));
    expect(mistakes).toEqual(["the lead was off ground"]);
    expect((await found(ohms("U1.8 | 0.1 ohm", "U1.16 | OL", "U2.7 | OL", "U2.14 | OL"))).mistakes).toEqual(
      [],
    );
  });

  test("nothing where the other end of the chip has its ground", async () => {
    const chip = (ground: string, supply: string): string =>
      ohms("U1.1 | 1.1 kohm", "U1.2 | 1.2 kohm", `U1.8 | ${ground}`, "U1.9 | 1.1 kohm", `U1.16 | ${supply}`);
    expect((await found(chip("290 ohm", "0.1 ohm"))).mistakes).toEqual([
      "the pins were counted from the wrong end",
    ]);
    expect((await found(chip("0.1 ohm", "290 ohm"))).mistakes).toEqual([]);
  });
});

test("two voltages of one place in a row are two conditions, and no open between them", async () => {
  const levels = table("Voltage", "Point | Called | At rest", "U2.6 | 0.2 V | 4.9 V", "Q1.2 | 0.2 V | 4.9 V");
  expect((await found(levels)).kinds).not.toContain("volts-apart");
});

test("a matrix that answers on the bare board, and the complaint is of it", async () => {
  const grid = table(
    "Switch matrix on the bench",
    "Row / column | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8",
    ...[1, 2, 3, 4, 5, 6, 7, 8].map((row) => `${row} | ok | ok | ok | ok | ok | ok | ok | ok`),
  );
  const { first } = await diagnosedInDemo("controller", "row-dead", grid);
  expect(first[0]).toMatch(/^the wiring of the switch matrix in the machine$/);
});
