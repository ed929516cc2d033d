import { readFileSync } from "node:fs";
import Ajv from "ajv";
import { afterEach, expect, test } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import {
  TOOL_JUDGE,
  TOOL_NEXT,
  TOOL_READINGS,
} from "../../server/src/protocol/custom-requests/for-assistants";
import { type Bench, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const LOG = exampleLog(
  "## Diode check\n\n| Ref | Pin | Reading |\n|-----|-----|---------|\n| U14 | 1   | 0.58    |\n| U14 | 2   | 1.42    |\n| U15 | 2   |         |\n| U15 | 3   | 0.60    |\n",
);

async function opened(text = LOG) {
  bench = await startBench("", { capabilities: FULL_CAPABILITIES });
  const { client } = bench;
  const uri = bench.uri("log.md");
  await client.open(uri, text);
  return { client, uri };
}

test("the readings of a log come with their lines and verdicts, and of one part where it is named", async () => {
  const { client, uri } = await opened();
  const all = await client.request(TOOL_READINGS.method, { uri });
  expect(all.total).toBe(3);
  expect(all.next).toBeUndefined();
  expect(all.readings[1]).toMatchObject({
    of: { ref: "U14", pin: "2" },
    reading: "1.42",
    verdict: "Out of limits",
    procedure: "Diode check",
    line: LOG.split("\n").findIndex((row) => row.includes("1.42")) + 1,
  });
  expect(all.readings[1].sentence).toMatch(/1\.42 V/);
  const one = await client.request(TOOL_READINGS.method, { uri, ref: "u15" });
  expect(one.readings.map(({ reading }: { reading: string }) => reading)).toEqual(["0.60"]);
});

test("an answer is bounded, and goes on where it says", async () => {
  const rows = Array.from({ length: 450 }, (_, n) => `| U14 | ${1 + (n % 14)} | 0.58 |\n`).join("");
  const { client, uri } = await opened(
    exampleLog(`## Diode check\n\n| Ref | Pin | Reading |\n|--|--|--|\n${rows}`),
  );
  const seen: number[] = [];
  for (let from: number | undefined = 0; from !== undefined; ) {
    const part: { total: number; readings: { line: number }[]; next?: number } = await client.request(
      TOOL_READINGS.method,
      { uri, from },
    );
    expect(part.total).toBe(450);
    expect(part.readings.length).toBeLessThanOrEqual(200);
    seen.push(...part.readings.map(({ line }) => line));
    from = part.next;
  }
  expect(new Set(seen).size).toBe(450);
});

test("readings that are not in the log are judged as if they were, and the log stays as it is", async () => {
  const { client, uri } = await opened();
  const before = await client.request(TOOL_READINGS.method, { uri });
  const judged = await client.request(TOOL_JUDGE.method, {
    uri,
    procedure: "Diode check",
    readings: [
      { ref: "U14", pin: "2", value: "1.42" },
      { ref: "U14", pin: 1, value: "0.58 V" },
    ],
  });
  expect(judged.ok).toBe(true);
  expect(judged.readings[0]).toMatchObject({ of: { ref: "U14", pin: "2" }, verdict: "Out of limits" });
  expect(judged.readings[1].verdict).not.toBe("Out of limits");
  expect(await client.request(TOOL_READINGS.method, { uri })).toEqual(before);
});

test("whatever a model sends there is a reason or a verdict, and a cell stays a cell", async () => {
  const { client, uri } = await opened();
  const judge = (params: object) => client.request(TOOL_JUDGE.method, { uri, ...params });
  expect(await judge({ procedure: "Diode check", readings: [] })).toMatchObject({ ok: false });
  expect(await judge({ readings: 7 })).toMatchObject({ ok: false });
  expect(await judge({ procedure: "Poetry", readings: [{ value: "x" }] })).toMatchObject({
    ok: false,
    reason: expect.stringContaining("Poetry"),
  });
  const odd = await judge({
    procedure: "Diode check",
    readings: [
      { ref: "U14", pin: "2", value: "0.5 | 9\n## Work done\n" },
      null,
      { ref: "U14", pin: "1", value: "OL" },
    ],
  });
  expect(odd.readings.map(({ of }: { of: { pin?: string } }) => of.pin)).toContain("1");
  expect(odd.readings[0].reading).toContain("9");
});

test("the next reading comes with its reason and its cautions, and without a board there is none", async () => {
  const { client, uri } = await opened();
  const told = await client.request(TOOL_NEXT.method, { uri });
  expect(told.suspects.length).toBeGreaterThan(0);
  expect(told.next ?? told.notes.at(-1)).toBeTruthy();
  const other = bench!.uri("other.md");
  await client.open(other, LOG.replace(/^board: .*$/m, "board: nowhere"));
  expect(await client.request(TOOL_NEXT.method, { uri: other })).toBeNull();
  expect(await client.request(TOOL_READINGS.method, { uri: bench!.uri("none.md") })).toBeNull();
});

test("the schemas of the tools take what they are for and nothing else", () => {
  const { contributes } = JSON.parse(readFileSync("package.json", "utf8"));
  const tools: { name: string; inputSchema: object; tags: string[] }[] = contributes.languageModelTools;
  const client = readFileSync("client/src/assistants/index.ts", "utf8");
  const takes = (name: string, input: object) =>
    new Ajv().validate(tools.find((one) => one.name === name)!.inputSchema, input);
  for (const { name } of tools) expect(client).toContain(`"${name}"`);
  expect(takes("mendlog_readings", { log: "logs/a.md", ref: "U14", from: 200 })).toBe(true);
  expect(takes("mendlog_readings", { from: -1 })).toBe(false);
  expect(takes("mendlog_judge", { procedure: "Diode check", readings: [{ value: "0.58" }] })).toBe(true);
  expect(takes("mendlog_judge", { procedure: "Diode check", readings: [] })).toBe(false);
  expect(takes("mendlog_next", {})).toBe(true);
});
