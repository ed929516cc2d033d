// The commands around a reference job, through the protocol.
import { afterEach, expect, test } from "vitest";
import { BOARD } from "../support/judged";
import { type InProcess, idle, startInProcess } from "./in-process";

const FOLDER = "file:///ws";
const LOG = `${FOLDER}/now.md`;
const FILE = `${FOLDER}/trial.board.yaml`;
const TEXT =
  "---\nmendlog: 1\njob: 2026-003\nboard: trial\n---\n\n# A board\n\n## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U6 | 3 | 0.58 |\n";

let server: InProcess | undefined;
afterEach(async () => {
  await server?.end();
  server = undefined;
});

// biome-ignore lint/suspicious/noExplicitAny: the edit's shape is what the test is about
type Edit = any;

async function open(
  text: string,
  files: Readonly<Record<string, string>> = { [FILE]: BOARD },
  applied = true,
) {
  const texts = new Map(Object.entries({ ...files, [LOG]: text }));
  server = await startInProcess(
    { texts, folder: FOLDER },
    {
      workspace: { applyEdit: true, workspaceEdit: { documentChanges: true } },
      textDocument: { codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: [] } } } },
    },
    {},
  );
  const { client } = server;
  const edits: Edit[] = [];
  const said: string[] = [];
  client.onRequest("workspace/applyEdit", (params: Edit) => {
    edits.push(params);
    return { applied };
  });
  client.onNotification("window/showMessage", ({ message }: { message: string }) => {
    said.push(message);
  });
  await client.sendNotification("textDocument/didOpen", {
    textDocument: { uri: LOG, languageId: "markdown", version: 3, text },
  });
  const run = async (command: string, uri = LOG) => {
    const answer = await client.sendRequest("workspace/executeCommand", { command, arguments: [uri] });
    await idle(server!);
    return answer;
  };
  return { client, edits, said, run };
}

test("the key is written into the log in one edit, and a second time it is said that it is there", async () => {
  const { edits, said, run } = await open(TEXT);
  expect(await run("mendlog.takeAsReference")).toBeNull();
  expect(edits).toHaveLength(1);
  const [change] = edits[0].edit.documentChanges;
  expect(change.textDocument).toEqual({ uri: LOG, version: 3 });
  expect(change.edits).toEqual([
    {
      range: { start: { line: 4, character: 0 }, end: { line: 4, character: 0 } },
      newText: "reference: true\n",
    },
  ]);
  expect(said.at(-1)).toContain("compared with this job once it is saved");
  expect(said.at(-1)).toContain("proves nothing");
});

test("a job that is one already is told so, and one without a board why it cannot be", async () => {
  const already = await open(TEXT.replace("board:", "reference: true\nboard:"));
  await already.run("mendlog.takeAsReference");
  expect(already.edits).toEqual([]);
  expect(already.said.at(-1)).toContain("is a reference for trial already");
  await server?.end();
  const nameless = await open(TEXT.replace("board: trial\n", ""));
  await nameless.run("mendlog.takeAsReference");
  expect(nameless.edits).toEqual([]);
  expect(nameless.said.at(-1)).toContain("does not say which board it is of");
});

test("an editor that refuses the edit is told of", async () => {
  const { said, run } = await open(TEXT, undefined, false);
  await run("mendlog.takeAsReference");
  expect(said.at(-1)).toContain("The front matter was not changed");
});

test("limits are written into the board file, which is given back to be shown", async () => {
  const { edits, said, run } = await open(TEXT.replace("board:", "reference: true\nboard:"));
  expect(await run("mendlog.proposeLimits")).toBe(FILE);
  const [change] = edits[0].edit.documentChanges;
  expect(change.textDocument).toEqual({ uri: FILE, version: null });
  expect(change.edits).toHaveLength(1);
  expect(change.edits[0].newText).toContain(
    '{ procedure: diode-check, ref: U6, pin: "3", low: 0.53 V, high: 0.63 V',
  );
  expect(said.at(-1)).toContain("1 limit proposed for the board file");
});

test("the action asks for it by name", async () => {
  const { client } = await open(TEXT.replace("board:", "reference: true\nboard:"));
  await idle(server!);
  const actions: Edit[] = await client.sendRequest("textDocument/codeAction", {
    textDocument: { uri: LOG },
    range: { start: { line: 3, character: 0 }, end: { line: 3, character: 0 } },
    context: { diagnostics: [] },
  });
  const action = actions.find(({ title }) => title === "Propose these limits for the board file");
  expect(action?.command).toMatchObject({ command: "mendlog.proposeLimits", arguments: [LOG] });
  expect(action?.edit).toBeUndefined();
});

test("without a board file it is said how to begin one, and nothing is written", async () => {
  const { edits, said, run } = await open(TEXT.replace("board:", "reference: true\nboard:"), {});
  expect(await run("mendlog.proposeLimits")).toBeNull();
  expect(edits).toEqual([]);
  expect(said.at(-1)).toContain("Write a board file from these logs");
});
