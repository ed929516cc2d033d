import { expect, test } from "vitest";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { type Files, run } from "./memory";

const log = (front: string, body: string) => `---\nmendlog: 1\n${front}---\n\n${body}`;
const FIRST = log(
  "job: 2026-014\nboard: halden\nreceived: 2026-03-02\nsymptoms: [lane 3 never scores]\n",
  `## Diode check U5 (7404)

| Pin | Reading |
|-----|---------|
| 1   | 0.58    |

## Supply rails

| Rail | DC   |
|------|------|
| +5V  | 5.02 |
| VCC  | 5.01 |

## Continuity

| From | To   | Reading |
|------|------|---------|
| U5-2 | J3-1 | beep    |
`,
);
const SECOND = log(
  "job: 2026-018\nboard: halden\nreceived: 2026-04-02\n",
  "## Diode check\n\n| Ref | Device | Pin | Reading |\n|-|-|-|-|\n| U10 | LS139 | 1 | 0.55 |\n| U6 | 2114 | 1 | 0.55 |\n",
);
const OTHER = log("board: lund\n", "## Diode check U1 (7400)\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.58 |\n");
const NAMELESS = OTHER.replace("board: lund\n", "");

const files: Files = { "logs/a.md": FIRST, "logs/b.md": SECOND };
const problems = (text: string) =>
  loadBoard(text, { deviceOf: (part) => builtinLibrary().device(part)?.device }).problems;

test("prints what all logs of the board say, each thing with its place", async () => {
  const { code, out, err, written } = await run(["board", "draft"], files);
  expect([code, written.size]).toEqual([0, 0]);
  expect(err).toBe("mendlog: halden: 4 parts, 2 rails, 1 net and 1 symptom from 2 logs.\n");
  expect(problems(out)).toEqual([]);
  // The designators by their number, whichever log they are of; VCC is 5 V by habit: nobody said so.
  expect(out).toMatchInlineSnapshot(`
    "mendlog-board: 1
    id: halden
    title: Halden
    rails:
      "+5V": { nominal: 5 V, tolerance: 5 %, ripple: 50 mV, net: "+5V", source: "its name; Standard TTL needs 5 %: SN7400 data sheet, from memory" } # log 2026-014, line 19
      # VCC: { nominal: 5 V, tolerance: 5 %, ripple: 50 mV, net: VCC, source: "by habit, its name does not say the voltage; Standard TTL needs 5 %: SN7400 data sheet, from memory" } # guess: log 2026-014, line 20
    parts:
      J3: {} # log 2026-014, line 26, which does not tell what it is
      U5: { device: "7404" } # log 2026-014, line 9
      U6: { device: "2114" } # log 2026-018, line 13
      U10: { device: 74LS139 } # log 2026-018, line 12
    nets:
      U5-2: [U5.2, J3.1] # log 2026-014, line 26
      "+5V": [] # log 2026-014, line 19
    symptoms:
      lane-3-never-scores: { title: Lane 3 never scores } # log 2026-014, line 6
    "
  `);
});

const TYPED = `mendlog-board: 1
id: halden
title: Halden # typed by hand
parts:
  U5: { device: 7408, note: in a socket } # looked at twice
`;

test("completes the board file that is there: what was typed stays and is told", async () => {
  const there = { ...files, "boards/halden.board.yaml": TYPED.replaceAll("\n", "\r\n") };
  const { code, out, err, written } = await run(
    ["board", "draft", "logs", "-o", "boards/halden.board.yaml"],
    there,
  );
  expect([code, out]).toEqual([0, "boards/halden.board.yaml\n"]);
  const text = written.get("/w/boards/halden.board.yaml") ?? "";
  expect(text.replaceAll("\r\n", "")).not.toContain("\n");
  expect(text.replaceAll("\r\n", "\n")).toMatchInlineSnapshot(`
    "mendlog-board: 1
    id: halden
    title: Halden # typed by hand
    rails:
      "+5V": { nominal: 5 V, tolerance: 5 %, ripple: 50 mV, net: "+5V", source: "its name; Standard TTL needs 5 %: SN7400 data sheet, from memory" } # log 2026-014, line 19
      # VCC: { nominal: 5 V, tolerance: 5 %, ripple: 50 mV, net: VCC, source: "by habit, its name does not say the voltage; Standard TTL needs 5 %: SN7400 data sheet, from memory" } # guess: log 2026-014, line 20
    parts:
      U5: { device: 7408, note: in a socket } # looked at twice
      J3: {} # log 2026-014, line 26, which does not tell what it is
      U6: { device: "2114" } # log 2026-018, line 13
      U10: { device: 74LS139 } # log 2026-018, line 12
    nets:
      U5-2: [U5.2, J3.1] # log 2026-014, line 26
      "+5V": [] # log 2026-014, line 19
    symptoms:
      lane-3-never-scores: { title: Lane 3 never scores } # log 2026-014, line 6
    "
  `);
  expect(err).toMatchInlineSnapshot(`
    "mendlog: halden: 4 parts, 2 rails, 1 net and 1 symptom from 2 logs.
    mendlog: \`U5\` is different in the board file: device \`7408\`, not \`7404\`. If the file is wrong, change it there.
    "
  `);
  const again = await run(["board", "draft", "logs", "-o", "boards/halden.board.yaml"], {
    ...there,
    "boards/halden.board.yaml": text,
  });
  expect([again.code, again.written.size]).toEqual([0, 0]);
  expect(again.err).toContain("all of it was in the board file already");
});

test("a board that has a file is printed with what the logs add", async () => {
  const { out, written } = await run(["board", "draft"], { ...files, "boards/halden.board.yaml": TYPED });
  expect(written.size).toBe(0);
  for (const line of TYPED.split("\n")) expect(out).toContain(line);
  expect(out).toContain("U10: { device: 74LS139 }");
});

test("a log that names no board is drafted by the name given", async () => {
  const { code, out } = await run(["board", "draft", "a.md", "--board", "Lund 2 lanes"], {
    "a.md": NAMELESS,
  });
  expect(code).toBe(0);
  expect(out).toContain("id: lund-2-lanes\ntitle: Lund 2 lanes\n");
  expect(out).toContain('U1: { device: "7400" } # log a.md, line 5');
});

test.each<[string, Files, string[], string]>([
  [
    "logs of several boards",
    { ...files, "c.md": OTHER },
    [],
    "are of several boards: halden (2), lund (1). Say which: --board ID.",
  ],
  ["a board that no log is of", { "a.md": OTHER }, ["--board", "lunt"], "Did you mean lund?"],
  [
    "logs that name no board",
    { "a.md": NAMELESS },
    [],
    "names its board. Name the log itself and say --board NAME.",
  ],
  ["a folder without a log", { "a.txt": "" }, [], "there is no log at or below ."],
  ["a path that is not there", files, ["gone"], "gone is not there."],
  [
    "a second file of one board",
    { ...files, "boards/h.board.yaml": TYPED },
    ["-o", "new.board.yaml"],
    "boards/h.board.yaml is the board file of halden already. Say -o boards/h.board.yaml to add to it.",
  ],
  [
    "another board's file",
    { ...files, "x.board.yaml": "mendlog-board: 1\nid: other\ntitle: Other\n" },
    ["-o", "x.board.yaml"],
    "is the board file of other, not of halden",
  ],
  [
    "a board file that is broken",
    { ...files, "x.board.yaml": "mendlog-board: 1\nid: halden\nparts: [\n" },
    ["-o", "x.board.yaml"],
    "is not valid YAML, so nothing was written",
  ],
  [
    "a board file that cannot be written",
    { ...files, "x.board.yaml": { text: TYPED, kept: "cannot be written: the disk is full" } },
    ["-o", "x.board.yaml"],
    "x.board.yaml cannot be written: the disk is full. Nothing was changed.",
  ],
  ["another kind of file", files, ["-o", "x.yaml"], "x.yaml is no name for a board file"],
])("refuses %s", async (_, given, args, message) => {
  const { code, out, err, written } = await run(["board", "draft", ...args], given);
  expect(err).toContain(message);
  expect([code, out, written.size]).toEqual([2, "", 0]);
});

test("says what it is for", async () => {
  expect((await run(["board", "draft", "--help"], {})).out).toContain(
    "mendlog board draft [options] [paths...]",
  );
  expect((await run(["board", "drat"], {})).err).toContain("Did you mean board draft?");
});
