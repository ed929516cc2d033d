// Colours, hints, highlights and selections over the wire.
import { afterEach, expect, test } from "vitest";
import { CancellationTokenSource } from "vscode-jsonrpc";
import type {
  CodeLens,
  DocumentHighlight,
  InlayHint,
  SelectionRange,
  SemanticTokens,
  SemanticTokensDelta,
} from "vscode-languageserver-protocol";
import { exampleLog } from "../../server/src/checks/example-board";
import { type Bench, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const LOG = exampleLog(
  `## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 1.42    |
| U15 | 3   | 0.58    |
| U15 | 1   | 0.57    |
`,
  "received: 2026-05-01\nsymptoms: [dead]\n",
);
const lineOf = (text: string, words: string): number =>
  text.split("\n").findIndex((line) => line.includes(words));

const CAPABILITIES = {
  ...FULL_CAPABILITIES,
  workspace: {
    ...FULL_CAPABILITIES.workspace,
    inlayHint: { refreshSupport: true },
    semanticTokens: { refreshSupport: true },
    codeLens: { refreshSupport: true },
  },
  textDocument: {
    ...FULL_CAPABILITIES.textDocument,
    inlayHint: { resolveSupport: { properties: ["tooltip"] } },
    semanticTokens: {
      requests: { range: true, full: { delta: true } },
      tokenTypes: [],
      tokenModifiers: [],
      formats: ["relative" as const],
    },
  },
};

async function opened(options: Parameters<typeof startBench>[1] = {}, files = "") {
  bench = await startBench(files, { capabilities: CAPABILITIES, ...options });
  const { client } = bench;
  const refreshed: string[] = [];
  for (const kind of ["inlayHint", "semanticTokens", "codeLens"]) {
    client.connection.onRequest(`workspace/${kind}/refresh`, () => {
      refreshed.push(kind);
      return null;
    });
  }
  const uri = bench.uri("log.md");
  await client.open(uri, LOG);
  const textDocument = { uri };
  const whole = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
  const full = (): Promise<SemanticTokens> =>
    client.request("textDocument/semanticTokens/full", { textDocument });
  const delta = (previousResultId: string): Promise<SemanticTokens | SemanticTokensDelta> =>
    client.request("textDocument/semanticTokens/full/delta", { textDocument, previousResultId });
  const hints = (range = whole): Promise<InlayHint[]> =>
    client.request("textDocument/inlayHint", { textDocument, range });
  return { client, uri, textDocument, refreshed, full, delta, hints };
}

/** The words of each token with what they are. */
function named(
  text: string,
  data: readonly number[],
  legend: { tokenTypes: string[]; tokenModifiers: string[] },
) {
  const lines = text.split("\n");
  const found: string[] = [];
  for (let i = 0, line = 0, character = 0; i < data.length; i += 5) {
    const [down = 0, right = 0, length = 0, type = 0, set = 0] = data.slice(i, i + 5);
    character = down === 0 ? character + right : right;
    line += down;
    const modifiers = legend.tokenModifiers.filter((_, bit) => (set >> bit) & 1);
    const words = lines[line]?.slice(character, character + length);
    found.push(`${words} ${[legend.tokenTypes[type], ...modifiers].join(".")}`);
  }
  return found;
}

function applied(data: readonly number[], { edits }: SemanticTokensDelta): number[] {
  const now = [...data];
  for (const { start, deleteCount, data: own = [] } of [...edits].reverse())
    now.splice(start, deleteCount, ...own);
  return now;
}

test("colours come whole, by range and as a delta that leads to the same", async () => {
  const { client, uri, textDocument, full, delta } = await opened();
  const provider = client.initialized.capabilities.semanticTokensProvider;
  expect(provider).toMatchObject({ full: { delta: true }, range: true });
  const legend = provider!.legend;
  const first = await full();
  expect(named(LOG, first.data, legend)).toEqual([
    "U14 benchPart",
    "2 benchPin",
    "1.42 benchReading.outOfLimits",
    "U15 benchPart",
    "3 benchPin",
    "0.58 benchReading.withinLimits",
    "U15 benchPart",
    "1 benchPin",
    "0.57 benchReading.withinLimits",
  ]);
  const line = lineOf(LOG, "0.58");
  const range = { start: { line, character: 0 }, end: { line, character: 99 } };
  const part: SemanticTokens = await client.request("textDocument/semanticTokens/range", {
    textDocument,
    range,
  });
  expect(named(LOG, part.data, legend)).toEqual([
    "U15 benchPart",
    "3 benchPin",
    "0.58 benchReading.withinLimits",
  ]);

  expect(await delta(first.resultId!)).toEqual({ resultId: first.resultId, edits: [] });
  const text = LOG.replace("0.58 ", "1.58 ");
  await client.change(uri, 2, { text });
  const changed = (await delta(first.resultId!)) as SemanticTokensDelta;
  // One digit makes one verdict another: five numbers, not the whole list.
  expect(changed.edits.map(({ deleteCount }) => deleteCount)).toEqual([5]);
  expect(changed.resultId).not.toBe(first.resultId);
  const now = applied(first.data, changed);
  expect(now).toEqual((await full()).data);
  expect(named(text, now, legend)).toContain("1.58 benchReading.outOfLimits");

  // A name that is not the last one's, after a restart of the client say, is answered with the whole.
  expect(await delta("of another life")).toHaveProperty("data", now);
});

test("a cancelled request is told so and the next one is answered", async () => {
  const { client, uri, textDocument, full } = await opened();
  await full();
  const range = { start: { line: 0, character: 0 }, end: { line: 99_999, character: 0 } };
  // Long enough that no answer is there before the cancellation is heard: each is of a text never looked at.
  const long = (n: number): string =>
    `${LOG}\n${`## Diode check ${n}\n\n| Ref | Pin | Reading |\n|---|---|---|\n${"| U14 | 1 | 0.58 |\n".repeat(60)}\n`.repeat(60)}`;
  for (const [n, [method, params]] of (
    [
      ["textDocument/semanticTokens/full", { textDocument }],
      ["textDocument/inlayHint", { textDocument, range }],
    ] as const
  ).entries()) {
    client.change(uri, n + 2, { text: long(n) });
    const source = new CancellationTokenSource();
    const asked = client.request(method, params, source.token);
    source.cancel();
    await expect(asked).rejects.toMatchObject({ code: -32800 });
  }
  expect((await full()).data.length).toBeGreaterThan(0);
});

test("hints come by range, and say more when they are looked at", async () => {
  const { client, uri, hints } = await opened();
  expect(client.initialized.capabilities.inlayHintProvider).toEqual({ resolveProvider: true });
  const line = lineOf(LOG, "1.42");
  const found = await hints({ start: { line, character: 0 }, end: { line, character: 99 } });
  expect(found.map(({ label, position }) => [label, position.line])).toEqual([
    ["1Y · ROW_1", line],
    ["▲", line],
  ]);
  expect(found.every(({ tooltip }) => tooltip === undefined)).toBe(true);
  const told: InlayHint = await client.request("inlayHint/resolve", found[1]);
  expect(told.tooltip).toMatchObject({
    kind: "markdown",
    value: expect.stringMatching(/Out of limits.*U14 pin 2/s),
  });
  await client.change(uri, 2, { text: `${LOG}\n` });
  expect((await client.request("inlayHint/resolve", found[1])).tooltip).toBeUndefined();
});

test("settings turn each kind off, by folder, and the client is asked to look again", async () => {
  const settings: Record<string, unknown> = {};
  const { client, hints, refreshed, textDocument } = await opened({ settings });
  const labels = async () => new Set((await hints()).map(({ label }) => String(label).trim()));
  expect(await labels()).toContain("▲");
  // Lenses are asked for again once the other jobs were read, whenever that is.
  await expect.poll(() => refreshed, { timeout: 10_000 }).toContain("codeLens");
  const use = async (own: unknown) => {
    refreshed.length = 0;
    settings.mendlog = own;
    await client.notify("workspace/didChangeConfiguration", { settings: null });
    await expect.poll(() => refreshed.length, { timeout: 10_000 }).toBeGreaterThan(0);
  };
  await use({ inlayHints: { pins: false, verdicts: "doubtful" } });
  expect(refreshed).toEqual(["inlayHint"]);
  expect((await labels()).has("○")).toBe(false);
  expect((await labels()).has("▲")).toBe(true);
  await use({ inlayHints: { pins: false, verdicts: "off" } });
  expect(await hints()).toEqual([]);
  await use({ codeLens: false });
  expect(refreshed.sort()).toEqual(["codeLens", "inlayHint"]);
  expect(await client.request("textDocument/codeLens", { textDocument })).toBeNull();
  await use({ inlayHints: { verdicts: "some" } });
  await client.until("the word about the setting", () =>
    client.log.find((line) => /mendlog\.inlayHints\.verdicts is "some"; use one of "all"/.test(line)),
  );
  expect(await labels()).toContain("▲");
});

test("when a board file changes everything beside the text is asked for again", async () => {
  const { refreshed, hints } = await opened();
  expect((await hints()).length).toBeGreaterThan(0);
  bench?.remove("example.board.yaml");
  await bench?.watched("example.board.yaml", 3);
  await expect
    .poll(() => [...new Set(refreshed)].sort(), { timeout: 10_000 })
    .toEqual(["codeLens", "inlayHint", "semanticTokens"]);
});

test("highlights tell a reading taken from a thing named; selections answer each place", async () => {
  const { client, textDocument } = await opened();
  const line = lineOf(LOG, "1.42");
  const boxed: DocumentHighlight[] = await client.request("textDocument/documentHighlight", {
    textDocument,
    position: { line, character: 8 },
  });
  expect(boxed.map(({ range, kind }) => [range.start.line, range.start.character, kind])).toEqual([
    [line, 8, 2],
    [line, 14, 3],
  ]);
  const positions = [
    { line, character: 15 },
    { line: 1, character: 3 },
  ];
  const grown: SelectionRange[] = await client.request("textDocument/selectionRange", {
    textDocument,
    positions,
  });
  expect(grown.map(({ range }) => range.start.line)).toEqual([line, 1]);
  expect(grown[0]?.parent?.parent?.range.start.character).toBe(0);
});

test("the counts of a table, with the places for a client that can show them", async () => {
  const earlier = LOG.replace("2026-05-01", "2026-01-01");
  const { client, textDocument } = await opened(
    { initializationOptions: { showPlaces: true } },
    `//- old.md\n${earlier}//- later.md\n${LOG.replace("2026-05-01", "2026-06-01")}`,
  );
  const resolved = async (of: string): Promise<CodeLens | undefined> => {
    const all: CodeLens[] = await client.request("textDocument/codeLens", { textDocument });
    const lens = all.find(({ data }) => data.lens.of === of);
    return lens && client.request("codeLens/resolve", lens);
  };
  const counts = await resolved("readings");
  expect(counts?.command).toMatchObject({
    title: "3 readings: 1 out of limits, 2 within limits",
    command: "mendlog.showPlaces",
  });
  expect(counts?.command?.arguments?.[2]).toMatchObject([
    { range: { start: { line: lineOf(LOG, "1.42") } } },
  ]);
  await expect
    .poll(() => resolved("earlier"), { timeout: 10_000 })
    .toMatchObject({ command: { title: "1 earlier job with this symptom", command: "mendlog.showPlaces" } });
  const [place] = (await resolved("earlier"))?.command?.arguments?.[2] ?? [];
  expect(place.uri).toMatch(/old\.md$/);
  expect(place.range.start.line).toBe(lineOf(earlier, "symptoms:"));
});

test("a client that knows none of this is offered none of it, and one without the command reads the counts", async () => {
  const { client, textDocument } = await opened({ capabilities: {} });
  expect(client.initialized.capabilities.inlayHintProvider).toBeUndefined();
  expect(client.initialized.capabilities.semanticTokensProvider).toBeUndefined();
  const all: CodeLens[] = await client.request("textDocument/codeLens", { textDocument });
  const counts: CodeLens = await client.request(
    "codeLens/resolve",
    all.find(({ data }) => data.lens.of === "readings"),
  );
  expect(counts.command).toEqual({ title: "3 readings: 1 out of limits, 2 within limits", command: "" });
});
