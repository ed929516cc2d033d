import { describe, expect, it } from "vitest";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import { Service } from "../../../server/src/service";
import { Disk } from "../../support/disk";
import { BOARD } from "../../support/judged";

const FILE = "mem:/ws/trial.board.yaml";

const log = (front: string, readings: string, heading = "Diode check after repair"): string =>
  `---\nmendlog: 1\nboard: trial\n${front}---\n\n## ${heading}\n\n| Ref | Pin | Reading |\n|-|-|-|\n${readings}`;
const good = (readings: string, heading?: string) =>
  log("job: 2026-003\nreference: true\n", readings, heading);

async function propose(logs: readonly string[], board = BOARD) {
  const files = Object.fromEntries(logs.map((text, i) => [`mem:/ws/logs/${i}.md`, text]));
  const service = new Service(new Disk({ [FILE]: board, ...files }));
  await service.load();
  for await (const _ of service.index()) {
    // Nobody else waits for a turn here.
  }
  const proposed = service.proposeLimits("trial");
  if (!proposed) throw new Error("no board file");
  return proposed;
}

async function written(logs: readonly string[], board = BOARD) {
  const proposed = await propose(logs, board);
  if (!proposed.ok) throw new Error(proposed.reason);
  const { text, told } = proposed;
  const { value, problems } = loadBoard(text);
  expect(problems).toEqual([]);
  return { text, told, expected: value?.expected ?? [] };
}

describe("limits proposed for the board file", () => {
  it("stand behind what a person wrote there, each with its source", async () => {
    const { text, told, expected } = await written([
      good("| U6 | 10 | 0.61 |\n| U6 | 3 | 0.58 |\n| U2 | 3 | 0.53 |\n"),
    ]);
    expect(text.startsWith(BOARD.trimEnd())).toBe(true);
    expect(expected.slice(-2)).toMatchObject([
      {
        procedure: "diode-check",
        ref: "U6",
        pin: "3",
        low: "0.53 V",
        high: "0.63 V",
        source:
          "reference job 2026-003 read 0.58 V; one board, at least ±50 mV by common practice, no source",
      },
      { ref: "U6", pin: "10", low: "0.56 V", high: "0.66 V" },
    ]);
    // U2 pin 3 is a person's own: "three boards".
    expect(expected).toHaveLength(9);
    expect(expected[0]).toMatchObject({ ref: "U2", pin: "3", low: "0.50 V", source: "three boards" });
    expect(told).toBe(
      "2 limits proposed for the board file and not saved yet: check them, because every reading outside them will then be out of limits. 1 limit typed there by hand stays as it is.",
    );
  });

  it("are written once, and brought up to date where they were proposed before", async () => {
    const first = await written([good("| U6 | 3 | 0.58 |\n")]);
    const again = await propose([good("| U6 | 3 | 0.58 |\n")], first.text);
    expect(again).toMatchObject({ ok: true, edits: [], told: "The board file has these limits already." });
    const typed = first.text.replace(/(pin: )"3"(, low: 0.53 V.*)/, "$11Y$2 # seen");
    expect(typed).not.toBe(first.text);
    const later = await written([good("| U6 | 3 | 0.60 |\n")], typed);
    expect(later.expected).toHaveLength(8);
    expect(later.expected.at(-1)).toMatchObject({ ref: "U6", pin: "1Y", low: "0.55 V", high: "0.65 V" });
    expect(later.text).toContain("# seen");
  });

  it("are the tolerance interval once five boards were returned", async () => {
    const five = [0.57, 0.571, 0.572, 0.573, 0.574].map((drop, i) =>
      log(`job: J${i}\nserial: "${i}"\nstage: returned\n`, `| U6 | 3 | ${drop.toFixed(3)} |\n`),
    );
    const { expected } = await written([good("| U6 | 3 | 0.66 |\n| U6 | 6 | 0.6 |\n"), ...five]);
    // Mean 0.572, standard deviation 1.581 mV, factor 5.077: 0.572 ± 0.00803.
    expect(expected.slice(-2)).toMatchObject([
      {
        pin: "3",
        low: "0.564 V",
        high: "0.58 V",
        source: "tolerance interval of 5 returned boards (95 %/95 %); jobs J0, J1, J2, J3 and 1 more",
      },
      { pin: "6", low: "0.55 V" },
    ]);
  });

  it("leave out what a board file cannot say: rails by their load, lifted parts, further columns", async () => {
    const rails =
      "---\nmendlog: 1\nboard: trial\nreference: true\n---\n\n## Supply rails, loaded\n\n| Rail | DC |\n|-|-|\n| +5V | 5.01 |\n";
    const nothing = await propose([rails, good("| R1 | | 9k9 |\n", "Resistance after repair")]);
    expect(nothing).toMatchObject({ ok: false, reason: expect.stringContaining("makes a limit") });
    const reversed =
      "---\nmendlog: 1\nboard: trial\nreference: true\n---\n\n## Resistance to ground\n\n| Ref | Pin | Reading | Reversed |\n|-|-|-|-|\n| U6 | 3 | 4k7 | 12k |\n";
    const { expected } = await written([reversed]);
    expect(expected).toHaveLength(8);
    expect(expected.at(-1)).toMatchObject({ procedure: "resistance-to-ground", ref: "U6", pin: "3" });
    expect(expected.at(-1)?.low).toBe("3.76 kohm");
    expect(expected.at(-1)?.high).toBe("5.64 kohm");
  });

  it("are none without a job that says its board works, and it is said how one does", async () => {
    const none = await propose([log("job: 2026-003\n", "| U6 | 3 | 0.58 |\n")]);
    expect(none).toMatchObject({ ok: false, reason: expect.stringContaining("reference: true") });
    const byHand = await propose([good("| U2 | 3 | 0.53 |\n")]);
    expect(byHand).toMatchObject({
      ok: false,
      reason: expect.stringContaining("already gives an expected reading"),
    });
  });

  it("count of a log as it stands in the editor, before it is saved", async () => {
    const disk = new Disk({ [FILE]: BOARD });
    const service = new Service(disk);
    await service.load();
    service.open("mem:/ws/new.md", good("| U6 | 3 | 0.58 |\n"));
    const proposed = service.proposeLimits("trial");
    expect(proposed).toMatchObject({ ok: true, uri: FILE });
    expect(service.proposeLimits("nobody")).toBeUndefined();
  });
});
