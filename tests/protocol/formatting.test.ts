import { afterEach, describe, expect, test } from "vitest";
import type { ClientCapabilities, TextEdit } from "vscode-languageserver-protocol";
import { EXAMPLE_BOARD, exampleLog } from "../../server/src/checks/example-board";
import { spanOf } from "../../server/src/protocol/convert";
import { applyEdits } from "../../server/src/text/edits";
import { lineIndex } from "../../server/src/text/line-index";
import { type Bench, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

const dynamic = { dynamicRegistration: true };
const REGISTERS: ClientCapabilities = {
  ...FULL_CAPABILITIES,
  textDocument: { ...FULL_CAPABILITIES.textDocument, formatting: dynamic, rangeFormatting: dynamic },
};
const TABLE = "|Ref|Pin|Reading|\n|-|-|-|\n|U14|1|0.58|\n";
const ALIGNED = "| Ref | Pin | Reading |\n|-----|-----|---------|\n| U14 | 1   | 0.58    |\n";
const LOG = exampleLog(`## Diode check\n\n${TABLE}\n## Diode check after repair\n\n${TABLE}`);
const options = { tabSize: 4, insertSpaces: true };

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const edited = (text: string, edits: readonly TextEdit[]): string => {
  const lines = lineIndex(text);
  return applyEdits(
    text,
    edits.map(({ range, newText }) => ({ span: spanOf(lines, range), newText })),
  );
};

async function opened(name: string, text: string, capabilities = FULL_CAPABILITIES, language?: string) {
  bench ??= await startBench("", { capabilities });
  const uri = bench.uri(name);
  await bench.client.open(uri, text, language);
  return { client: bench.client, uri };
}

describe("formatting", () => {
  test("aligns a log's tables, and those of a range alone", async () => {
    const { client, uri } = await opened("log.md", LOG);
    const textDocument = { uri };
    const all = await client.request("textDocument/formatting", { textDocument, options });
    expect(edited(LOG, all)).toBe(LOG.replaceAll(TABLE, ALIGNED));
    // One edit a line, each within it.
    expect(all).toHaveLength(6);
    for (const { range } of all) expect(range.start.line).toBe(range.end.line);
    const line = LOG.slice(0, LOG.lastIndexOf("|U14")).split("\n").length - 1;
    const range = { start: { line, character: 2 }, end: { line, character: 4 } };
    const some = await client.request("textDocument/rangeFormatting", { textDocument, range, options });
    expect(edited(LOG, some)).toBe(lastAligned(LOG));
    // Two places of one table and one of the other: each line is written once.
    const first = LOG.slice(0, LOG.indexOf("|U14")).split("\n").length - 1;
    const ranges = [line, line - 2, first].map((at) => ({
      start: { line: at, character: 0 },
      end: { line: at, character: 3 },
    }));
    const both = await client.request("textDocument/rangesFormatting", { textDocument, ranges, options });
    expect(edited(LOG, both)).toBe(edited(LOG, all));
    expect(both).toHaveLength(all.length);
  });

  test("has nothing to say about a plain document or a board file, or one that is not open", async () => {
    const { client, uri } = await opened("notes.md", `# Notes\n\n${TABLE}`);
    expect(await client.request("textDocument/formatting", { textDocument: { uri }, options })).toBeNull();
    const board = await opened("other.board.yaml", EXAMPLE_BOARD, FULL_CAPABILITIES, "yaml");
    const asked = { textDocument: { uri: board.uri }, options };
    expect(await client.request("textDocument/formatting", asked)).toBeNull();
    const absent = { textDocument: { uri: `${uri}x` }, options };
    expect(await client.request("textDocument/formatting", absent)).toBeNull();
  });

  test("is a capability only where a client cannot be told log by log", async () => {
    const { client } = await opened("log.md", LOG);
    expect(client.initialized.capabilities.documentFormattingProvider).toBe(true);
    expect(client.initialized.capabilities.documentRangeFormattingProvider).toBe(true);
    expect(client.registrations.filter(({ method }) => /ormatting/.test(method))).toEqual([]);
  });

  test("is told of for each log and no other document", async () => {
    const { client, uri } = await opened("log [1].md", LOG, REGISTERS);
    expect(client.initialized.capabilities.documentFormattingProvider).toBeUndefined();
    const told = () => client.registrations.filter(({ method }) => /ormatting$/.test(method));
    await client.until("two formatters", () => (told().length >= 2 ? true : undefined));
    expect(
      told()
        .map(({ method }) => method)
        .sort(),
    ).toEqual(["textDocument/formatting", "textDocument/rangeFormatting"]);
    const path = decodeURIComponent(uri.replace(/^file:\/\//, ""));
    for (const { registerOptions } of told()) {
      expect(registerOptions).toEqual({
        documentSelector: [
          { language: "markdown", scheme: "file", pattern: `**${path.replace("[1]", "?1?")}` },
        ],
      });
    }
    // A plain document gets one when it becomes a log, for as long as it is one and open.
    const notes = await opened("notes.md", "# Notes\n", REGISTERS);
    await opened("third.md", LOG, REGISTERS);
    await client.until("the third document's", () => (told().length >= 4 ? true : undefined));
    expect(JSON.stringify(told())).not.toContain("notes.md");
    await client.change(notes.uri, 2, { text: LOG });
    await client.until("the second document's", () =>
      JSON.stringify(told()).includes("notes.md") ? true : undefined,
    );
    await client.change(notes.uri, 3, { text: "# Notes\n" });
    await client.close(uri);
    await client.until("two formatters to go", () => (told().length === 2 ? true : undefined));
    expect(JSON.stringify(told())).toContain("third.md");
  });
});

/** The log with the last of its tables aligned. */
function lastAligned(text: string): string {
  const at = text.lastIndexOf(TABLE);
  return text.slice(0, at) + ALIGNED + text.slice(at + TABLE.length);
}
