// Which code a request that cannot be answered is refused with: Language Server Protocol 3.17, "Base Protocol", ErrorCodes and
// LSPErrorCodes; JSON-RPC 2.0, section 5.1. By the codes' names in the declarations, and by the numbers written out.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import { type Bench, startBench } from "../bench";
import { PROMISES } from "./capabilities";
import { type Talk, talk } from "./talk";

const LOG = exampleLog("## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 1 | 0.58 |\n");
const INITIALIZE = { processId: null, rootUri: null, capabilities: {} };
const MARKERS = {
  unknown: -32601,
  params: -32602,
  early: -32002,
  late: -32600,
  cancelled: -32800,
};

/** Every request that some capability promises; what is only told has no answer. */
const REQUESTS = [
  ...new Set(
    Object.values(PROMISES).flatMap((promise) =>
      promise === "how" ? [] : promise.filter((method) => !/\/did[A-Z]/.test(method)),
    ),
  ),
];

let bench: Bench;
let client: Talk;
beforeAll(async () => {
  bench = await startBench(Array.from({ length: 60 }, (_, n) => `//- logs/${n}.md\n${LOG}`).join(""), {
    ready: false,
  });
  bench.client.kill();
  client = talk((method, params) =>
    method === "workspace/configuration" ? params.items.map(() => null) : null,
  );
});
afterAll(() => {
  client.end();
  bench.end();
});

const codeOf = async (method: string, params?: unknown): Promise<number | undefined> =>
  (await client.ask(method, params)).error?.code;

describe("in the order of a session", () => {
  test("before initialize", async () => {
    expect(REQUESTS.length).toBeGreaterThan(20);
    for (const method of ["textDocument/hover", "workspace/symbol", "no/such"])
      expect(await codeOf(method, {}), method).toBe(MARKERS.early);
    expect(
      (await client.ask("initialize", { ...INITIALIZE, rootUri: bench.root, capabilities: CAN })).error,
    ).toBeUndefined();
    expect(await codeOf("initialize", INITIALIZE)).toBe(MARKERS.late);
    await client.tell("initialized", {});
  });

  test("a method that there is none of", async () => {
    for (const method of ["no/such", "textDocument/noSuch", "mendlog/noSuch", ""])
      expect(await codeOf(method, {}), method).toBe(MARKERS.unknown);
    // The protocol's own, of which nothing was promised.
    expect(await codeOf("textDocument/implementation", {})).toBe(MARKERS.unknown);
  });

  test("params that are none of its, for everything that is promised", async () => {
    const offered = REQUESTS.filter((method) => method !== "textDocument/rangesFormatting");
    const codes = await Promise.all(
      offered.flatMap((method) =>
        [{}, { textDocument: 5 }, { textDocument: { uri: 1 }, position: "x" }, []].map(
          async (params) => `${method} ${JSON.stringify(params)} ${await codeOf(method, params)}`,
        ),
      ),
    );
    const others = codes.filter((line) => !line.endsWith(` ${MARKERS.params}`));
    // What a client may have kept of earlier answers is left out by some, and then counts as nothing.
    expect(others.filter((line) => !/^workspace\/diagnostic \{.* undefined$/.test(line))).toEqual([]);
  });

  test("cancelled", async () => {
    const uri = bench.uri("logs/0.md");
    await client.tell("textDocument/didOpen", {
      textDocument: { uri, languageId: "markdown", version: 1, text: LOG },
    });
    const textDocument = { uri };
    const position = { line: 9, character: 3 };
    for (const [method, params] of [
      ["textDocument/references", { textDocument, position, context: { includeDeclaration: true } }],
      ["textDocument/hover", { textDocument, position }],
      ["workspace/diagnostic", { previousResultIds: [] }],
    ] as const)
      expect((await client.askAndCancel(method, params)).error?.code, method).toBe(MARKERS.cancelled);
  });

  test("after shutdown", async () => {
    expect((await client.ask("shutdown")).error).toBeUndefined();
    const textDocument = { uri: bench.uri("logs/0.md") };
    for (const [method, params] of [
      ["textDocument/hover", { textDocument, position: { line: 0, character: 0 } }],
      ["workspace/symbol", { query: "" }],
    ] as const)
      expect(await codeOf(method, params), method).toBe(MARKERS.late);
  });
});

const CAN = {
  workspace: {
    symbol: { resolveSupport: { properties: ["location.range"] } },
    fileOperations: { willRename: true },
  },
  textDocument: {
    diagnostic: {},
    inlayHint: {},
    rename: { prepareSupport: true },
    codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: ["quickfix"] } } },
    completion: { completionItem: { resolveSupport: { properties: ["documentation"] } } },
    semanticTokens: {
      requests: { full: { delta: true }, range: true },
      tokenTypes: [],
      tokenModifiers: [],
      formats: ["relative"],
    },
  },
};
