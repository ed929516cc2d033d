// Fixes that reach beyond the file the finding is in.
import { existsSync } from "node:fs";
import { join } from "node:path";
import { afterEach, expect, test } from "vitest";
import type {
  AnnotatedTextEdit,
  ClientCapabilities,
  CodeAction,
  Diagnostic,
  TextDocumentEdit,
} from "vscode-languageserver-protocol";
import { boardHead } from "../support/boards";
import { type Bench, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const BOARD = `${boardHead("t")}parts:\n  U1: { device: XC-7, package: DIP-8 }\n`;
const DEVICE = "boards/XC-7.device.yaml";
const BEGIN = "Begin a device file for XC-7 with 8 pins";

const MAKES_FILES: ClientCapabilities = {
  ...FULL_CAPABILITIES,
  workspace: {
    ...FULL_CAPABILITIES.workspace,
    workspaceEdit: { documentChanges: true, resourceOperations: ["create"] },
  },
};

/** The quick fixes of all that is found in the file. */
async function fixesOf(
  name: string,
  text: string,
  capabilities: ClientCapabilities,
  before?: (b: Bench) => void,
) {
  bench = await startBench("", { capabilities });
  const { client, uri } = bench;
  before?.(bench);
  const textDocument = { uri: uri(name) };
  await client.open(textDocument.uri, text);
  const { items } = await client.request("textDocument/diagnostic", { textDocument });
  const actions: CodeAction[] = [];
  for (const diagnostic of items as Diagnostic[]) {
    actions.push(
      ...(await client.request("textDocument/codeAction", {
        textDocument,
        range: diagnostic.range,
        context: { diagnostics: [diagnostic], only: ["quickfix"] },
      })),
    );
  }
  return { actions, uri, root: bench.root };
}

test("a file is made and filled in one edit, and made only where there is none", async () => {
  const { actions, uri } = await fixesOf("boards/t.board.yaml", BOARD, MAKES_FILES);
  const action = actions.find(({ title }) => title === BEGIN);
  const [create, fill, ...others] = action?.edit?.documentChanges ?? [];
  expect(create).toEqual({
    kind: "create",
    uri: uri(DEVICE),
    options: { overwrite: false, ignoreIfExists: false },
  });
  expect(fill).toMatchObject({
    textDocument: { uri: uri(DEVICE), version: null },
    edits: [{ range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } } }],
  });
  expect(JSON.stringify(fill)).toContain("mendlog-device: 1");
  expect(others).toEqual([]);
  expect(existsSync(join(new URL(uri("boards")).pathname, "XC-7.device.yaml"))).toBe(false);
});

test("nothing is offered over a file that is there, whatever stands in it", async () => {
  const { actions } = await fixesOf("boards/t.board.yaml", BOARD, MAKES_FILES, (it) =>
    it.write(DEVICE, "begun by hand\n"),
  );
  expect(actions.map(({ title }) => title)).not.toContain(BEGIN);
});

test("nor to a client that makes no files", async () => {
  const { actions } = await fixesOf("boards/t.board.yaml", BOARD, FULL_CAPABILITIES);
  expect(actions.map(({ title }) => title)).not.toContain(BEGIN);
});

test("a fix of another file is an edit of that file", async () => {
  const log = `---
mendlog: 1
board: example
---

## Diode check U50 (7404)

| Pin | Reading |
|-----|---------|
| 1   | 0.58    |
`;
  const { actions, uri } = await fixesOf("log.md", log, MAKES_FILES);
  const board = actions.filter(({ edit }) => JSON.stringify(edit ?? {}).includes("example.board.yaml"));
  expect(board.length).toBeGreaterThan(0);
  for (const { edit } of board) {
    expect(edit?.documentChanges).toHaveLength(1);
    expect(edit?.documentChanges?.[0]).toMatchObject({
      textDocument: { uri: uri("example.board.yaml"), version: null },
    });
    expect(JSON.stringify(edit)).toContain("U50");
  }
});

const STOCK = "mendlog-shop: 1\ncount-stock: yes\nstock:\n  - { part: 74LS04, quantity: 3 }\n";
const FITTED =
  "---\nmendlog: 1\njob: 1\n---\n\n## Parts fitted\n\n| Part   | Quantity | Ref |\n|--------|----------|-----|\n| 74LS04 | 2        | U14 |\n";

test("a fix that is shown first is made as a whole when it is agreed to", async () => {
  const shows: ClientCapabilities = {
    ...FULL_CAPABILITIES,
    workspace: {
      ...FULL_CAPABILITIES.workspace,
      workspaceEdit: { documentChanges: true, changeAnnotationSupport: { groupsOnLabel: true } },
    },
  };
  const { actions, uri } = await fixesOf("log.md", FITTED, shows, (b) => b.write("mendlog.shop.yaml", STOCK));
  const { edit } = actions.find(({ title }) => title === "Take 2 x 74LS04 from the stock") ?? {};
  const [log, shop] = (edit?.documentChanges ?? []) as TextDocumentEdit[];
  expect([log?.textDocument.uri, shop?.textDocument.uri]).toEqual([uri("log.md"), uri("mendlog.shop.yaml")]);
  // An editor leaves unticked what is to be confirmed: that is only what changes nothing.
  const all = [...(log?.edits ?? []), ...(shop?.edits ?? [])] as AnnotatedTextEdit[];
  const asked = all.filter(({ annotationId }) => edit?.changeAnnotations?.[annotationId]?.needsConfirmation);
  expect(asked.map(({ newText, range }) => [newText, range.start, range.end])).toEqual([
    ["", { line: 0, character: 0 }, { line: 0, character: 0 }],
  ]);
  expect(all.map(({ newText }) => newText).join("")).toMatch(/stock-taken.*74LS04.*2.*1$/s);
  expect(all.length).toBe(3);
});
