import { afterEach, expect, test } from "vitest";
import { METER_QUESTION, METER_READING, VERDICT } from "../../server/src/protocol/custom-requests/capture";
import { WRITE_CELL } from "../../server/src/protocol/custom-requests/typing";
import { type Bench, CLEAN, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

test("a reading goes from the question to its verdict", async () => {
  bench = await startBench("", { capabilities: FULL_CAPABILITIES });
  const { client } = bench;
  const uri = bench.uri("log.md");
  const lines = CLEAN.split("\n");
  const line = lines.findIndex((row) => /^\| U14 \| 1 /.test(row));
  const character = lines[line]!.split("|", 3).join("|").length + 2;
  await client.open(uri, CLEAN);
  const at = { uri, position: { line, character } };
  expect(await client.request(METER_QUESTION.method, at)).toEqual({
    ok: true,
    node: "DIOD",
    words: "the drop on the diode range",
  });
  const read = await client.request(METER_READING.method, { ...at, answer: "+1.42000E+00", digits: 3 });
  expect(read).toEqual({ ok: true, text: "1.42 V" });
  const step = await client.request(WRITE_CELL.method, { ...at, text: read.text });
  expect(step.edits).toMatchObject([{ newText: expect.stringContaining("1.42 V") }]);
  expect(step.cursor.line).toBe(line + 1);
  await client.change(uri, 2, { text: CLEAN.replace(/(\| U14 \| 1 +\| )[\d.]+ /, "$11.42 ") });
  expect(await client.request(VERDICT.method, at)).toMatchObject({
    range: { start: { line } },
    verdict: "out-of-limits",
    mark: "▲",
  });
});

test("where there is nothing to read, or no log, there is a reason or nothing, and never an error", async () => {
  bench = await startBench("", { capabilities: FULL_CAPABILITIES });
  const { client } = bench;
  const uri = bench.uri("log.md");
  await client.open(uri, CLEAN);
  const top = { uri, position: { line: 0, character: 0 } };
  expect(await client.request(METER_QUESTION.method, top)).toMatchObject({ ok: false });
  expect(await client.request(METER_READING.method, { ...top, answer: "1", digits: 4 })).toMatchObject({
    ok: false,
  });
  expect(await client.request(VERDICT.method, top)).toBeNull();
  const nowhere = { ...top, uri: bench.uri("gone.md") };
  for (const { method } of [METER_QUESTION, VERDICT])
    expect(await client.request(method, nowhere)).toBeNull();
});
