// A board file from logs, and fixes that write into it, through the protocol.
import { afterEach, expect, test } from "vitest";
import { type InProcess, idle, startInProcess } from "./in-process";

const FOLDER = "file:///ws";
const LOG = `${FOLDER}/logs/now.md`;
const FILE = `${FOLDER}/boards/halden.board.yaml`;
const chip = (ref: string, number: string) =>
  `## Diode check ${ref} (${number})\n\n| Pin | Reading |\n|-|-|\n| 1 | 0.58 |\n\n`;
const log = (front: string, body: string) => `---\nmendlog: 1\n${front}---\n\n${body}`;
const NOW = log("job: 2026-018\nboard: halden\n", chip("U5", "7404"));
const BEFORE = log("job: 2026-014\nboard: halden\n", chip("U6", "7408"));
const BOARD = 'mendlog-board: 1\nid: halden\ntitle: Halden # by hand\nparts:\n  U6: { device: "7408" }\n';

let server: InProcess | undefined;
afterEach(async () => {
  await server?.end();
  server = undefined;
});

// biome-ignore lint/suspicious/noExplicitAny: the shapes of answers are what the test is about
type Any = any;

async function open(text: string, files: Readonly<Record<string, string>>, creates = true, folder = FOLDER) {
  const texts = new Map(Object.entries({ ...files, [LOG]: text }));
  server = await startInProcess(
    { texts, folder },
    {
      workspace: {
        applyEdit: true,
        workspaceEdit: { documentChanges: true, ...(creates ? { resourceOperations: ["create"] } : {}) },
      },
      textDocument: {
        diagnostic: {},
        codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: [] } } },
      },
    },
    {},
  );
  const { client } = server;
  const edits: Any[] = [];
  const said: string[] = [];
  let answer: Any = { applied: true };
  client.onRequest("workspace/applyEdit", (params: Any) => {
    edits.push(params);
    return answer;
  });
  client.onNotification("window/showMessage", ({ message }: { message: string }) => {
    said.push(message);
  });
  await client.sendNotification("textDocument/didOpen", {
    textDocument: { uri: LOG, languageId: "markdown", version: 3, text },
  });
  await idle(server);
  const ask = async (method: string, params: object): Promise<Any> => {
    const found = await client.sendRequest(method, params);
    await idle(server!);
    return found;
  };
  const draft = (name?: string) =>
    ask("mendlog/boardDraft", { uri: LOG, ...(name === undefined ? {} : { name }) });
  const run = () => ask("workspace/executeCommand", { command: "mendlog.writeBoardFile", arguments: [LOG] });
  const actions = async (code: string) => {
    const { items } = await ask("textDocument/diagnostic", { textDocument: { uri: LOG } });
    const [diagnostic] = items.filter((item: Any) => item.code === code);
    return ask("textDocument/codeAction", {
      textDocument: { uri: LOG },
      range: diagnostic.range,
      context: { diagnostics: [diagnostic], only: ["quickfix"] },
    });
  };
  return {
    client,
    edits,
    said,
    draft,
    run,
    actions,
    refuse: (failureReason: string) => {
      answer = { applied: false, failureReason };
    },
  };
}

test("a new file is of all logs of the board, as they stand in the editor, and has a place", async () => {
  const { draft, client } = await open(NOW, { [`${FOLDER}/logs/before.md`]: BEFORE });
  await client.sendNotification("textDocument/didChange", {
    textDocument: { uri: LOG, version: 4 },
    contentChanges: [{ text: NOW + chip("U7", "7400") }],
  });
  const made = await draft();
  expect(made).toMatchObject({ kind: "new", id: "halden", told: "3 parts", logs: 2, place: FILE });
  expect(made.naming).toBeUndefined();
  expect(made.text).toContain('U5: { device: "7404" } # log 2026-018, line 7\n');
  expect(made.text).toContain('U6: { device: "7408" } # log 2026-014, line 7\n');
  expect(made.text).toContain('U7: { device: "7400" } # log 2026-018, line 13\n');
});

test("a file that is there is completed by edits of its text", async () => {
  const { draft } = await open(NOW, { [FILE]: BOARD });
  const made = await draft();
  expect(made).toMatchObject({ kind: "completes", uri: FILE, before: BOARD, logs: 1 });
  expect(made.edits).toHaveLength(1);
  expect(made.edits[0].newText).toContain('U5: { device: "7404" } # log 2026-018, line 7');
});

test("a log without a board asks for its name, and is named by an edit", async () => {
  const { draft } = await open(NOW.replace("board: halden\n", ""), {});
  expect(await draft()).toEqual({ kind: "needs-name" });
  const made = await draft("Halden 6809");
  expect(made).toMatchObject({
    kind: "new",
    id: "halden-6809",
    place: `${FOLDER}/boards/halden-6809.board.yaml`,
  });
  expect(made.text).toContain("id: halden-6809\ntitle: Halden 6809\n");
  expect(made.naming).toEqual({
    version: 3,
    edit: {
      range: { start: { line: 2, character: 13 }, end: { line: 2, character: 13 } },
      newText: "\nboard: halden-6809",
    },
  });
});

test("a file of the board's name that cannot be read is told of, and no second one begun", async () => {
  const { draft } = await open(NOW, { [FILE]: "mendlog-board: 1\nid: halden\nparts: [\n" });
  const made = await draft();
  expect(made.kind).toBe("refused");
  expect(made.reason).toContain("is not valid YAML, so nothing was written");
});

test("the command makes the file as one edit, and never one that is there", async () => {
  const { edits, said, run } = await open(NOW, {});
  expect(await run()).toBe(FILE);
  const [create, text] = edits[0].edit.documentChanges;
  expect(create).toEqual({ kind: "create", uri: FILE, options: { overwrite: false, ignoreIfExists: false } });
  expect(text.edits[0].newText).toContain("id: halden\n");
  expect(said.at(-1)).toContain("halden.board.yaml: 1 part from 1 log.");
});

test.each<[string, string, Readonly<Record<string, string>>, boolean, string]>([
  ["a log that names no board", NOW.replace("board: halden\n", ""), {}, true, "names no board"],
  [
    "an editor that makes no files",
    NOW,
    {},
    false,
    "mendlog board draft --board halden -o halden.board.yaml",
  ],
])("the command says why not: %s", async (_, text, files, creates, message) => {
  const { edits, said, run } = await open(text, files, creates);
  expect(await run()).toBeNull();
  expect(edits).toEqual([]);
  expect(said.at(-1)).toContain(message);
});

test("an edit that is refused is told of with its reason", async () => {
  const { said, run, refuse } = await open(NOW, {});
  refuse("the folder is read-only.");
  expect(await run()).toBeNull();
  expect(said.at(-1)).toContain("The board file was not written: the folder is read-only.");
});

test("the hint on the board's name asks for the file", async () => {
  const { actions } = await open(NOW, {});
  expect(await actions("unknown-board")).toMatchObject([
    {
      title: "Write a board file for halden from its logs",
      command: { command: "mendlog.writeBoardFile", arguments: [LOG] },
    },
  ]);
});

test("a fix writes into the board file, bound to its version where it is open", async () => {
  const { actions, client } = await open(NOW, { [FILE]: BOARD });
  const [closed] = await actions("not-in-board-file");
  expect(closed.title).toBe("Add U5 (7404) to the board file");
  expect(closed.edit.documentChanges).toMatchObject([{ textDocument: { uri: FILE, version: null } }]);
  const typed = `${BOARD}  U8: { device: "7400" }\n`;
  await client.sendNotification("textDocument/didOpen", {
    textDocument: { uri: FILE, languageId: "yaml", version: 7, text: typed },
  });
  const [opened] = await actions("not-in-board-file");
  const [change] = opened.edit.documentChanges;
  expect(change.textDocument).toEqual({ uri: FILE, version: 7 });
  expect(change.edits[0].newText).toContain('U5: { device: "7404" } # log 2026-018, line 7');
});
