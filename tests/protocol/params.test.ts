// Every request with parameters that it cannot be answered for: the client is told so, and never of a fault of the server's.
import { afterAll, beforeAll, expect, test } from "vitest";
import { type Bench, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

const LOG =
  "---\nmendlog: 1\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 1 | 1.42 |\n";

let bench: Bench;
beforeAll(async () => {
  bench = await startBench("", { capabilities: FULL_CAPABILITIES });
  await bench.client.open(bench.uri("log.md"), LOG);
});
afterAll(() => bench.end());

const METHODS = [
  ..."completion hover definition references documentHighlight signatureHelp prepareRename rename onTypeFormatting codeAction inlayHint semanticTokens/range semanticTokens/full semanticTokens/full/delta documentSymbol documentLink foldingRange codeLens formatting diagnostic selectionRange"
    .split(" ")
    .map((name) => `textDocument/${name}`),
  ..."completionItem/resolve codeLens/resolve codeAction/resolve workspace/executeCommand workspace/symbol workspace/willRenameFiles".split(
    " ",
  ),
];
const place = { line: 0, character: 0 };
const WRONG: readonly unknown[] = [
  undefined,
  null,
  [],
  {},
  { textDocument: 3 },
  { textDocument: { uri: 4 }, position: place },
];
/** Right as far as the document goes, and wrong behind it. */
const half = (uri: string): readonly unknown[] => [
  { textDocument: { uri } },
  { textDocument: { uri }, position: { line: "x" } },
  { textDocument: { uri }, position: place, range: { start: place } },
  { textDocument: { uri }, position: place, positions: [null], context: 3, options: 4, previousResultId: {} },
  { label: 1, data: [{}], command: "no.such", arguments: 7, query: "x", files: [null], title: "x", kind: 9 },
];

test.each(METHODS)(
  "%s refuses params of the wrong shape, and half right ones break nothing",
  async (method) => {
    for (const params of WRONG) {
      const error = await bench.client.request(method, params).then(
        () => undefined,
        (thrown) => thrown,
      );
      expect(error?.code, `${method} ${JSON.stringify(params)}: ${error?.message}`).toBe(-32602);
      expect(error.message).toContain(`${method} needs`);
    }
    for (const params of half(bench.uri("log.md"))) {
      const error = await bench.client.request(method, params).then(
        () => undefined,
        (thrown) => thrown,
      );
      expect(error?.code, `${method} ${JSON.stringify(params)}: ${error?.message}`).not.toBe(-32603);
    }
  },
);

test("what is asked rightly is answered", async () => {
  const textDocument = { uri: bench.uri("log.md") };
  expect(
    (await bench.client.request("textDocument/diagnostic", { textDocument })).items.length,
  ).toBeGreaterThan(0);
});
