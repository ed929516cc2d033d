import { expect, test } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import { BOARD, run } from "./memory";

const TABLE = `## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 1.42    |
| U14 | 4   | OL      |
| U15 | 3   | 0.58    |
`;
const LOG = exampleLog(TABLE, "job: 2026-001\n");
const FILES = { "example.board.yaml": BOARD, "logs/a.md": LOG };
const diagnose = (...args: readonly string[]) => run(["diagnose", ...args], FILES);

test("says whom the log suspects, why, and what to read next", async () => {
  const { code, out, err } = await diagnose("logs/a.md");
  expect(err).toBe("");
  expect(code).toBe(0);
  expect(out).toMatch(/^logs\/a\.md: 2 findings counted, board example\n/);
  expect(out).toMatch(/\n {2}1\. U14 \(74LS04 [^\n]*\): (about|over) \d+ %\n {7}for: U14 pin 2 reads high/);
  expect(out).toMatch(/\nPower off[^\n]*\nNext reading: [^\n]*about [\d.]+ (?:s|min)\.\n/);
  expect(out).toMatch(/\nComplete[^\n]*\n$/);
  expect(out).not.toMatch(/\u001b|\b(good|passed|proven)\b/);
});

test("the same as one object, shares and bits as numbers", async () => {
  const { out, code } = await diagnose("logs/a.md", "--format", "json", "--top", "1");
  const report = JSON.parse(out);
  expect(code).toBe(0);
  expect(report).toMatchObject({
    path: "logs/a.md",
    format: 1,
    job: "2026-001",
    board: "example",
    findings: 2,
    suspects: [{ name: "U14", for: [expect.any(String), expect.any(String)], against: [], notTaken: [] }],
    next: { ref: expect.any(String), live: false, reason: expect.any(String) },
    waiting: [],
    problems: [],
    bound: expect.stringMatching(/^Complete/),
  });
  expect(report.suspects).toHaveLength(1);
  expect(report.together).toHaveLength(1);
  expect(report.suspects[0].share).toBeGreaterThan(0.5);
  expect(report.next.minutes).toBeGreaterThan(0);
  expect(report.next.bits).toBeGreaterThan(0);
});

test("nothing wrong is no failure and clears nothing", async () => {
  const clean = TABLE.replace("1.42", "0.58").replace("OL", "0.57");
  const { code, out } = await run(["diagnose", "a.md"], { "b.board.yaml": BOARD, "a.md": exampleLog(clean) });
  expect(code).toBe(0);
  expect(out).toContain("Nothing was found wrong, so nothing is suspected.");
});

test("what cured the same symptom on the shop's other boards is counted", async () => {
  const symptom = "symptoms: [row-dead]\n";
  const board =
    `${BOARD}circuits:\n  rows: { title: Rows }\nsymptoms:\n  row-dead: { title: Row dead, circuits: [rows] }\n`
      .replace("U14: { device: 74LS04 }", "U14: { device: 74LS04, circuit: rows }")
      .replace("U15: { device: 74LS04 }", "U15: { device: 74LS04, circuit: rows }");
  const earlier = exampleLog(
    "## Work done\n\n| Ref | Action |\n|---|---|\n| U15 | replaced |\n",
    `job: b\nstage: returned\n${symptom}`,
  );
  const { out } = await run(["diagnose", "now.md", "--format", "json"], {
    "mendlog.shop.yaml": "mendlog-shop: 1\n",
    "example.board.yaml": board,
    "now.md": exampleLog("Nothing read yet.\n", symptom),
    "b.md": earlier,
  });
  const { suspects } = JSON.parse(out);
  expect(suspects[0].name).toBe("U15");
  expect(suspects[0].before.join()).toContain("1 of the 1 replacements that cured this symptom");
});

test.each([
  [["diagnose"], "Name the log"],
  [["diagnose", "a.md", "b.md"], "one log, not of 2"],
  [["diagnose", ""], "path is empty"],
  [["diagnose", "a.md", "--top", "0"], "--top takes a number"],
  [["diagnose", "a.md", "--top", "many"], "--top takes a number"],
  [["diagnose", "a.md", "--format", "csv"], "--format takes human, json"],
  [["diagnose", "gone.md"], "gone.md is not there"],
  [["diagnose", "logs"], "is a folder"],
  [["diagnose", "example.board.yaml"], "is no log"],
  [["diagnose", "words.md"], "is no log"],
  [["diagnose", "strange.md"], 'is of the board "nowhere"'],
  [["diagnose", "boardless.md"], "names no board"],
])("%j is refused with a reason", async (args, reason) => {
  const { code, out, err } = await run(args, {
    ...FILES,
    "words.md": "# Words\n",
    "strange.md": LOG.replace("board: example", "board: nowhere"),
    "boardless.md": LOG.replace("board: example\n", ""),
  });
  expect(code).toBe(2);
  expect(out).toBe("");
  expect(err).toContain(reason);
});

test("its help names its options", async () => {
  const { code, out } = await run(["diagnose", "--help"], {});
  expect(code).toBe(0);
  for (const option of ["--format human|json", "--top N", "Exit status"]) expect(out).toContain(option);
});
