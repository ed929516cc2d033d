// A client gets what it said it can take, and nothing else.
import { afterAll, afterEach, describe, expect, test } from "vitest";
import type { ClientCapabilities, Position } from "vscode-languageserver-protocol";
import { exampleLog } from "../../server/src/checks/example-board";
import { type Bench, cursor, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";
import { asked, edits } from "./wellformed";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const MARKED = exampleLog(
  `## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U1$04 | 2   | 1.42    |
| U41 | 3   | 0.57    |
`,
  "symptoms: [dead]\n",
);

async function opened(capabilities: ClientCapabilities, marked = MARKED) {
  bench = await startBench("//- old.md\n---\nmendlog: 1\nboard: example\nsymptoms: [dead]\n---\n", {
    capabilities,
  });
  const { client, uri } = bench;
  const { text, position } = cursor(marked);
  const requests: string[] = [];
  client.connection.onRequest((method: string) => {
    requests.push(method);
    return null;
  });
  const log = uri("log.md");
  await client.open(log, text);
  const textDocument = { uri: log };
  const diagnostics = capabilities.textDocument?.diagnostic
    ? (await client.request("textDocument/diagnostic", { textDocument })).items
    : await client.diagnostics(log);
  const ask = (what: string, params: object = {}) =>
    client.request(`textDocument/${what}`, { textDocument, position, ...params });
  return { bench, client, uri, log, text, position, ask, diagnostics, requests, textDocument };
}

describe("a client that can do nothing", () => {
  test("is asked for nothing and told of nothing it does not know", async () => {
    const { client, uri, requests, ask, diagnostics, log, text } = await opened({});
    const { capabilities } = client.initialized;
    for (const unknown of ["semanticTokensProvider", "inlayHintProvider", "diagnosticProvider"])
      expect(capabilities).not.toHaveProperty(unknown);
    expect(capabilities.positionEncoding).toBe("utf-16");
    expect(capabilities.renameProvider).toBe(true);
    // Its edits are in actions, which it does not take.
    expect(capabilities.codeActionProvider).toBeUndefined();
    expect(capabilities.completionProvider?.resolveProvider).toBe(false);
    expect(capabilities.documentFormattingProvider).toBe(true);
    expect(capabilities.workspace?.fileOperations).toBeUndefined();

    expect(diagnostics.length).toBeGreaterThan(1);
    for (const it of diagnostics) {
      for (const field of ["tags", "relatedInformation", "codeDescription"])
        expect(it).not.toHaveProperty(field);
    }
    // Literals it does not take; what there is to run can be run by name.
    expect(await ask("codeAction", { range: diagnostics[0].range, context: { diagnostics } })).toEqual([]);
    const renamed = await ask("rename", { newName: "U77" });
    expect(Object.keys(renamed.changes).sort()).toEqual([uri("example.board.yaml"), log].sort());
    expect(edits(asked(log, 1, text), renamed.changes[log])).toEqual([]);
    expect(renamed).not.toHaveProperty("documentChanges");
    expect(renamed).not.toHaveProperty("changeAnnotations");
    for (const lens of (await ask("codeLens")) ?? []) {
      const { command } = await client.request("codeLens/resolve", lens);
      expect(command.command).toBe("");
    }
    await client.request("workspace/executeCommand", { command: "mendlog.writeSuspects", arguments: [log] });

    // Whatever would make a server ask: settings, files and folders that change.
    await client.notify("workspace/didChangeConfiguration", { settings: { mendlog: { codeLens: false } } });
    await bench!.watched("example.board.yaml", 2);
    await client.change(log, 2, { text: text.replace("1.42", "0.58") });
    await client.diagnostics(log, 2);
    expect(await ask("codeLens")).toBeNull();
    expect(requests).toEqual([]);
    expect(client.registrations).toEqual([]);
    expect(client.progress).toEqual([]);
    expect(await client.stop()).toBe(0);
  });

  test("reads words without marks", async () => {
    const { ask, client } = await opened({});
    const plain = (it: { kind: string; value: string }) => {
      expect(it.kind).toBe("plaintext");
      expect(it.value).not.toMatch(/\*\*|\\[*_[\]|]|^\|[-|: ]+\|$/m);
      expect(it.value).not.toBe("");
    };
    const hover = await ask("hover");
    plain(hover.contents);
    expect(hover.contents.value).toContain("74LS04");
    const { items } = await ask("completion");
    const told = items.filter((it: { documentation?: unknown }) => it.documentation);
    expect(told.length).toBeGreaterThan(2);
    for (const it of told) plain(it.documentation);
    for (const it of items) {
      expect(it).not.toHaveProperty("labelDetails");
      expect(it).not.toHaveProperty("data");
      expect(it).not.toHaveProperty("command");
      expect(it.kind === undefined || it.kind <= 18).toBe(true);
      expect(it.insertTextFormat).toBe(1);
      expect(it.textEdit.newText).not.toMatch(/\$\{?\d/);
    }
    const help = await ask("signatureHelp");
    plain(help.signatures[0].documentation);
    for (const { label } of help.signatures[0].parameters) {
      expect(typeof label).toBe("string");
      expect(help.signatures[0].label).toContain(label);
    }
    for (const it of await ask("documentSymbol")) {
      expect(it).toHaveProperty("location.uri");
      expect(it).not.toHaveProperty("children");
    }
    for (const it of await ask("definition")) expect(it).toHaveProperty("uri");
    for (const it of await client.request("workspace/symbol", { query: "" })) {
      expect(it).toHaveProperty("location.range");
      expect(it.kind).toBeLessThanOrEqual(18);
    }
    for (const it of (await ask("documentLink")) ?? []) expect(it).not.toHaveProperty("tooltip");
  });
});

/** What one ability changes: [what it is, the ability, what is asked, what is then seen of the answer]. */
interface Change {
  readonly ability: ClientCapabilities;
  readonly ask: string;
  readonly params?: object;
  // biome-ignore lint/suspicious/noExplicitAny: each looks at an answer of its own
  readonly seen: (answer: any) => unknown;
  readonly without: unknown;
  readonly with: unknown;
}
const completionItem = (item: object): ClientCapabilities => ({
  textDocument: { completion: { completionItem: item } },
});
const NOWHERE: Position = { line: 0, character: 0 };

describe("each ability changes what it is about", () => {
  /** A client that can do nothing, for all of them. */
  let shared: Awaited<ReturnType<typeof opened>> | undefined;
  afterAll(() => shared?.bench.end());

  test.each(
    Object.entries<Change>({
      "hovers in Markdown": {
        ability: { textDocument: { hover: { contentFormat: ["markdown", "plaintext"] } } },
        ask: "hover",
        seen: ({ contents }) => [contents.kind, contents.value.includes("**")],
        without: ["plaintext", false],
        with: ["markdown", true],
      },
      "hovers rather in plain text": {
        ability: { textDocument: { hover: { contentFormat: ["plaintext", "markdown"] } } },
        ask: "hover",
        seen: ({ contents }) => contents.kind,
        without: "plaintext",
        with: "plaintext",
      },
      "details of a label": {
        ability: completionItem({ labelDetailsSupport: true }),
        ask: "completion",
        seen: ({ items }) => [
          items.some((it: object) => "labelDetails" in it),
          items.some((it: object) => "detail" in it),
        ],
        without: [false, true],
        with: [true, false],
      },
      "documentation later": {
        ability: completionItem({ resolveSupport: { properties: ["documentation"] } }),
        ask: "completion",
        seen: ({ items }) => [
          items.some((it: object) => "documentation" in it),
          items.some((it: object) => "data" in it),
        ],
        without: [true, false],
        with: [false, true],
      },
      "a tree of symbols": {
        ability: { textDocument: { documentSymbol: { hierarchicalDocumentSymbolSupport: true } } },
        ask: "documentSymbol",
        seen: ([first]) => Object.hasOwn(first, "selectionRange"),
        without: false,
        with: true,
      },
      "whole lines folded": {
        ability: { textDocument: { foldingRange: { lineFoldingOnly: true } } },
        ask: "foldingRange",
        seen: ([first]) => Object.hasOwn(first, "startCharacter"),
        without: true,
        with: false,
      },
      "one fold at most": {
        ability: { textDocument: { foldingRange: { rangeLimit: 1 } } },
        ask: "foldingRange",
        seen: (all) => all.length > 1,
        without: true,
        with: false,
      },
      "links of a definition": {
        ability: { textDocument: { definition: { linkSupport: true } } },
        ask: "definition",
        seen: ([first]) => Object.hasOwn(first, "targetUri"),
        without: false,
        with: true,
      },
      "versions of edited documents": {
        ability: { workspace: { workspaceEdit: { documentChanges: true } } },
        ask: "rename",
        params: { newName: "U77" },
        seen: (it) => Object.keys(it),
        without: ["changes"],
        with: ["documentChanges"],
      },
      "stretches of a signature": {
        ability: {
          textDocument: {
            signatureHelp: { signatureInformation: { parameterInformation: { labelOffsetSupport: true } } },
          },
        },
        ask: "signatureHelp",
        seen: (it) => Array.isArray(it.signatures[0].parameters[0].label),
        without: false,
        with: true,
      },
      "nothing asked where nothing is": {
        ability: {},
        ask: "hover",
        params: { position: NOWHERE },
        seen: (it) => it,
        without: null,
        with: null,
      },
    }),
  )("%s", async (_name, { ability, ask, params, seen, ...expected }) => {
    shared ??= await opened({});
    // It outlives the test.
    if (bench === shared.bench) bench = undefined;
    expect(seen(await shared.ask(ask, params))).toEqual(expected.without);
    const able = await opened(ability);
    expect(seen(await able.ask(ask, params))).toEqual(expected.with);
  });

  test("edits can be applied: suspects can be written", async () => {
    const { client, ask } = await opened({ workspace: { applyEdit: true } });
    const lenses = await Promise.all(
      (await ask("codeLens")).map((lens: object) => client.request("codeLens/resolve", lens)),
    );
    expect(lenses.map(({ command }) => command.command)).toContain("mendlog.writeSuspects");
  });
});

describe("positions count UTF-16 code units, which every client takes", () => {
  test.each([[["utf-8", "utf-32", "utf-16"]], [undefined]])(
    "whether %j are offered",
    async (positionEncodings) => {
      const marked = MARKED.replace("U1$04 |", "😀 U1$04 |");
      const general = positionEncodings && { positionEncodings };
      const { client, ask, position } = await opened({ ...(general && { general }) }, marked);
      expect(client.initialized.capabilities.positionEncoding).toBe("utf-16");
      expect(position.character).toBe("| 😀 U1".length);
      const { range } = await ask("hover");
      expect(range.start.character).toBeLessThanOrEqual(position.character);
      expect(range.end.character).toBe("| 😀 U14".length);
    },
  );
});

test("a client with everything gets everything", async () => {
  const { diagnostics, ask } = await opened(FULL_CAPABILITIES);
  const faulty = diagnostics.find((it: { code: string }) => it.code === "diode-out-of-window");
  expect(faulty.codeDescription.href).toMatch(/diode-out-of-window\.md$/);
  const actions = await ask("codeAction", {
    range: { start: NOWHERE, end: { line: 30, character: 0 } },
    context: { diagnostics },
  });
  expect(actions.length).toBeGreaterThan(0);
});
