import { describe, expect, test } from "vitest";
import { writeBoardFile } from "../../../server/src/knowledge/board-file";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import type { FrontMatter } from "../../../server/src/knowledge/load-front-matter";
import { LogReader } from "../../../server/src/log/document";
import { byDesignator, draftBoard, symptomOf } from "../../../server/src/review/board-draft";

const library = builtinLibrary();

function log(job: string, body: string, front = "") {
  const text = `---\nmendlog: 1\njob: "${job}"\nboard: b\n${front}---\n\n${body}`;
  const doc = new LogReader(`mem:/ws/${job}.md`).read(text, library);
  const values: Partial<FrontMatter> = doc.frontMatter.value ?? {};
  return { doc, front: values };
}

const chip = (ref: string, number: string) =>
  `## Diode check ${ref} (${number})\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.58 |\n\n`;
const parts = (...logs: ReturnType<typeof log>[]) => draftBoard({ logs, library }).parts;

const joins = (...rows: string[]) =>
  `## Continuity\n\n| From | To | Reading |\n|-|-|-|\n${rows.map((row) => `| ${row} |\n`).join("")}\n`;
const nets = (body: string, base?: ReturnType<typeof loadBoard>["value"]) =>
  draftBoard({ logs: [log("1", body)], library, base }).nets.map(({ name, pins }) => [name, pins]);

test("pins that a log calls by their names are written by their numbers", () => {
  const list = "## Parts on the board\n\n| Ref | Device |\n|-|-|\n| Q9 | 2N3904 |\n| U5 | 7404 |\n\n";
  const draft = draftBoard({
    logs: [log("1", list + joins("Q9-E | GND | beep", "Q9-B | U5-2 | beep"))],
    library,
  });
  expect(draft.nets.map(({ name, pins }) => [name, pins])).toEqual([
    ["GND", ["Q9.1"]],
    ["Q9-2", ["Q9.2", "U5.2"]],
  ]);
  // Of a part whose number nobody told the name is all there is.
  expect(nets(joins("Q8-E | GND | beep"))).toEqual([["GND", ["Q8.E"]]]);
});

test("what is joined to a supply pin is on its rail, and not on a net of its own", () => {
  const rails = "## Supply rails\n\n| Rail | Reading |\n|-|-|\n| +5V | 5.0 |\n\n";
  const body =
    rails + chip("U5", "7404") + joins("U5-14 | R1-1 | beep", "U5-7 | C1-2 | beep", "U5-2 | R2-1 | beep");
  expect(nets(body)).toEqual([
    ["+5V", ["U5.14", "R1.1"]],
    ["GND", ["U5.7", "C1.2"]],
    ["U5-2", ["U5.2", "R2.1"]],
  ]);
  // Two rails that may feed it: nobody knows which.
  const two = `${rails}| +5V standby | 5.0 |\n\n`.replace("| +5V | 5.0 |\n\n|", "| +5V | 5.0 |\n|");
  expect(nets(two + chip("U5", "7404") + joins("U5-14 | R1-1 | beep"))).toEqual([
    ["U5-14", ["U5.14", "R1.1"]],
  ]);
});

test("designators come in the order of their numbers", () => {
  const refs = ["U10", "U2", "C11", "C9", "2C", "10A", "u3", "U2A"];
  expect(refs.toSorted(byDesignator)).toEqual(["2C", "10A", "C9", "C11", "U2", "U2A", "u3", "U10"]);
});

describe("two logs that disagree", () => {
  test("the number that more of them give is written, the other told behind it", () => {
    const [u5] = parts(
      log("1", chip("U5", "7408")),
      log("2", chip("U5", "7404")),
      log("3", chip("U5", "SN7404N")),
    );
    expect(u5).toMatchObject({ ref: "U5", device: "7404", from: "log 2, line 7; 7408 in log 1, line 7" });
  });

  test("where as many give either, neither is", () => {
    const draft = draftBoard({ logs: [log("1", chip("U5", "7408")), log("2", chip("U5", "7404"))], library });
    const [u5] = draft.parts;
    expect(u5?.device).toBeUndefined();
    expect(u5?.from).toBe(
      "log 1, line 7; the logs do not agree; 7408 in log 1, line 7; 7404 in log 2, line 7",
    );
    expect(writeBoardFile({ ...draft, id: "b" })).toContain(
      "  U5: {} # log 1, line 7; the logs do not agree",
    );
  });

  test("what was fitted is asked about, and not taken for what belongs there", () => {
    const work = "## Work done\n\n| Ref | Action | Part |\n|-|-|-|\n| U5 | replaced | 7408 |\n";
    expect(parts(log("1", chip("U5", "7404") + work))[0]).toMatchObject({
      device: "7404",
      from: "log 1, line 7; 7408 fitted in log 1, line 17: allow it under fits?",
    });
    expect(parts(log("1", work))[0]).toMatchObject({
      device: "7408",
      from: "log 1, line 11, as it was fitted",
    });
    // On another board of the type it is no more than that.
    expect(parts(log("1", work), log("2", chip("U5", "7404")))[0]).toMatchObject({
      device: "7404",
      from: "log 2, line 7; 7408 fitted in log 1, line 11: allow it under fits?",
    });
  });
});

test("a list of parts tells all of them, with their circuits in words", () => {
  const draft = draftBoard({
    name: "Halden 6809",
    library,
    logs: [
      log(
        "1",
        "## Parts on the board\n\n| Ref | Device | Value | Package | Circuit | Note |\n|-|-|-|-|-|-|\n| U5 | 7404 | | DIP-14 | Switch matrix | in a socket |\n| R3 | | 4k7 | | Switch matrix | |\n",
      ),
    ],
  });
  expect([draft.id, draft.title]).toEqual(["halden-6809", "Halden 6809"]);
  expect(draft.circuits).toEqual([{ id: "switch-matrix", title: "Switch matrix", from: "log 1, line 11" }]);
  expect(draft.parts).toEqual([
    { ref: "R3", value: "4k7", circuit: "switch-matrix", from: "log 1, line 12" },
    {
      ref: "U5",
      device: "7404",
      package: "DIP-14",
      circuit: "switch-matrix",
      note: "in a socket",
      from: "log 1, line 11",
    },
  ]);
});

test("a designator read once and turned round is a guess; one read otherwise is a part", () => {
  const table = (...refs: string[]) =>
    `## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n${refs.map((ref) => `| ${ref} | 1 | 0.58 |\n`).join("")}`;
  const found = parts(log("1", chip("U14", "7404") + table("U41", "U9")));
  expect(found.map(({ ref, guess }) => [ref, guess])).toEqual([
    ["U9", undefined],
    ["U14", undefined],
    ["U41", true],
  ]);
  expect(
    parts(log("1", chip("U14", "7404") + table("U41", "U41"))).find(({ ref }) => ref === "U41")?.guess,
  ).toBe(undefined);
});

test("grids are matrices with a net for every line", () => {
  const grid = (title: string) =>
    `## ${title}\n\n| Row / column | 1 | 2 | 3 |\n|-|-|-|-|\n| 1 | ok | ok | ok |\n| 2 | ok | dead | ok |\n\n`;
  const { matrices } = draftBoard({ library, logs: [log("1", grid("Switch matrix") + grid("Lamp matrix"))] });
  expect(matrices).toEqual([
    {
      id: "switches",
      kind: "switch",
      title: "Switch matrix",
      rows: ["SW_ROW_1", "SW_ROW_2"],
      columns: ["SW_COL_1", "SW_COL_2", "SW_COL_3"],
      from: "log 1, line 9",
    },
    {
      id: "lamps",
      kind: "lamp",
      title: "Lamp matrix",
      rows: ["LAMP_ROW_1", "LAMP_ROW_2"],
      columns: ["LAMP_COL_1", "LAMP_COL_2", "LAMP_COL_3"],
      from: "log 1, line 16",
    },
  ]);
});

test("a board file's own names for rails, grounds and nets are kept, and what it has is not drafted again", () => {
  const base = loadBoard(
    'mendlog-board: 1\nid: b\ntitle: B\ngrounds: [0V]\nrails:\n  "5V logic": { nominal: 5 V, tolerance: 5 %, net: VCC }\nparts:\n  u5: { device: "7404" }\nnets:\n  0V: []\n  VCC: []\n',
  ).value;
  const body =
    "## Supply rails\n\n| Rail | DC |\n|-|-|\n| 5 V logic | 5.0 |\n| +12V | 12.0 |\n\n## Continuity\n\n| From | To | Reading |\n|-|-|-|\n| U5-14 | 5V logic | beep |\n| U5-7 | GND | beep |\n| U5-1 | U5-3 | OL |\n";
  const draft = draftBoard({ library, base, logs: [log("1", body)] });
  expect(draft.grounds).toEqual([]);
  expect(draft.rails.map(({ name }) => name)).toEqual(["+12V"]);
  expect(draft.nets.map(({ name, pins }) => [name, pins])).toEqual([
    ["0V", ["u5.7"]],
    ["VCC", ["u5.14"]],
  ]);
});

test.each([
  ["lane 3 never scores", "lane-3-never-scores", "Lane 3 never scores"],
  ["Dead.", "Dead", "Dead"],
  ["lane-dead", "lane-dead", "Lane dead"],
  ["Anzeige flackert über Nacht", "anzeige-flackert-uber-nacht", "Anzeige flackert über Nacht"],
])("the symptom %s gets the id %s", (typed, id, title) => {
  expect(symptomOf(typed)).toEqual({ id, title });
});

test("a draft does not hang on the order in which the logs come", () => {
  const logs = [
    log("1", chip("U5", "7404"), "received: 2026-03-02\n"),
    log("2", chip("U6", "7408") + chip("U5", "7404"), "received: 2026-04-02\n"),
    log("3", chip("U7", "2114")),
  ];
  const text = (of: typeof logs) => writeBoardFile(draftBoard({ logs: of, library, name: "b" }));
  expect(text(logs.toReversed())).toBe(text(logs));
  expect(text(logs)).toContain('U5: { device: "7404" } # log 2, line 14\n');
});
