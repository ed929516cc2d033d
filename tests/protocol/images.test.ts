// Image files over the wire: read before the first answer, and looked at again when they change. `npm test` builds first.
import { afterEach, expect, test } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import { type Bench, codesOf, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => bench?.end());

const LOG = exampleLog("## ROM check\n\n| Ref | Image |\n|---|---|\n| U34 | u34.bin |\n");

test("an image that arrives makes a client that asks be asked to ask again", async () => {
  bench = await startBench("", { capabilities: FULL_CAPABILITIES });
  const { client, uri, write, watched } = bench;
  const log = uri("log.md");
  await client.open(log, LOG);
  const pull = (previousResultId?: string) =>
    client.request("textDocument/diagnostic", { textDocument: { uri: log }, previousResultId });
  const first = await pull();
  expect(codesOf(first.items)).toEqual(["rom-image-unreadable"]);
  const refreshes = client.refreshes;
  write("u34.bin", "other program");
  await watched("u34.bin", 1);
  await client.until("The refresh", () => (client.refreshes > refreshes ? true : undefined));
  const second = await pull(first.resultId);
  expect(codesOf(second.items)).toEqual(["rom-unidentified"]);
  // Nothing else changed meanwhile: the image alone makes it another report.
  expect(await pull(second.resultId)).toMatchObject({ kind: "unchanged" });
  write("u34.bin", "yet another program");
  await watched("u34.bin", 2);
  expect(await pull(second.resultId)).toMatchObject({ kind: "full" });
});

test("a client that waits is sent what an image that arrives changes", async () => {
  bench = await startBench("");
  const { client, uri, write, watched } = bench;
  const log = uri("log.md");
  await client.open(log, LOG);
  expect(codesOf(await client.diagnostics(log, 1))).toEqual(["rom-image-unreadable"]);
  write("u34.bin", "other program");
  await watched("u34.bin", 1);
  const last = await client.until("The image's finding", () => {
    const codes = codesOf(client.published.at(-1)?.diagnostics ?? []);
    return codes.includes("rom-unidentified") ? codes : undefined;
  });
  expect(last).toEqual(["rom-unidentified"]);
});
