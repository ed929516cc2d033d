import { expect, test } from "vitest";
import { run } from "./memory";

const BOARD = (id: string, device: string) => `mendlog-board: 1
id: ${id}
title: The ${id}
grounds: [GND]
rails: { "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC } }
parts:
  U1: { device: ${device} }
`;
const LOG = `---
mendlog: 1
job: "2026-050"
boards: { driver: driver-1, lamps: lamps-1 }
stage: diagnosing
received: 2026-04-02
---

## Driver

### Diode check U1

| Pin | Reading |
|-----|---------|
| 2   | OL      |

### Work

| Date       | Ref | Action   | Part   |
|------------|-----|----------|--------|
| 2026-04-03 | U1  | Replaced | 74LS04 |

## Lamps

### Diode check U1

| Pin | Reading |
|-----|---------|
| 4   | 0.001   |
`;
const FILES = {
  "driver.board.yaml": BOARD("driver-1", "74LS04"),
  "lamps.board.yaml": BOARD("lamps-1", "74LS14"),
  "logs/a.md": LOG,
};

test("a diagnosis is of each board by itself", async () => {
  const { code, out } = await run(["diagnose", "logs/a.md"], FILES);
  expect(code).toBe(0);
  expect(out).toMatch(/^logs\/a\.md, driver: /);
  expect(out).toMatch(/\nlogs\/a\.md, lamps: 1 finding counted, board lamps-1\n/);
  const json = JSON.parse((await run(["diagnose", "logs/a.md", "--format", "json"], FILES)).out);
  expect(json).toMatchObject({
    path: "logs/a.md",
    format: 1,
    boards: [
      { inSet: "driver", board: "driver-1" },
      {
        inSet: "lamps",
        board: "lamps-1",
        suspects: expect.arrayContaining([expect.objectContaining({ name: "U1" })]),
      },
    ],
  });
});

test("parts are listed board by board: what was fitted on one is not fitted on the other", async () => {
  const { out } = await run(["parts", "logs/a.md", "--format", "json"], FILES);
  const { jobs } = JSON.parse(out);
  expect(jobs.map((one: { inSet: string }) => one.inSet)).toEqual(["driver", "lamps"]);
  expect(jobs.map((one: { fitted: unknown[] }) => one.fitted.length)).toEqual([1, 0]);
  const csv = (await run(["parts", "logs/a.md", "--format", "csv"], FILES)).out.split("\n");
  expect(csv[0]?.trim().endsWith("instead,board")).toBe(true);
  expect(csv.find((line) => line.includes(",fitted,"))?.trim()).toMatch(/,driver$/);
});

test("one report, one bench sheet and one bill of the set", async () => {
  const report = (await run(["report", "logs/a.md", "--format", "md"], FILES)).out;
  expect(report).toMatch(/^# Repair report: The driver-1, The lamps-1\n/);
  expect(report).toMatch(/\| driver: U1 .*Replaced/);
  expect(report).not.toMatch(/lamps: U1 .*Replaced/);
  const sheet = JSON.parse((await run(["sheet", "logs/a.md", "--format", "json"], FILES)).out);
  expect(sheet.tables.map((one: { number: number; heading: string }) => [one.number, one.heading])).toEqual([
    [1, "driver: Diode check U1"],
    [2, "driver: Work"],
    [3, "lamps: Diode check U1"],
  ]);
  const bill = (await run(["bill", "logs/a.md", "--format", "md"], FILES)).out;
  expect(bill).toMatch(/^# Bill: The driver-1, The lamps-1\n/);
});

test("bad input is told at its place and nothing is lost", async () => {
  const bad = LOG.replace("lamps: lamps-1 }", "lamps: driver-1 }\nboard: lamps-1").replace(
    "## Lamps",
    "## Lmaps",
  );
  const { out } = await run(["check", "logs/a.md", "--format", "json"], { ...FILES, "logs/a.md": bad });
  const report = JSON.parse(out);
  const found = report.files[0].findings.filter(({ code }: { code: string }) => code === "board-set");
  const said = found.map(({ message }: { message: string }) => message.split(".")[0]);
  expect(said.sort()).toEqual([
    '"Lmaps" names no board of this log, so what is below it counts to the board above',
    '"driver" and "lamps" are the same board, driver-1',
    "No heading of this log names lamps, so nothing is read of it",
    "The log has `board:` and `boards:`",
  ]);
  // What stands below the heading is still read, as the board's above.
  expect(report.files[0].findings.map(({ code }: { code: string }) => code)).toContain("diode-out-of-window");
});
