// Holds what the server says and hears to the Language Server Protocol, by JSON Schemas of every message. They are made from the
// TypeScript declarations of `vscode-languageserver-protocol`, which are generated from the specification's meta-model
// (`metaModel.json`); that file itself is in no package, and is not what is read here. So a mistake of the declarations would be
// taken over. Properties that the declarations do not know fail, as do numbers that are no `uinteger`.
//
// Every capability that the server advertises is asked for what it promises, and has to answer with something at least once.
import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { ClientCapabilities, ResponseMessage, ServerCapabilities } from "vscode-languageserver-protocol";
import { exampleLog } from "../../../server/src/checks/example-board";
import { type Bench, cursor, startBench } from "../bench";
import { PROMISES, promised } from "./capabilities";
import { type Checks, protocolSchemas } from "./schemas";
import { type Talk, talk } from "./talk";

const MARKED = exampleLog(
  `## Diode check

| Ref | Pin | Reading | Note |
|-----|-----|---------|------|
| $0U14 | 1   | 0.58    |      |
| U14 | 2   | 1.42    | see [the board](example.board.yaml) |
| U41 | 3   | O.57    |      |
| U15 | 1   |         |      |

## Work done

| Ref | Action  | Part |
|-----|---------|------|
| U14 | replace | 74LS04 |
`,
  "symptoms: [dead]\ncomeback-of: 2025-081\n",
);
const { text: LOG, position: REF } = cursor(MARKED);
/** An earlier job, which the log names. */
const EARLIER = exampleLog("", "job: 2025-081\nreturned: 2025-11-03\n");
const BROKEN_BOARD = "mendlog-board: 1\nid: broken\ntitle: Broken\npartz: {}\n";

/** All that a client may say it can: each bends what the server sends. */
const ALL: ClientCapabilities = {
  workspace: {
    applyEdit: true,
    workspaceEdit: {
      documentChanges: true,
      resourceOperations: ["create", "rename", "delete"],
      changeAnnotationSupport: { groupsOnLabel: true },
    },
    didChangeConfiguration: { dynamicRegistration: true },
    didChangeWatchedFiles: { dynamicRegistration: true, relativePatternSupport: true },
    symbol: { resolveSupport: { properties: ["location.range"] } },
    workspaceFolders: true,
    configuration: true,
    semanticTokens: { refreshSupport: true },
    codeLens: { refreshSupport: true },
    inlayHint: { refreshSupport: true },
    diagnostics: { refreshSupport: true },
    fileOperations: { willRename: true, didRename: true, didDelete: true },
  },
  textDocument: {
    completion: {
      completionItem: {
        snippetSupport: true,
        labelDetailsSupport: true,
        documentationFormat: ["markdown"],
        resolveSupport: { properties: ["documentation"] },
      },
    },
    hover: { contentFormat: ["markdown"] },
    signatureHelp: {
      signatureInformation: {
        documentationFormat: ["markdown"],
        parameterInformation: { labelOffsetSupport: true },
        noActiveParameterSupport: true,
      },
    },
    definition: { linkSupport: true },
    documentSymbol: { hierarchicalDocumentSymbolSupport: true },
    codeAction: {
      codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix", "refactor", "source.fixAll"] } },
      isPreferredSupport: true,
      disabledSupport: true,
    },
    documentLink: { tooltipSupport: true },
    formatting: { dynamicRegistration: true },
    rangeFormatting: { dynamicRegistration: true, rangesSupport: true },
    rename: { prepareSupport: true },
    foldingRange: { lineFoldingOnly: true },
    semanticTokens: {
      requests: { range: true, full: { delta: true } },
      tokenTypes: [],
      tokenModifiers: [],
      formats: ["relative"],
    },
    inlayHint: { resolveSupport: { properties: ["tooltip"] } },
    diagnostic: {
      relatedInformation: true,
      tagSupport: { valueSet: [1, 2] },
      codeDescriptionSupport: true,
    },
    publishDiagnostics: {
      relatedInformation: true,
      tagSupport: { valueSet: [1, 2] },
      codeDescriptionSupport: true,
    },
  },
  window: { workDoneProgress: true },
};
const OLD: ClientCapabilities = {
  workspace: { applyEdit: true },
  textDocument: { inlayHint: {}, rangeFormatting: { rangesSupport: true } },
};

let schemas: ReadonlyMap<string, Checks>;
beforeAll(async () => {
  schemas = await protocolSchemas();
}, 240_000);

// biome-ignore lint/suspicious/noExplicitAny: what the answer is, is for the schemas to say
type Any = any;

describe.each([
  ["a client that can do everything", ALL],
  ["a client of the first days", OLD],
])("%s", (_name, capabilities) => {
  let bench: Bench;
  let client: Talk;
  let offered: ServerCapabilities;
  /** By method: whether any answer held something. */
  const told = new Map<string, boolean>();
  const sent = new Set<string>();
  const wrong: string[] = [];

  const look = (method: string, kind: "params" | "result", value: unknown): void => {
    const check = schemas.get(method)?.[kind];
    if (method.startsWith("mendlog/") || method.startsWith("$/")) return;
    if (!check && !(kind === "params" && value === undefined))
      wrong.push(`${method}: the protocol knows no ${kind}`);
    wrong.push(...(check?.(value ?? null) ?? []).slice(0, 5).map((why) => `${method} ${kind}: ${why}`));
  };
  const something = (result: unknown): boolean =>
    Array.isArray(result) ? result.length > 0 : result !== null && result !== undefined;
  const ask = async (method: string, params: unknown): Promise<Any> => {
    // What we send is held to the same, or it would prove nothing that the server takes it.
    look(method, "params", params);
    const response: ResponseMessage = await client.ask(method, params);
    if (response.error) wrong.push(`${method}: ${response.error.code} ${response.error.message}`);
    else look(method, "result", response.result);
    told.set(method, (told.get(method) ?? false) || something(response.result));
    return response.result;
  };
  const tell = (method: string, params: unknown): Promise<void> => {
    look(method, "params", params);
    sent.add(method);
    return client.tell(method, params);
  };

  beforeAll(async () => {
    bench = await startBench(
      `//- log.md\n${LOG}//- earlier.md\n${EARLIER}//- broken.board.yaml\n${BROKEN_BOARD}//- photo.bin\nx`,
      { ready: false },
    );
    bench.client.kill();
    client = talk((method, params) => {
      look(method, "params", params);
      const result =
        method === "workspace/configuration"
          ? (params as { items: unknown[] }).items.map(() => null)
          : method === "workspace/applyEdit"
            ? { applied: true }
            : null;
      look(method, "result", result);
      return result;
    });
    const root = bench.root;
    const { capabilities: has } = await ask("initialize", {
      processId: process.pid,
      rootUri: root,
      workspaceFolders: [{ uri: root, name: "bench" }],
      capabilities,
    });
    offered = has;
    await tell("initialized", {});
    await askAll();
  }, 120_000);
  afterAll(() => {
    client.end();
    bench.end();
  });

  const published = (): Any[] =>
    client.heard.flatMap(({ method, params }) =>
      method === "textDocument/publishDiagnostics" ? [params] : [],
    );

  async function askAll(): Promise<void> {
    const uri = bench.uri("log.md");
    const textDocument = { uri };
    const at = { textDocument, position: REF };
    const line = REF.line;
    const range = {
      start: { line: 0, character: 0 },
      end: { line: LOG.split("\n").length - 1, character: 0 },
    };
    const options = { tabSize: 2, insertSpaces: true };
    const has = (path: string): boolean => promised(offered).includes(path);
    await tell("textDocument/didOpen", {
      textDocument: { uri, languageId: "markdown", version: 1, text: LOG },
    });
    await tell("textDocument/didOpen", {
      textDocument: {
        uri: bench.uri("broken.board.yaml"),
        languageId: "yaml",
        version: 1,
        text: BROKEN_BOARD,
      },
    });
    if (has("diagnosticProvider.workspaceDiagnostics"))
      await ask("workspace/diagnostic", { previousResultIds: [] });
    const diagnostics = has("diagnosticProvider")
      ? (await ask("textDocument/diagnostic", { textDocument })).items
      : await client.until("textDocument/publishDiagnostics").then(() => published()[0]?.diagnostics ?? []);
    if (has("diagnosticProvider"))
      await ask("textDocument/diagnostic", { textDocument, previousResultId: "x" });

    const list = await ask("textDocument/completion", { ...at, context: { triggerKind: 1 } });
    await ask("textDocument/completion", { textDocument, position: { line: line + 3, character: 14 } });
    if (has("completionProvider.resolveProvider"))
      await ask(
        "completionItem/resolve",
        list.items.find((item: Any) => item.data !== undefined),
      );
    await ask("textDocument/hover", at);
    await ask("textDocument/hover", { textDocument, position: { line: line + 1, character: 14 } });
    await ask("textDocument/signatureHelp", at);
    await ask("textDocument/definition", at);
    await ask("textDocument/references", { ...at, context: { includeDeclaration: true } });
    await ask("textDocument/documentHighlight", at);
    if (has("renameProvider.prepareProvider")) await ask("textDocument/prepareRename", at);
    await ask("textDocument/rename", { ...at, newName: "U77" });
    await ask("textDocument/documentLink", { textDocument });
    await ask("textDocument/documentSymbol", { textDocument });
    await ask("textDocument/documentSymbol", { textDocument: { uri: bench.uri("broken.board.yaml") } });
    const [symbol] = await ask("workspace/symbol", { query: "U14" });
    if (has("workspaceSymbolProvider.resolveProvider")) await ask("workspaceSymbol/resolve", symbol);
    await ask("textDocument/foldingRange", { textDocument });
    await ask("textDocument/selectionRange", { textDocument, positions: [REF] });
    if (has("codeActionProvider")) {
      await ask("textDocument/codeAction", { textDocument, range, context: { diagnostics } });
      await ask("textDocument/codeAction", {
        textDocument,
        range: { start: REF, end: REF },
        context: { diagnostics: [] },
      });
    }
    await ask("textDocument/formatting", { textDocument, options });
    await ask("textDocument/rangeFormatting", { textDocument, range, options });
    await ask("textDocument/rangesFormatting", { textDocument, ranges: [range], options });
    await ask("textDocument/onTypeFormatting", {
      textDocument,
      position: { line: line + 4, character: 0 },
      ch: "\n",
      options,
    });
    const lenses = await ask("textDocument/codeLens", { textDocument });
    await ask("codeLens/resolve", lenses[0]);
    if (has("semanticTokensProvider.full")) {
      const tokens = await ask("textDocument/semanticTokens/full", { textDocument });
      await ask("textDocument/semanticTokens/range", { textDocument, range });
      await ask("textDocument/semanticTokens/full/delta", {
        textDocument,
        previousResultId: tokens.resultId,
      });
      await ask("textDocument/semanticTokens/full/delta", { textDocument, previousResultId: "none" });
    }
    const hints = await ask("textDocument/inlayHint", { textDocument, range });
    await ask("inlayHint/resolve", hints[0]);
    for (const command of ["mendlog.writeReport", "mendlog.writeSuspects", "mendlog.writePartsList"])
      await ask("workspace/executeCommand", { command, arguments: [uri] });
    if (has("workspace.fileOperations.willRename")) {
      const files = [{ oldUri: bench.uri("example.board.yaml"), newUri: bench.uri("renamed.board.yaml") }];
      await ask("workspace/willRenameFiles", { files });
      await tell("workspace/didRenameFiles", { files });
      await tell("workspace/didDeleteFiles", { files: [{ uri: bench.uri("photo.bin") }] });
    }
    await tell("textDocument/didChange", {
      textDocument: { uri, version: 2 },
      contentChanges: [{ range: { start: REF, end: REF }, text: "x" }],
    });
    await tell("textDocument/didSave", { textDocument });
    const here = { uri: bench.root, name: "bench" };
    await tell("workspace/didChangeWorkspaceFolders", { event: { added: [], removed: [here] } });
    await tell("workspace/didChangeWorkspaceFolders", { event: { added: [here], removed: [] } });
    await tell("textDocument/didClose", { textDocument });
    await ask("shutdown", undefined);
  }

  test("every capability is asked for what it promises, and answers with something", () => {
    const paths = promised(offered);
    expect(paths.filter((path) => !(path in PROMISES))).toEqual([]);
    const missing = paths.flatMap((path) => {
      const promise = PROMISES[path]!;
      return promise === "how" ? [] : promise.filter((method) => !told.get(method) && !sent.has(method));
    });
    expect(missing).toEqual([]);
    expect(paths.length).toBeGreaterThan(25);
  });

  test("whatever it registers later is something that was asked", () => {
    const registered = client.heard.flatMap(({ method, params }) =>
      method === "client/registerCapability"
        ? (params as Any).registrations.map((it: Any) => it.method as string)
        : [],
    );
    const own = new Set(["workspace/didChangeWatchedFiles", "workspace/didChangeConfiguration"]);
    for (const method of registered) expect(own.has(method) || told.has(method), method).toBe(true);
    if (capabilities === ALL) expect(new Set(registered).size).toBeGreaterThan(2);
  });

  test("every answer, and all that the server says and asks by itself, is as the protocol has it", () => {
    for (const message of client.heard)
      if (!("id" in message)) look(message.method, "params", message.params);
    expect(wrong).toEqual([]);
    expect(client.answered.length).toBeGreaterThan(25);
    expect(client.heard.length).toBeGreaterThan(2);
  });

  test("a fault would be seen", () => {
    const hover = schemas.get("textDocument/hover")!.result!;
    expect(hover({ contents: { kind: "markdown", value: "x" }, range: undefined })).toEqual([]);
    expect(hover({ contents: { kind: "html", value: "x" } })).not.toEqual([]);
    expect(hover({ contents: { kind: "markdown", value: "x" }, colour: 1 })).not.toEqual([]);
    const negative = { start: { line: -1, character: 0 }, end: { line: 0, character: 0 } };
    expect(schemas.get("textDocument/formatting")!.result!([{ range: negative, newText: "" }])).not.toEqual(
      [],
    );
  });
});

test("the declarations are of the protocol's version that is promised", () => {
  const { dependencies } = JSON.parse(
    readFileSync(
      new URL("../../../node_modules/vscode-languageserver/package.json", import.meta.url),
      "utf8",
    ),
  );
  expect(dependencies["vscode-languageserver-protocol"]).toMatch(/^\^?3\.(?:17|18)\./);
});
