import { afterEach, expect, test } from "vitest";
import type { ApplyWorkspaceEditParams, CodeLens, TextEdit } from "vscode-languageserver-protocol";
import { exampleLog } from "../../server/src/checks/example-board";
import { spanOf } from "../../server/src/protocol/convert";
import { applyEdits } from "../../server/src/text/edits";
import { lineIndex } from "../../server/src/text/line-index";
import { TWO_WRONG_DROPS } from "../support/tables";
import { type Bench, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const LOG = exampleLog(TWO_WRONG_DROPS);
const EDITING = {
  ...FULL_CAPABILITIES,
  workspace: { ...FULL_CAPABILITIES.workspace, applyEdit: true, codeLens: { refreshSupport: true } },
};

async function opened(text = LOG, capabilities: typeof FULL_CAPABILITIES = EDITING) {
  bench = await startBench("", { capabilities });
  const { client } = bench;
  const uri = bench.uri("log.md");
  const edits: ApplyWorkspaceEditParams[] = [];
  const said: string[] = [];
  let refreshed = 0;
  client.connection.onRequest("workspace/applyEdit", (params: ApplyWorkspaceEditParams) => {
    edits.push(params);
    return { applied: true };
  });
  client.connection.onNotification("window/showMessage", ({ message }: { message: string }) => {
    said.push(message);
  });
  client.connection.onRequest("workspace/codeLens/refresh", () => {
    refreshed += 1;
    return null;
  });
  await client.open(uri, text);
  const textDocument = { uri };
  await client.request("textDocument/diagnostic", { textDocument });
  const all = (): Promise<CodeLens[]> => client.request("textDocument/codeLens", { textDocument });
  const ofKind = (wanted: RegExp) => async () =>
    (await all()).filter(({ data }) => wanted.test(data.lens.of));
  const lenses = ofKind(/^(log|section)$/);
  return { client, uri, textDocument, lenses, ofKind, edits, said, refreshes: () => refreshed };
}

const editedText = (text: string, { edit }: ApplyWorkspaceEditParams): string => {
  const [change] = edit.documentChanges ?? [];
  const wire = change && "edits" in change ? (change.edits as TextEdit[]) : [];
  const lines = lineIndex(text);
  return applyEdits(
    text,
    wire.map(({ range, newText }) => ({ span: spanOf(lines, range), newText })),
  );
};

test("lenses are placed without a word and filled in when they are shown", async () => {
  const { client, lenses } = await opened();
  expect(client.initialized.capabilities.codeLensProvider).toEqual({ resolveProvider: true });
  const all = await lenses();
  expect(all.map(({ range }) => range.start.line)).toEqual([0, LOG.split("\n").indexOf("## Diode check")]);
  expect(all.every(({ command }) => command === undefined)).toBe(true);
  const [top, section] = await Promise.all(all.map((lens) => client.request("codeLens/resolve", lens)));
  expect(top.command).toMatchObject({ command: "mendlog.writeSuspects" });
  expect(top.command.title).toMatch(/^Suspects: U14 (about|over) \d+ %.* · next: /);
  expect(section.command).toMatchObject({ command: "" });
  expect(section.command.title).toMatch(/^2 findings here point to U14 /);
});

test("a lens the text has moved away from is filled in with nothing wrong in it", async () => {
  const { client, uri, lenses } = await opened();
  const [, section] = await lenses();
  await client.change(uri, 2, { text: LOG.replace("## Diode check", "More words.\n\n## Diode check") });
  const old = await client.request("codeLens/resolve", section);
  expect(old.command).toEqual({ title: "Suspects", command: "" });
  const strange = await client.request("codeLens/resolve", { range: section?.range });
  expect(strange.command.command).toBe("");
});

test("a log with nothing wrong has no lens, nor has plain Markdown or a closed file", async () => {
  const { client, uri, textDocument, lenses } = await opened(
    LOG.replace("1.42", "0.58").replace("OL", "0.57"),
  );
  expect(await lenses()).toEqual([]);
  await client.change(uri, 2, { text: "# Just words\n" });
  expect(await lenses()).toEqual([]);
  await client.close(uri);
  expect(await client.request("textDocument/codeLens", { textDocument })).toBeNull();
});

test("the command writes the section, bound to the version it was made from, and once only", async () => {
  const { client, uri, edits } = await opened();
  expect(client.initialized.capabilities.executeCommandProvider?.commands).toContain("mendlog.writeSuspects");
  const run = () =>
    client.request("workspace/executeCommand", { command: "mendlog.writeSuspects", arguments: [uri] });
  expect(await run()).toBeNull();
  expect(edits).toHaveLength(1);
  expect(edits[0]?.edit.documentChanges?.[0]).toMatchObject({ textDocument: { uri, version: 1 } });
  const written = editedText(LOG, edits[0]!);
  expect(written.startsWith(LOG)).toBe(true);
  expect(written).toContain("## Suspects");
  await client.change(uri, 2, { text: written });
  await run();
  expect(edits).toHaveLength(1);
});

test("what cannot be done is said and not thrown", async () => {
  const { client, uri, said, edits } = await opened(LOG.replace("1.42", "0.58").replace("OL", "0.57"));
  const run = (...args: unknown[]) =>
    client.request("workspace/executeCommand", { command: "mendlog.writeSuspects", arguments: args });
  await run();
  await run("file:///elsewhere.md");
  await run(uri);
  expect(said).toHaveLength(3);
  expect(said[0]).toMatch(/Open a repair log/);
  expect(said[2]).toMatch(/nothing is suspected/i);
  expect(edits).toEqual([]);
  expect(client.alive).toBe(true);
});

test("an editor that takes no edits gets lenses to read and a word instead of an edit", async () => {
  const { client, uri, said, lenses } = await opened(LOG, FULL_CAPABILITIES);
  const [top] = await lenses();
  expect((await client.request("codeLens/resolve", top)).command.command).toBe("");
  await client.request("workspace/executeCommand", { command: "mendlog.writeSuspects", arguments: [uri] });
  expect(said[0]).toMatch(/takes no edits/);
});

test("when a board file changes the client is asked to look at the lenses again", async () => {
  const { refreshes, lenses } = await opened();
  expect((await lenses()).length).toBe(2);
  const before = refreshes();
  bench?.remove("example.board.yaml");
  await bench?.watched("example.board.yaml", 3);
  await expect.poll(refreshes, { timeout: 10_000 }).toBeGreaterThan(before);
  expect(await lenses()).toEqual([]);
});
