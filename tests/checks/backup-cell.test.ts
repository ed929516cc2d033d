// What takes the place of a memory's battery: what is dangerous there, and what only looks like it.
import { describe, expect, it } from "vitest";
import { EXAMPLE_BOARD, exampleLog } from "../../server/src/checks/example-board";
import { openWorld } from "../support/workspace";

const CODES = ["lithium-cell-charged", "supercapacitor-unlimited"];

async function found(body: string, withBoard = true) {
  const log = withBoard ? exampleLog(body) : `---\nmendlog: 1\n---\n\n${body}`;
  const files = withBoard ? `//- example.board.yaml\n${EXAMPLE_BOARD}` : "";
  const { service } = await openWorld(`${files}//- log.md\n${log}`);
  return service
    .findings("mem:/ws/log.md")
    .filter(({ code }) => CODES.includes(code))
    .map(({ code, severity, message }) => ({ code, severity, message }));
}

const work = (...rows: string[]) =>
  `## Work\n\n| Ref | Action | Part | Note |\n|-----|--------|------|------|\n${rows.join("\n")}\n`;
const NICAD = "## Inspection\n\n| Item | Result | Note |\n|---|---|---|\n| BT1 3.6 V NiCd | leaking | |\n\n";

describe("a lithium cell where the board charges", () => {
  it.each([
    // The example board's BT1 is a 3.6 V NiCd.
    [true, work("| BT1 | replaced | CR2032 | |")],
    [true, work("| BT1 | replace | CR 2032 holder | |")],
    [true, work("| BT1 | fitted | lithium 3 V coin cell | |")],
    [true, work("| BT1 | replaced | LIR2032 | |")],
    [true, work("| BT1 | to replace | CR2450 | |")],
    [true, "## Parts fitted\n\n| Ref | Part |\n|---|---|\n| BT1 | CR2032 |\n"],
    // By the log alone: it says what stood there.
    [false, NICAD + work("| BT1 | removed | | |", "| BT1 | fitted | CR2032 in a holder | |")],
    [false, work("| BT1 | replaced | CR2032 | instead of the NiCd |")],
    [false, `The old NiCd had leaked.\n\n${work("| BT1 | replaced | BR2325 | |")}`],
  ])("board file %s: %s", async (withBoard, body) => {
    expect(await found(body, withBoard)).toEqual([
      {
        code: "lithium-cell-charged",
        severity: "error",
        message: expect.stringMatching(/Charged, it can burst or burn.*blocking diode/),
      },
    ]);
  });

  it.each([
    [true, work("| BT1 | replaced | CR2032 | charging resistor R12 removed |")],
    [true, work("| D5 | fitted | 1N5817 | blocking diode |", "| BT1 | replaced | CR2032 | |")],
    [true, work("| BT1 | replaced | CR2032 | with a blocking diode |")],
    [true, work("| R30 | cut | | no longer charges |", "| BT1 | replaced | CR2032 | |")],
    [true, work("| BT1 | replaced | 3.6 V NiMH | |")],
    [true, work("| BT1 | removed | | was a CR2032 |")],
    [true, work("| BT1 | replaced | CR2032 | |", "| BT1 | removed | | charged: taken out again |")],
    [true, work("| BT1 | replaced | 1 F 5.5 V super-cap | |")],
    [true, work("| U14 | replaced | 74LS04 | |")],
    // Nothing says that anything charged there.
    [false, work("| BT1 | replaced | CR2032 | |")],
    [false, `${NICAD.replace("3.6 V NiCd", "3 x AA alkaline")}${work("| BT1 | fitted | CR2032 | |")}`],
    // Made to be charged through a resistor.
    [false, NICAD + work("| BT1 | fitted | ML2032 | |")],
  ])("is none, board file %s: %s", async (withBoard, body) => {
    expect(await found(body, withBoard)).toEqual([]);
  });
});

it("asks for no part in the place of a charging resistor, and for one in that of any other", async () => {
  const asked = async (note: string) => {
    const log = exampleLog(work(`| R12 | removed | | ${note} |`, "| BT1 | fitted | CR2032 | |"));
    const { service } = await openWorld(`//- example.board.yaml\n${EXAMPLE_BOARD}//- log.md\n${log}`);
    return service.findings("mem:/ws/log.md").filter(({ code }) => code === "removed-and-not-replaced")
      .length;
  };
  expect(await asked("charging resistor of the battery")).toBe(0);
  expect(await asked("burnt")).toBe(1);
});

describe("a super-capacitor without its series resistor", () => {
  const parts = "## Parts on the board\n\n| Ref | Part |\n|---|---|\n| R40 | 62 ohm |\n| R41 | 4k7 |\n\n";
  const fitted = "| BT1 | replaced | 1 F 5.5 V super capacitor | |";

  it.each([
    [work(fitted, "| R40 | bridged | wire | charges faster |")],
    [work(fitted, "| R40 | jumper | | series resistor of the super cap |")],
    [work("| BT1 | replaced | 1 F 5.5 V | R40 bridged |")],
    [work(fitted, "| R40 | replaced | 1 ohm | for the super-cap |")],
    [work("| C90 | fitted | 0.47 F 5.5 V gold cap | |", "| R40 | shorted out | | before C90 |")],
  ])("%s", async (body) => {
    expect(await found(parts + body, false)).toEqual([
      {
        code: "supercapacitor-unlimited",
        severity: "error",
        message: expect.stringMatching(/R40 before the super-capacitor.*Fit the resistor again/),
      },
    ]);
  });

  it.each([
    [work(fitted)],
    [work(fitted, "| R41 | bridged | wire | lamp test input |")],
    [work(fitted, "| R40 | replaced | 100 ohm | series resistor of the super-cap |")],
    [
      work(
        fitted,
        "| R40 | bridged | | to charge it at once |",
        "| R40 | replaced | 62 ohm | bridge taken out |",
      ),
    ],
    // No super-capacitor is there.
    [work("| R40 | bridged | wire | charging resistor |")],
    [work("| C90 | replaced | 10 uF 16 V | |", "| R40 | bridged | | before C90 |")],
  ])("is none: %s", async (body) => {
    expect(await found(parts + body, false)).toEqual([]);
  });
});
