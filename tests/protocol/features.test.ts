import { afterEach, describe, expect, test } from "vitest";
import type { TextEdit } from "vscode-languageserver-protocol";
import { EXAMPLE_BOARD, exampleLog } from "../../server/src/checks/example-board";
import { spanOf } from "../../server/src/protocol/convert";
import { applyEdits } from "../../server/src/text/edits";
import { lineIndex } from "../../server/src/text/line-index";
import { type Bench, CLEAN, cursor, FAULTY, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

/** Where the examples' board lists U14. */
const U14_LINE = EXAMPLE_BOARD.split("\n").findIndex((line) => line.startsWith("  U14:"));

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

async function opened(marked: string, capabilities = FULL_CAPABILITIES) {
  bench = await startBench("", { capabilities });
  const { client, uri } = bench;
  const log = uri("log.md");
  const { text, position } = marked.includes("$0")
    ? cursor(marked)
    : { text: marked, position: { line: 0, character: 0 } };
  await client.open(log, text);
  const textDocument = { uri: log };
  // Waits for the board file, on which most answers depend.
  const { items } = capabilities.textDocument?.diagnostic
    ? await client.request("textDocument/diagnostic", { textDocument })
    : { items: await client.diagnostics(log) };
  return { client, uri, text, at: { textDocument, position }, textDocument, items };
}

const edited = (text: string, edits: readonly TextEdit[]): string => {
  const lines = lineIndex(text);
  return applyEdits(
    text,
    edits.map(({ range, newText }) => ({ span: spanOf(lines, range), newText })),
  );
};

describe("completion", () => {
  const marked = CLEAN.replace("| U14 | 2 ", "| U1$0 | 2 ");

  test("says of every item what it replaces, and comes whole and in order", async () => {
    const { client, at, text } = await opened(marked);
    const list = await client.request("textDocument/completion", at);
    expect(list.isIncomplete).toBe(false);
    const labels = list.items.map(({ label }: { label: string }) => label);
    expect(labels).toEqual(expect.arrayContaining(["U14", "U15", "U20"]));
    const sorted = [...list.items].sort((a, b) => (a.sortText < b.sortText ? -1 : 1));
    expect(sorted.map(({ label }) => label)).toEqual(labels);
    for (const { textEdit, insertTextFormat } of list.items) {
      expect(textEdit.range.start.line).toBe(at.position.line);
      expect(insertTextFormat).toBeDefined();
    }
    const item = list.items[labels.indexOf("U15")];
    expect(item.labelDetails.description).toMatch(/74LS04|inverter/i);
    expect(item.documentation?.kind ?? "markdown").toBe("markdown");
    expect(edited(text, [item.textEdit])).toContain("| U15 | 2 ");
  });

  test("a point or a digit brings up pins and part numbers in a board file, and nothing else anywhere", async () => {
    const { client, uri } = await opened("---\nmendlog: 1\nboard: example\n---\n\nU14.\n");
    const typing = async (marked: string, name: string) => {
      const { text, position } = cursor(marked);
      await client.open(uri(name), text);
      const { items } = await client.request("textDocument/completion", {
        textDocument: { uri: uri(name) },
        position,
        context: {
          triggerKind: 2,
          triggerCharacter: text.slice(0, marked.indexOf("$0")).at(-1) ?? "",
        },
      });
      return (items as { label: string }[]).map(({ label }) => label);
    };
    const board = (rest: string) => `mendlog-board: 1\nid: t\ntitle: T\n${rest}`;
    const parts = "parts:\n  U4: { device: 74LS04 }\n";
    expect(await typing(board(`${parts}nets:\n  ROW: [U4.$0]\n`), "a.board.yaml")).toContain("U4.14");
    expect(await typing(board(`${parts}nets:\n  ROW:\n    - U4.1$0\n`), "b.board.yaml")).toContain("U4.14");
    expect((await typing(board("parts:\n  U4: { device: 68$0 }\n"), "c.board.yaml"))[0]).toBe("6800");
    expect(await typing(board('rails:\n  "+5V": { nominal: 5$0 }\n'), "d.board.yaml")).toEqual([]);
    expect(await typing(board('rails:\n  "+5V": { nominal: 5.$0 }\n'), "e.board.yaml")).toEqual([]);
    expect(await typing("---\nmendlog: 1\nboard: example\n---\n\nU14.$0\n", "f.md")).toEqual([]);
    const front = "---\nmendlog: 1\nboard: example\n---\n\n";
    const row = "## Diode check\n\n| Ref | Pin | Reading |\n|-----|-----|---------|\n";
    expect(await typing(`${front}${row}| U$0 | | |\n`, "g.md")).toContain("U14");
    expect(await typing(`${front}U$0\n`, "h.md")).toEqual([]);
  });

  test("keeps to what a plain client can show", async () => {
    const { client, at } = await opened(marked, {});
    const { items } = await client.request("textDocument/completion", at);
    expect(items.length).toBeGreaterThan(2);
    for (const item of items) {
      expect(item.insertTextFormat).toBe(1);
      expect(item.labelDetails).toBeUndefined();
      expect(item.textEdit.newText).not.toMatch(/\$\{?\d/);
      if (item.documentation) expect(item.documentation.kind).toBe("plaintext");
    }
    expect(items.some(({ detail }: { detail?: string }) => detail !== undefined)).toBe(true);
  });
});

test("hover explains what is under the cursor, and covers it", async () => {
  const { client, at } = await opened(CLEAN.replace("| U14 | 2 ", "| U1$04 | 2 "));
  const hover = await client.request("textDocument/hover", at);
  expect(hover.contents).toMatchObject({ kind: "markdown", value: expect.stringContaining("74LS04") });
  const { line } = at.position;
  expect(hover.range).toEqual({ start: { line, character: 2 }, end: { line, character: 5 } });
});

describe("definition", () => {
  const marked = CLEAN.replace("| U14 | 2 ", "| U1$04 | 2 ");

  test("links the words to the part in the board file", async () => {
    const { client, at, uri } = await opened(marked);
    const [link, ...more] = await client.request("textDocument/definition", at);
    expect(more).toEqual([]);
    const { line } = at.position;
    expect(link.targetUri).toBe(uri("example.board.yaml"));
    expect(link.targetSelectionRange.start).toEqual({ line: U14_LINE, character: 2 });
    expect(link.originSelectionRange).toEqual({ start: { line, character: 2 }, end: { line, character: 5 } });
  });

  test("is a plain place for a client without links", async () => {
    const { client, at, uri } = await opened(marked, {});
    const places = await client.request("textDocument/definition", at);
    expect(places).toEqual([
      {
        uri: uri("example.board.yaml"),
        range: { start: { line: U14_LINE, character: 2 }, end: { line: U14_LINE, character: 5 } },
      },
    ]);
  });
});

describe("outline and folding", () => {
  const text = exampleLog(`# One

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |

##

Nothing.
`);

  test("is a tree of what the headings say", async () => {
    const { client, textDocument } = await opened(text);
    const symbols = await client.request("textDocument/documentSymbol", { textDocument });
    const names = JSON.stringify(symbols);
    expect(names).toContain("Diode check");
    const walk = (list: readonly { name: string; range: unknown; children?: [] }[]): void => {
      for (const symbol of list) {
        expect(symbol.name.trim()).not.toBe("");
        expect(symbol.range).toBeDefined();
        walk(symbol.children ?? []);
      }
    };
    expect(symbols.length).toBeGreaterThan(0);
    walk(symbols);
  });

  test("is a list for a client without trees", async () => {
    const { client, textDocument } = await opened(text, {});
    const symbols = await client.request("textDocument/documentSymbol", { textDocument });
    const diode = symbols.find(({ name }: { name: string }) => name.includes("Diode check"));
    expect(diode).toMatchObject({ location: { uri: textDocument.uri, range: { start: { line: 7 } } } });
    expect(diode.containerName).toBe("One");
  });

  test("folds the front matter and the sections, up to the number the client shows", async () => {
    const { client, textDocument } = await opened(text);
    const folds = await client.request("textDocument/foldingRange", { textDocument });
    expect(folds).toContainEqual({ startLine: 0, endLine: 3, kind: "region" });
    expect(folds.some(({ startLine }: { startLine: number }) => startLine === 7)).toBe(true);
    bench?.end();
    const few = await opened(text, { textDocument: { foldingRange: { rangeLimit: 1 } } });
    const one = await few.client.request("textDocument/foldingRange", { textDocument: few.textDocument });
    expect(one).toMatchObject([{ startLine: 5 }]);
  });
});

describe("quick fixes", () => {
  const context = (diagnostics: unknown[], only?: string[]) => ({ diagnostics, ...(only && { only }) });

  test("mend what a diagnostic of ours is about, in the version it is about", async () => {
    const { client, textDocument, text, items } = await opened(FAULTY);
    const stranger = items.find(({ code }: { code: string }) => code === "unknown-designator");
    const { range } = stranger;
    const actions = await client.request("textDocument/codeAction", {
      textDocument,
      range,
      context: context([stranger, { ...stranger, source: "another" }]),
    });
    expect(actions.length).toBeGreaterThan(0);
    const change = actions.find(({ title }: { title: string }) => title.includes("U14"));
    expect(change).toMatchObject({ kind: "quickfix", diagnostics: [{ source: "mendlog" }] });
    const [{ textDocument: versioned, edits }] = change.edit.documentChanges;
    expect(versioned).toEqual({ uri: textDocument.uri, version: 1 });
    expect(edited(text, edits)).toBe(text.replace("U41", "U14"));
    expect(
      actions.filter(
        (it: { diagnostics?: { source: string }[] }) => it.diagnostics?.[0]?.source === "another",
      ),
    ).toEqual([]);
  });

  test("edit nothing where the text has moved away from the diagnostic", async () => {
    const { client, textDocument, items } = await opened(FAULTY);
    await client.change(textDocument.uri, 2, {
      range: { start: { line: 4, character: 0 }, end: { line: 4, character: 0 } },
      text: "A line more.\n\n",
    });
    const { range } = items[0];
    expect(
      await client.request("textDocument/codeAction", {
        textDocument,
        range,
        context: context(items, ["quickfix"]),
      }),
    ).toEqual([]);
  });

  test("are given as plain changes to a client without versioned edits", async () => {
    const { client, textDocument, items } = await opened(FAULTY, {
      textDocument: { codeAction: { codeActionLiteralSupport: { codeActionKind: { valueSet: [] } } } },
    });
    const actions = await client.request("textDocument/codeAction", {
      textDocument,
      range: items[1].range,
      context: context(items),
    });
    expect(actions.length).toBeGreaterThan(0);
    for (const { edit, isPreferred } of actions) {
      // What the board file lacks is added to it.
      for (const uri of Object.keys(edit.changes))
        expect([textDocument.uri, textDocument.uri.replace("log.md", "example.board.yaml")]).toContain(uri);
      expect(isPreferred).toBeUndefined();
    }
    expect(Object.keys(actions[0].edit.changes)).toEqual([textDocument.uri]);
  });

  test("are all applied at once where that is asked for", async () => {
    const two = FAULTY.replace("| U14 | 1   | 0.58    |", "| U41 | 1   | O.58    |");
    const { client, textDocument, text, items } = await opened(two);
    const whole = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    const ask = (only?: string[]) =>
      client.request("textDocument/codeAction", {
        textDocument,
        range: whole,
        context: context(items, only),
      });
    const kinds = (actions: { kind: string }[]) => [...new Set(actions.map(({ kind }) => kind))];
    expect(kinds(await ask())).toEqual(["quickfix"]);
    expect(await ask(["refactor"])).toEqual([]);
    for (const only of ["source", "source.fixAll", "source.fixAll.mendlog"]) {
      expect(kinds(await ask([only]))).toEqual(["source.fixAll.mendlog"]);
    }
    const [all] = await ask(["source.fixAll"]);
    const preferred = (await ask(["quickfix"])).filter((it: { isPreferred?: boolean }) => it.isPreferred);
    expect(all.edit.documentChanges[0].edits).toHaveLength(preferred.length);
    expect(preferred.length).toBeGreaterThan(1);
    expect(edited(text, all.edit.documentChanges[0].edits)).not.toContain("U41");
  });

  test("made unattended are only those that guess at nothing", async () => {
    const torn = FAULTY.replace("|-----|-----|---------|\n", "");
    const typed = `${FAULTY.replace("0.58 ", "O.58 ")}\nAnd so on.\n\n${torn.slice(torn.indexOf("## "))}`;
    const { client, textDocument, text } = await opened(typed);
    const range = { start: { line: 0, character: 0 }, end: { line: 99, character: 0 } };
    const [all] = await client.request("textDocument/codeAction", {
      textDocument,
      range,
      context: { diagnostics: [], only: ["source.fixAll"], triggerKind: 2 },
    });
    const after = edited(text, all.edit.documentChanges[0].edits);
    expect(after.match(/^\|[-| ]+\|$/gm)).toHaveLength(2);
    for (const words of ["O.58", "U41"]) expect(after).toContain(words);
  });
});

test("the rows that prove a matrix are offered where it is, as an insertion", async () => {
  const grid =
    "---\nmendlog: 1\nboard: example\n---\n\n## Switch matrix\n\n| Row | Column | Result |\n|-----|--------|--------|\n| 1   | 1      | ok     |\n";
  const { client, textDocument, text } = await opened(grid);
  const ask = (line: number, only?: string[]) =>
    client.request("textDocument/codeAction", {
      textDocument,
      range: { start: { line, character: 0 }, end: { line, character: 0 } },
      context: { diagnostics: [], ...(only && { only }) },
    });
  for (const only of [undefined, ["refactor"], ["refactor.insert"]]) {
    const offered: { title: string; edit: { documentChanges: { edits: TextEdit[] }[] } }[] = await ask(
      9,
      only,
    );
    const [action, ...more] = offered.filter(({ title }) => title.includes("test row"));
    if (!action) throw new Error(`Only offered: ${offered.map(({ title }) => title)}`);
    expect(more).toEqual([]);
    expect(action).toMatchObject({ kind: "refactor.insert", title: expect.stringContaining("test row") });
    expect(edited(text, action.edit.documentChanges[0]?.edits ?? [])).toContain(
      "| 1   | 1      | ok     |\n| 2   | 3      |        |\n| 3   | 2      |        |",
    );
  }
  expect(await ask(9, ["quickfix"])).toEqual([]);
  expect((await ask(0)).map(({ title }: { title: string }) => title)).toEqual([
    "Write the parts list",
    "Take this job as the reference",
  ]);
});

test("the parts list is offered in the front matter, written, and taken out again", async () => {
  const log =
    "---\nmendlog: 1\nboard: example\n---\n\n## Work\n\n| Ref | Action | Part |\n|---|---|---|\n| U14 | replaced | 74LS04 |\n";
  const { client, textDocument, text } = await opened(log);
  const ask = () =>
    client.request("textDocument/codeAction", {
      textDocument,
      range: { start: { line: 1, character: 0 }, end: { line: 1, character: 0 } },
      context: { diagnostics: [], only: ["refactor"] },
    });
  const [write, ...others] = await ask();
  expect(others.map(({ title }: { title: string }) => title)).toEqual(["Take this job as the reference"]);
  expect(write.title).toBe("Write the parts list");
  const written = edited(text, write.edit.documentChanges[0].edits);
  expect(written).toMatch(/^\| 74LS04 +\| 1 +\| U14/m);
  client.notify("textDocument/didChange", {
    textDocument: { ...textDocument, version: 2 },
    contentChanges: [{ text: written }],
  });
  const [remove] = await ask();
  expect(remove.title).toBe("Take the parts list out");
  expect(edited(written, remove.edit.documentChanges[0].edits)).toBe(text);
});

test("a board file answers too", async () => {
  bench = await startBench("", { capabilities: FULL_CAPABILITIES });
  const { client, uri } = bench;
  const board = uri("example.board.yaml");
  await client.open(board, EXAMPLE_BOARD, "yaml");
  const textDocument = { uri: board };
  const line = EXAMPLE_BOARD.split("\n").findIndex((it) => it.includes("GND: ["));
  const at = { textDocument, position: { line, character: "  GND: [U1".length } };
  const hover = await client.request("textDocument/hover", at);
  expect(hover.contents.value).toContain("74LS04");
  const [link] = await client.request("textDocument/definition", at);
  expect(link).toMatchObject({ targetUri: board, targetRange: { start: { line: U14_LINE, character: 2 } } });
  const { items } = await client.request("textDocument/completion", at);
  expect(items.length).toBeGreaterThan(0);
  const symbols = await client.request("textDocument/documentSymbol", { textDocument });
  expect(JSON.stringify(symbols)).toContain("U14");
  const folds = await client.request("textDocument/foldingRange", { textDocument });
  expect(folds.length).toBeGreaterThan(0);
});
