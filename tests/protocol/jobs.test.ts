// New logs and the list of jobs over a real connection, on a real disk.
import { afterEach, expect, test } from "vitest";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import type { Job, Jobs } from "../../server/src/protocol/custom-requests/jobs";
import type { NewLog, NewLogChoices } from "../../server/src/protocol/custom-requests/new-log";
import { type Bench, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const ID = /^id: *(\S+)/m.exec(EXAMPLE_BOARD)?.[1] ?? "";
const log = (job: string, front: string, body = "") => `---
mendlog: 1
job: ${job}
board: ${ID}
${front}
---

# Board ${job}

${body}`;
const RETURNED = log("2026-001", 'serial: "7"\nreceived: 2026-01-02\nreturned: 2026-01-09\nstage: returned');
const HERE = log(
  "2026-002",
  'serial: "8"\nreceived: 2026-02-01\nstage: diagnosing\ncomeback-of: 2026-001',
  "## Diode check\n\n| Ref | Pin | Reading |\n|-----|-----|---------|\n| U14 | 2   | OL      |\n| U14 | 4   | 0.001   |\n",
);
const FILES = `//- logs/2026-001-example.md
${RETURNED}//- logs/2026-002-example.md
${HERE}//- logs/broken.md
---
mendlog: 1
job: 2026-003
stage: [
---
//- notes.md
# no log
`;
const TIME = { today: "2026-03-01", oldAfterDays: 28 };

async function start() {
  bench = await startBench(FILES, { capabilities: FULL_CAPABILITIES });
  const { client } = bench;
  let told = 0;
  client.connection.onNotification("mendlog/jobsChanged", () => {
    told += 1;
  });
  const jobs = async (): Promise<readonly Job[]> =>
    ((await client.request("mendlog/jobs", TIME)) as Jobs).jobs;
  /** Asks, and asks again whenever it is told that something changed, until the answer fits. */
  const untilJobs = async (fits: (jobs: readonly Job[]) => boolean) => {
    const began = Date.now();
    for (let seen = told; ; seen = told) {
      const now = await jobs();
      if (fits(now)) return now;
      while (told === seen) {
        if (Date.now() - began > 20_000) throw new Error(`Not told of: ${JSON.stringify(now, undefined, 1)}`);
        await new Promise((resolve) => setTimeout(resolve, 20));
      }
    }
  };
  return { ...bench, jobs, untilJobs, told: () => told };
}

test("every log is among the jobs, what its readings tell comes later and unasked for nothing is sent", async () => {
  const { jobs, untilJobs, told, client, uri } = await start();
  const first = await jobs();
  expect(first.map(({ job }) => job)).toEqual(["2026-002", "2026-003", "2026-001"]);
  expect(first[1]?.stage).toBeUndefined();
  const now = await untilJobs((all) => all[0]?.facts !== undefined && all[1]?.facts !== undefined);
  expect(now[0]).toMatchObject({
    stage: "diagnosing",
    days: 28,
    old: true,
    comebackOf: "2026-001",
    boardUri: uri("example.board.yaml"),
    facts: { unproven: 4, failed: 0, toProve: 4 },
  });
  expect(now[0]?.facts?.toOrder.length).toBeGreaterThan(0);
  expect(now[2]).toMatchObject({ stage: "returned", days: 7, old: false });
  expect(now[2]?.facts).toBeUndefined();

  // The last answer holds: nothing is told until something changes, and then once.
  await jobs();
  const before = told();
  await client.open(uri("logs/2026-002-example.md"), HERE.replace("diagnosing", "repairing"));
  const edited = await untilJobs((all) => all[0]?.stage === "repairing");
  expect(edited[0]?.uri).toBe(uri("logs/2026-002-example.md"));
  await expect.poll(told, { timeout: 10_000 }).toBeGreaterThan(before);
}, 60_000);

test("a log that is made, and one that is gone, is told of", async () => {
  const { untilJobs, write, remove, watched } = await start();
  await untilJobs((all) => all.length === 3);
  write("logs/late.md", log("2026-009", "stage: received"));
  await watched("logs/late.md", 1);
  await untilJobs((all) => all.some(({ job }) => job === "2026-009"));
  remove("logs/late.md");
  await watched("logs/late.md", 3);
  await untilJobs((all) => !all.some(({ job }) => job === "2026-009"));
}, 60_000);

test("a new log is proposed a number, a place and a text that reads back", async () => {
  const { client, uri } = await start();
  const choices = (await client.request("mendlog/newLogChoices", { today: "2026-03-01" })) as NewLogChoices;
  expect(choices).toMatchObject({ job: "2026-004", taken: ["2026-001", "2026-002", "2026-003"] });
  expect(choices.boards.map(({ id }) => id)).toEqual([ID]);
  const named = await client.request("mendlog/newLogBoard", { words: `${ID.slice(0, -1)}x board` });
  expect(named).toMatchObject({ title: `${ID.slice(0, -1)}x board` });
  expect(await client.request("mendlog/newLogBoard", { words: ` ${ID.toUpperCase()}` })).toMatchObject({
    id: ID,
  });
  const facts = { job: "2026-004", board: ID, owner: 'a: "b"', received: "2026-03-01" };
  const made = (await client.request("mendlog/newLog", { facts })) as NewLog;
  expect(made).toMatchObject({
    name: "2026-004-example.md",
    sure: true,
    uri: uri("logs/2026-004-example.md"),
  });
  await client.open(made.uri ?? "", made.text);
  const report = await client.request("textDocument/diagnostic", { textDocument: { uri: made.uri } });
  expect(report.items).toEqual([]);
  const elsewhere = (await client.request("mendlog/newLog", { facts, folder: uri("jobs") })) as NewLog;
  expect(elsewhere.uri).toBe(uri("jobs/2026-004-example.md"));
}, 60_000);

test("where one job stands is told of a log and of nothing else", async () => {
  const { client, uri } = await start();
  const here = uri("logs/2026-002-example.md");
  await client.open(here, HERE);
  const ask = (of: string) => client.request("mendlog/jobStatus", { uri: of, ...TIME });
  const status = await ask(here);
  expect(status).toMatchObject({ stage: "diagnosing", days: 28, old: true, unproven: 4, toProve: 4 });
  expect(status.next).toMatch(/It takes about \d+ (s|min)\.$/);
  expect(status.proving).toBeUndefined();
  await client.open(uri("notes.md"), "# no log\n");
  expect(await ask(uri("notes.md"))).toBeNull();
  expect(await ask(uri("nowhere.md"))).toBeNull();
}, 60_000);
