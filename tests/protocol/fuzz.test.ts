// Whatever is typed and asked: every answer is as the protocol says, and what was read bit by bit is what is read again.
import { readFileSync } from "node:fs";
import fc from "fast-check";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type {
  ClientCapabilities,
  Position,
  Range,
  SemanticTokensDelta,
  SemanticTokensOptions,
  TextDocumentContentChangeEvent,
} from "vscode-languageserver-protocol";
import { EXAMPLE_BOARD, exampleLog } from "../../server/src/checks/example-board";
import { type Bench, cursor, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";
import * as wellformed from "./wellformed";
import { type Asked, asked, drawnIn } from "./wellformed";

const CAPABILITIES: ClientCapabilities = {
  ...FULL_CAPABILITIES,
  textDocument: {
    ...FULL_CAPABILITIES.textDocument,
    inlayHint: { resolveSupport: { properties: ["tooltip"] } },
    semanticTokens: {
      requests: { range: true, full: { delta: true } },
      tokenTypes: [],
      tokenModifiers: [],
      formats: ["relative"],
    },
    codeAction: { ...FULL_CAPABILITIES.textDocument!.codeAction, disabledSupport: true },
  },
};

const READINGS = `## Diode check

| Ref | Pin | Reading | Note |
|-----|----:|---------|------|
| U14 | 1   | 0.58    |      |
| U14 | 2   | 1.42    | \\| 😀 |
| U41 | 3   | 0,57 V  |      |
`;
const WIDE = `## Diode check after repair

| Pin | U14 | U15 |
|-----|-----|-----|
| 1   | .58 | OL  |
| 2   | ~0.6| 580mV |
`;
const REST = `## Supply rails, loaded

| Rail | Reading | Ripple |
|------|---------|--------|
| +5V  | 4.6     | 80 mV  |

## Switch matrix

|  | SW_COL_1 | SW_COL_2 | SW_COL_3 |
|--|--|--|--|
| SW_ROW_1 | ok | dead | ok |
| SW_ROW_2 | ok | dead | ok |

## Work done

| Ref | Done |
|-----|------|
| U14 | replaced, socket |

<!-- mendlog: ignore unknown-designator -->
See [the board](example.board.yaml) and U15 pin 3.
`;
const FRONT = "received: 2026-05-01\nsymptoms: [dead]\nmeter: none\nrom-set: first\n";
const demo = (path: string) => readFileSync(new URL(`../../demo/${path}`, import.meta.url), "utf8");

/** Texts that edits begin from. */
const LOGS: readonly string[] = [
  exampleLog(READINGS + WIDE, FRONT),
  exampleLog(`Found 😀 on U14.\n\n${REST}${READINGS}`, FRONT).trimEnd(),
  exampleLog(READINGS + REST, FRONT).replaceAll("\n", "\r\n"),
  `\uFEFF${exampleLog(WIDE)}`,
  exampleLog(READINGS.replaceAll("| ", "|\t")).replaceAll("\n", "\r"),
  demo("logs/2026-004-controller.md").slice(0, 4000),
  "---\nmendlog: 1\n---\n",
  "",
];
const BOARDS: readonly string[] = [
  EXAMPLE_BOARD,
  EXAMPLE_BOARD.replaceAll("\n", "\r\n"),
  demo("boards/regatta-driver.board.yaml").slice(0, 3000),
];

/** What is typed, pasted and left half done. */
const PIECES = [
  ..."|-:#`<>[]{}&*\"'\\ \t019.,~µ😀",
  "\n",
  "\r\n",
  "\r",
  "\n\n",
  "|\n|",
  "\\|",
  "---\n",
  "\uFEFF",
  "\ud83d",
  "U14",
  "U99",
  "0.58",
  "OL",
  "4k7",
  "## Diode check\n",
  "## ",
  "```\n",
  "<!-- mendlog: ",
  "-->",
  "$\\{1:x}",
  "| U15 | 4 | 0.6 | |\n",
  "|-----|-----|\n",
  "| Ref | Pin | Reading |\n|-|-|-|\n",
  "board: example\n",
  "symptoms: [a, b\n",
  "  U14: { device: 74LS04 }\n",
  "nets:\n  GND: [U14.7, U15.7]\n",
  "see U14 and https://example.org/(a)\n",
  "[x](nowhere.md)",
  "",
];

/** Every value as often as any other: small ones would all lie in the front matter. */
const share = fc.noBias(fc.nat(1000)).map((it) => it / 1000);
/**
 * Shares of the text, so that a place means something whatever the text has become; past 1 is past the end. Most lie
 * below the front matter, without which nothing is a log any more.
 */
const place = fc.record({
  down: fc.oneof({ weight: 40, arbitrary: share }, { weight: 1, arbitrary: fc.constant(3) }),
  along: fc.oneof(
    { weight: 6, arbitrary: share },
    { weight: 2, arbitrary: fc.constantFrom(0, 1) },
    { weight: 1, arbitrary: fc.constant(9) },
  ),
  anywhere: fc.noBias(fc.nat(11)).map((it) => it === 0),
});
interface Share {
  readonly down: number;
  readonly along: number;
  readonly anywhere: boolean;
}
const piece = fc.noBias(fc.constantFrom(...PIECES));
const change = fc.oneof(
  { weight: 20, arbitrary: fc.record({ at: place, deletes: fc.noBias(fc.nat(6)), text: piece }) },
  { weight: 4, arbitrary: fc.record({ at: place, lines: fc.noBias(fc.nat(4)), along: share, text: piece }) },
  { weight: 1, arbitrary: fc.record({ whole: fc.constantFrom(...LOGS) }) },
);
type Change =
  | { readonly at: Share; readonly deletes: number; readonly text: string }
  | { readonly at: Share; readonly lines: number; readonly along: number; readonly text: string }
  | { readonly whole: string };
const step = fc.record({ changes: fc.array(change, { minLength: 1, maxLength: 3 }), at: place, to: place });

const positionOf = (lines: readonly string[], { down, along, anywhere }: Share): Position => {
  const head = anywhere ? 0 : lines.indexOf("---", 1) + 1;
  const line = head + Math.floor(down * (lines.length - 1 - head) + (down > 1 ? 7 : 0));
  const width = lines[line]?.length ?? 5;
  const character = along > 1 ? width + 9 : Math.round(along * width);
  // No cursor stands between the halves of a character.
  const cut = /^[\ud800-\udbff][\udc00-\udfff]$/.test(lines[line]?.slice(character - 1, character + 1) ?? "");
  return { line, character: cut ? character - 1 : character };
};

/** The protocol's way, written the slow way. */
function offsetOf(text: string, at: Position): number {
  const lines = text.split(/(?<=\r\n|\n|\r(?!\n))/);
  if (/[\r\n]$/.test(text)) lines.push("");
  if (at.line >= lines.length) return text.length;
  const start = lines.slice(0, at.line).join("").length;
  return start + Math.min(at.character, lines[at.line]!.replace(/[\r\n]+$/, "").length);
}

/** The change as it goes over the wire, and the text after it. */
function applied(text: string, it: Change): { wire: TextDocumentContentChangeEvent; text: string } {
  if ("whole" in it) return { wire: { text: it.whole }, text: it.whole };
  const { lines } = asked("", 0, text);
  const start = positionOf(lines, it.at);
  const end =
    "lines" in it
      ? {
          line: start.line + it.lines,
          character: Math.round(it.along * (lines[start.line + it.lines]?.length ?? 3)),
        }
      : { line: start.line, character: start.character + it.deletes };
  const [a, b] = [offsetOf(text, start), offsetOf(text, end)];
  const range: Range = a <= b ? { start, end } : { start: end, end: start };
  return {
    wire: { range, text: it.text },
    text: text.slice(0, Math.min(a, b)) + it.text + text.slice(Math.max(a, b)),
  };
}

let bench: Bench;
let legend: { types: number; modifiers: number };
let documents = 0;
beforeAll(async () => {
  bench = await startBench(`//- other.md\n${exampleLog(READINGS)}`, { capabilities: CAPABILITIES });
  const { legend: named } = bench.client.initialized.capabilities
    .semanticTokensProvider as SemanticTokensOptions;
  legend = { types: named.tokenTypes.length, modifiers: named.tokenModifiers.length };
});
afterAll(() => bench.end());

const others = (uri: string): Asked | undefined => {
  if (uri === bench.uri("example.board.yaml")) return asked(uri, 1, EXAMPLE_BOARD);
  if (uri === bench.uri("other.md")) return asked(uri, 1, exampleLog(READINGS));
  return undefined;
};

// biome-ignore lint/suspicious/noExplicitAny: what the answer is, is for the look to say
type Look = (answer: any) => string[];

/** Asks everything there is to ask at a place and of a stretch; gives what is wrong with the answers. */
async function wrongIn(doc: Asked, at: Position, to: Position): Promise<string[]> {
  const { client } = bench;
  const textDocument = { uri: doc.uri };
  const wrong: string[] = [];
  const ask = async (method: string, params: object, look: Look): Promise<void> => {
    try {
      const answer = await client.request(method, { textDocument, ...params });
      wrong.push(...look(answer).map((each) => `${method}: ${each}`));
    } catch (error) {
      const { code } = error as { code?: number };
      // A refusal in words: what cannot be renamed.
      if (!(code === -32803 && /ename/.test(method))) wrong.push(`${method}: ${error}`);
    }
  };
  const [a, b] = [drawnIn(doc, at), drawnIn(doc, to)];
  const forwards = a.line < b.line || (a.line === b.line && a.character <= b.character);
  const range: Range = forwards ? { start: a, end: b } : { start: b, end: a };
  const own = { uri: doc.uri, position: at };
  const typed = (it: { edits?: []; cursor?: Position } | null) => wellformed.edits(doc, it?.edits ?? []);

  const { items } = await client.request("textDocument/diagnostic", { textDocument });
  wrong.push(...wellformed.diagnostics(doc, items, others));
  await Promise.all([
    ask("textDocument/completion", { position: at }, (it) => wellformed.completion(doc, at, it)),
    ask(
      "textDocument/completion",
      { position: at, context: { triggerKind: 2, triggerCharacter: "5" } },
      (it) => wellformed.completion(doc, at, it),
    ),
    ask(
      "textDocument/completion",
      { position: at, context: { triggerKind: 2, triggerCharacter: "." } },
      (it) => wellformed.completion(doc, at, it),
    ),
    ask("textDocument/hover", { position: at }, (it) => wellformed.hover(doc, at, it)),
    ask("textDocument/definition", { position: at }, (it) => wellformed.locations(doc, at, it, others)),
    ask("textDocument/references", { position: at, context: { includeDeclaration: true } }, (it) =>
      wellformed.locations(doc, at, it, others),
    ),
    ask("textDocument/documentHighlight", { position: at }, (it) => wellformed.highlights(doc, at, it)),
    ask("textDocument/documentSymbol", {}, (it) => wellformed.symbols(doc, it)),
    ask("textDocument/foldingRange", {}, (it) => wellformed.folds(doc, it)),
    ask("textDocument/selectionRange", { positions: [at, to] }, (it) =>
      wellformed.selections(doc, [at, to], it),
    ),
    ask("textDocument/semanticTokens/range", { range }, (it) =>
      wellformed.tokens(doc, it.data, legend, range),
    ),
    ask("textDocument/inlayHint", { range }, (it) => wellformed.hints(doc, range, it)),
    ask("textDocument/codeLens", {}, (it) => wellformed.lenses(doc, it)),
    ask("textDocument/documentLink", {}, (it) => wellformed.links(doc, it)),
    ask("textDocument/signatureHelp", { position: at }, wellformed.signature),
    ask("textDocument/codeAction", { range, context: { diagnostics: items } }, (it) =>
      wellformed.actions(doc, it),
    ),
    ask("textDocument/codeAction", { range, context: { diagnostics: [], only: ["source.fixAll"] } }, (it) =>
      wellformed.actions(doc, it),
    ),
    ask("textDocument/formatting", { options: {} }, (it) => wellformed.edits(doc, it ?? [])),
    ask("textDocument/rangeFormatting", { range, options: {} }, (it) => wellformed.edits(doc, it ?? [])),
    ask("textDocument/onTypeFormatting", { position: at, ch: "\n", options: {} }, (it) =>
      wellformed.edits(doc, it ?? []),
    ),
    ask("textDocument/prepareRename", { position: at }, (it) => (it ? wellformed.range(doc, it.range) : [])),
    ask("textDocument/rename", { position: at, newName: "U77" }, (it) =>
      it
        ? wellformed.workspaceEdit(
            doc,
            it,
            (uri) => others(uri) && { ...others(uri)!, version: null as never },
          )
        : [],
    ),
    ask("mendlog/nextCell", { ...own, direction: "next" }, typed),
    ask("mendlog/nextCell", { ...own, direction: "previous" }, typed),
    ask("mendlog/startRow", own, typed),
    ask("mendlog/leaveRow", own, (it: [] | null) => wellformed.edits(doc, it ?? [])),
    ask("mendlog/enterAt", own, () => []),
    ask("mendlog/writeCell", { ...own, text: "1|2" }, typed),
    ask("mendlog/pasteCells", { ...own, text: "1\t2\n3\t4\n" }, typed),
    ask("mendlog/verdict", own, (it) => (it ? wellformed.range(doc, it.range) : [])),
    ask("mendlog/meterQuestion", own, () => []),
    ask("mendlog/preview", own, (it) =>
      (it?.findings ?? []).flatMap(({ line }: { line: number }) =>
        doc.lines[line] === undefined ? ["no line"] : [],
      ),
    ),
    ask("mendlog/suspects", own, () => []),
    ask("mendlog/toolReadings", { ...own, ref: "U14", from: at.character }, (it) =>
      (it?.readings ?? []).flatMap(({ line }: { line: number }) =>
        doc.lines[line - 1] === undefined ? ["no line"] : [],
      ),
    ),
    ask(
      "mendlog/toolJudge",
      {
        ...own,
        procedure: "Diode check",
        readings: [{ ref: "U14", pin: 1, value: doc.lines[at.line] ?? "" }, 7],
      },
      () => [],
    ),
    ask("mendlog/toolNext", own, () => []),
    ask("mendlog/guide", own, (it) => typed(it?.cell ?? null)),
    ask("mendlog/jobStatus", { uri: doc.uri, today: "2026-05-02", now: "2026-05-02T10:00" }, () => []),
    ask("mendlog/tableOffers", own, () => []),
    ask("mendlog/boardDraft", { ...own, name: "|# x" }, () => []),
  ]);
  return wrong;
}

/** What a whole document is answered with. */
async function whole(uri: string) {
  const { client } = bench;
  const textDocument = { uri };
  const range = { start: { line: 0, character: 0 }, end: { line: 9999, character: 0 } };
  const [diagnostics, symbols, folds, tokens, hints, lenses, links] = await Promise.all([
    client.request("textDocument/diagnostic", { textDocument }),
    client.request("textDocument/documentSymbol", { textDocument }),
    client.request("textDocument/foldingRange", { textDocument }),
    client.request("textDocument/semanticTokens/full", { textDocument }),
    client.request("textDocument/inlayHint", { textDocument, range }),
    client.request("textDocument/codeLens", { textDocument }),
    client.request("textDocument/documentLink", { textDocument }),
  ]);
  const version = /"version":\d+/g;
  return {
    ...{ diagnostics: diagnostics.items, symbols, folds, tokens: tokens.data, links },
    hints: JSON.stringify(hints).replace(version, ""),
    lenses: JSON.stringify(lenses).replace(version, ""),
  };
}

function withDelta(before: readonly number[], { edits }: SemanticTokensDelta): number[] {
  const data = [...before];
  for (const { start, deleteCount, data: put } of [...edits].reverse()) {
    data.splice(start, deleteCount, ...(put ?? []));
  }
  return data;
}

const RUNS = Number(process.env.MENDLOG_RUNS ?? 8);

describe("random edits and questions", () => {
  const kinds: [string, string, string, readonly string[]][] = [
    ["a log", "log", ".md", LOGS],
    ["a board file", "odd", ".board.yaml", BOARDS],
  ];
  test.each(kinds)("of %s", async (_name, stem, extension, texts) => {
    const { client } = bench;
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...texts),
        fc.array(step, { minLength: 3, maxLength: 8 }),
        async (begin, steps) => {
          documents += 1;
          const logged = client.log.length;
          const uri = bench.uri(`${stem}${documents}${extension}`);
          const textDocument = { uri };
          let text = begin;
          let version = 1;
          await client.open(uri, text, extension === ".md" ? "markdown" : "yaml");
          try {
            let tokens = await client.request("textDocument/semanticTokens/full", { textDocument });
            for (const { changes, at, to } of steps) {
              version += 1;
              const wires = changes.map((it) => {
                const after = applied(text, it);
                text = after.text;
                return after.wire;
              });
              await client.change(uri, version, ...wires);
              const doc = asked(uri, version, text);
              const [one, other] = [positionOf(doc.lines, at), positionOf(doc.lines, to)];
              const wrong = await wrongIn(doc, one, other);
              wrong.push(...client.log.slice(logged).filter((line) => / failed: |Unhandled/.test(line)));
              expect(wrong, JSON.stringify({ text, one, other })).toEqual([]);

              const delta = await client.request("textDocument/semanticTokens/full/delta", {
                textDocument,
                previousResultId: tokens.resultId,
              });
              const data = delta.data ?? withDelta(tokens.data, delta);
              expect(wellformed.tokens(doc, data, legend)).toEqual([]);
              tokens = { resultId: delta.resultId, data };
            }
            const bitByBit = await whole(uri);
            expect(tokens.data).toEqual(bitByBit.tokens);
            await client.close(uri);
            await client.open(uri, text, extension === ".md" ? "markdown" : "yaml");
            expect(bitByBit).toEqual(await whole(uri));
          } finally {
            await client.close(uri);
          }
          expect(client.alive).toBe(true);
        },
      ),
      { numRuns: RUNS, endOnFailure: Boolean(process.env.MENDLOG_RUNS) },
    );
  });
});

/** What random edits have come upon; `$0` is where it was asked. */
describe("what was wrong once", () => {
  test.each([
    ["log.md", `${exampleLog(WIDE).trimEnd()} |\uFEFF`, "a table that ends in what looks blank"],
    ["log.md", exampleLog("## Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 1$0 "), "an open row"],
    ["log.md", exampleLog("## Work\n\n<!-- never\n\nclosed\n\t"), "a comment to the end"],
    ["log.md", "---\nmendlog: 1\n---\n#$0\r>", "a heading above a line end of old"],
    [
      "odd.board.yaml",
      `${EXAMPLE_BOARD.replace("[SW_ROW_1,", "[$0SW_ROW_1,").replace("  GND:", '  "":')}`,
      "no name",
    ],
    ["odd.board.yaml", 'source: "see https://exa|mple.org, https://[ and https://:9x"\n', "no address yet"],
    ["odd.board.yaml", 'rails:\n  "+5 U14: { device: 74LS04 }😀\n": { nominal: 5 V }\n', "half a character"],
    ["odd.board.yaml", 'id: "a\\😀b"\n', "no escape"],
  ])("in %s: %j (%s)", async (path, marked) => {
    const { client, uri } = bench;
    const place = marked.includes("$0")
      ? cursor(marked)
      : { text: marked, position: { line: 1, character: 0 } };
    const logged = client.log.length;
    await client.open(uri(path), place.text, path.endsWith(".md") ? "markdown" : "yaml");
    const doc = asked(uri(path), 1, place.text);
    expect(await wrongIn(doc, place.position, { line: 99, character: 0 })).toEqual([]);
    expect(client.log.slice(logged)).toEqual([]);
    await client.close(uri(path));
  });
});
