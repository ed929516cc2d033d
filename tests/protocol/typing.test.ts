import { afterEach, describe, expect, test } from "vitest";
import type { TextEdit } from "vscode-languageserver-protocol";
import { spanOf } from "../../server/src/protocol/convert";
import { applyEdits } from "../../server/src/text/edits";
import { lineIndex } from "../../server/src/text/line-index";
import { type Bench, cursor, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const log = (rows: string) =>
  `---\nmendlog: 1\nboard: example\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|-----|-----|---------|\n${rows}`;

async function opened(marked: string, options = {}) {
  bench = await startBench("", { capabilities: FULL_CAPABILITIES, ...options });
  const { client } = bench;
  const uri = bench.uri("log.md");
  const { text, position } = cursor(marked);
  await client.open(uri, text);
  await client.request("textDocument/diagnostic", { textDocument: { uri } });
  const apply = (edits: readonly TextEdit[]) => {
    const lines = lineIndex(text);
    return applyEdits(
      text,
      edits.map(({ range, newText }) => ({ span: spanOf(lines, range), newText })),
    );
  };
  const typed = (ch: string) =>
    client.request("textDocument/onTypeFormatting", {
      textDocument: { uri },
      position,
      ch,
      options: { tabSize: 2, insertSpaces: true },
    });
  return { client, uri, text, position, apply, typed };
}

describe("formatting while typing, for any editor", () => {
  test("a line break below a row starts the next row", async () => {
    const { client, typed, apply } = await opened(log("| U14 | 1   | 0.58    |\n$0\n"));
    expect(client.initialized.capabilities.documentOnTypeFormattingProvider?.firstTriggerCharacter).toBe(
      "\n",
    );
    expect(apply(await typed("\n"))).toBe(log("| U14 | 1   | 0.58    |\n| U14 | 2   |     |\n"));
  });

  test("another below the row just started takes it away, and a pipe typed into it too", async () => {
    const { client, uri, typed, apply, position } = await opened(log("| U14 | 1   | 0.58    |\n$0\n"));
    const started = apply(await typed("\n"));
    await client.change(uri, 2, { text: started.replace(/\n$/, "\n\n") });
    const below = { line: position.line + 1, character: 0 };
    const ask = (ch: string, at: object) =>
      client.request("textDocument/onTypeFormatting", {
        textDocument: { uri },
        position: at,
        ch,
        options: { tabSize: 2, insertSpaces: true },
      });
    const [edit] = await ask("\n", below);
    expect(edit.newText).toBe("");
    expect(edit.range.start).toEqual({ line: position.line, character: 0 });
    const row = started.split("\n")[position.line] ?? "";
    const column = row.lastIndexOf("|", row.length - 2) + 2;
    await client.change(uri, 3, {
      text: started.replace(row, `${row.slice(0, column)}|${row.slice(column)}`),
    });
    expect((await ask("|", { line: position.line, character: column + 1 }))[0].newText).toBe("|");
  });

  test("a pipe typed into a row that was started before the log was closed is the writer's own", async () => {
    const { client, uri, typed, apply, position } = await opened(log("| U14 | 1   | 0.58    |\n$0\n"));
    const started = apply(await typed("\n"));
    const row = started.split("\n")[position.line] ?? "";
    const column = row.lastIndexOf("|", row.length - 2) + 2;
    const piped = started.replace(row, `${row.slice(0, column)}|${row.slice(column)}`);
    const ask = () =>
      client.request("textDocument/onTypeFormatting", {
        textDocument: { uri },
        position: { line: position.line, character: column + 1 },
        ch: "|",
        options: { tabSize: 2, insertSpaces: true },
      });
    await client.change(uri, 2, { text: piped });
    expect(await ask()).toHaveLength(1);
    await client.close(uri);
    await client.open(uri, piped);
    expect(await ask()).toBeNull();
  });

  test("nothing where the setting says so, in other Markdown, and in a document that is not open", async () => {
    const { typed } = await opened(log("| U14 | 1   | 0.58    |\n$0\n"), {
      settings: { mendlog: { tables: { nextRow: false } } },
    });
    expect(await typed("\n")).toBeNull();
    bench?.end();
    const other = await opened("# Notes\n\n| a | b |\n|---|---|\n| 1 | 2 |\n$0\n");
    expect(await other.typed("\n")).toBeNull();
    const closed = await other.client.request("mendlog/nextCell", {
      uri: "file:///nowhere.md",
      position: { line: 0, character: 0 },
      direction: "row",
    });
    expect(closed).toBeNull();
  });
});

describe("requests of our own", () => {
  test("writeCell writes, and says where the next reading goes", async () => {
    const { client, uri, position, apply } = await opened(log("| U14 | 1   | $0        |\n"));
    const { edits, cursor: next } = await client.request("mendlog/writeCell", {
      uri,
      position,
      text: "0.58 V",
    });
    const after = apply(edits);
    expect(after).toBe(
      log(
        "| U14 | 1   | 0.58 V  |\n| U14 | 2   |   |\n".replace(
          "|   |",
          after.split("| 2   ")[1]!.split("\n")[0]!,
        ),
      ),
    );
    expect(next.line).toBe(position.line + 1);
    expect(after.split("\n")[next.line]?.slice(0, next.character)).toBe("| U14 | 2   | ");
  });

  test("enterAt, nextCell and pasteCells answer in positions of the text", async () => {
    const { client, uri, position, apply } = await opened(log("| U14 | 1   | 0.5$0 |\n"));
    expect(await client.request("mendlog/enterAt", { uri, position })).toEqual({
      does: "row",
      measured: true,
      digits: { limit: 3 },
    });
    expect(await client.request("mendlog/enterAt", { uri, position: { line: 0, character: 0 } })).toBeNull();
    const advanced = await client.request("mendlog/nextCell", { uri, position, direction: "advance" });
    expect(apply(advanced.edits)).toContain("\n| U14 | 2   |");
    const next = await client.request("mendlog/nextCell", { uri, position, direction: "next" });
    expect(apply(next.edits)).toContain("\n| U14 | 2   |");
    const pasted = await client.request("mendlog/pasteCells", { uri, position, text: "0.58\n0.57" });
    expect(pasted.replaced).toBe(1);
    expect(apply(pasted.edits)).toMatch(/\| 0.58 \|\n\| U14 \| 2 +\| 0.57 +\|/);
    expect(await client.request("mendlog/pasteCells", { uri, position, text: "1\t2" })).toEqual({
      problem: "too-many-columns",
      columns: 2,
      room: 1,
    });
  });
});

test("digits bring up readings in a cell and nothing in prose; who takes one goes on in our own editor", async () => {
  const { client, uri, position } = await opened(log("| U14 | 1   | 58$0 |\n\n58\n"), {
    initializationOptions: { nextRow: true },
  });
  const ask = (at: object) =>
    client.request("textDocument/completion", {
      textDocument: { uri },
      position: at,
      context: { triggerKind: 2, triggerCharacter: "8" },
    });
  const { items } = await ask(position);
  expect(items[0]).toMatchObject({
    label: "0.58 V",
    filterText: "58",
  });
  expect(items[0]).not.toHaveProperty("command");
  expect((await ask({ line: position.line + 2, character: 2 })).items).toEqual([]);
});
