// What is asked about names and places across files, as an editor asks it.
import { afterEach, describe, expect, test } from "vitest";
import type { ClientCapabilities, Location, WorkspaceEdit } from "vscode-languageserver-protocol";
import { spanOf } from "../../server/src/protocol/convert";
import { applyEdits } from "../../server/src/text/edits";
import { lineIndex } from "../../server/src/text/line-index";
import { type Bench, cursor, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

const CAN: ClientCapabilities = {
  ...FULL_CAPABILITIES,
  workspace: {
    ...FULL_CAPABILITIES.workspace,
    symbol: { resolveSupport: { properties: ["location.range"] } },
    fileOperations: { willRename: true, didRename: true, didDelete: true },
    workspaceEdit: { documentChanges: true, changeAnnotationSupport: { groupsOnLabel: true } },
  },
  textDocument: {
    ...FULL_CAPABILITIES.textDocument,
    rename: { prepareSupport: true },
    documentLink: { tooltipSupport: true },
    signatureHelp: { signatureInformation: { documentationFormat: ["markdown"] } },
    completion: {
      completionItem: {
        ...FULL_CAPABILITIES.textDocument?.completion?.completionItem,
        resolveSupport: { properties: ["documentation"] },
      },
    },
  },
};

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const log = (name: string, job: string, body: string, more = ""): string =>
  `//- ${name}\n---\nmendlog: 1\njob: ${job}\nboard: example\n${more}---\n\n${body}\n`;
const TABLE = "## Diode check\n\n| Ref | Pin | Reading |\n| --- | --- | ------- |\n| U14 | 2 | 0.58 |\n";
const FILES =
  log("one.md", "2026-001", `# One\n\nU14 again.\n\n${TABLE}`) +
  log(
    "two.md",
    "2026-002",
    "# Two\n\n![x](pics/x.png) after 2026-001, U14 untouched.",
    "comeback-of: 2026-001\n",
  );

async function opened(marked: string, name = "three.md", capabilities = CAN) {
  bench?.end();
  bench = await startBench(FILES, { capabilities });
  const { client, uri } = bench;
  const { text, position } = cursor(marked);
  await client.open(uri(name), text);
  const textDocument = { uri: uri(name) };
  await client.request("textDocument/diagnostic", { textDocument }).catch(() => undefined);
  return { client, uri, text, textDocument, at: { textDocument, position } };
}

const THREE = `---\nmendlog: 1\njob: 2026-003\nboard: example\n---\n\n${TABLE.replace("| U14", "| U1$04")}`;
const namesOf = (places: readonly Location[]): string[] =>
  places.map(({ uri, range }) => `${uri.split("/").at(-1)} ${range.start.line + 1}`).sort();

describe("references", () => {
  test("come from open and closed files, with the declaration where it is asked for", async () => {
    const { client, at } = await opened(THREE);
    const asked = (includeDeclaration: boolean) =>
      client.request("textDocument/references", { ...at, context: { includeDeclaration } });
    const all = namesOf(await asked(true));
    expect(all).toEqual(expect.arrayContaining(["one.md 9", "one.md 15", "two.md 10", "three.md 11"]));
    const declared = all.filter((place) => place.startsWith("example"));
    const others = namesOf(await asked(false)).filter((place) => place.startsWith("example"));
    expect(declared.length - others.length).toBe(1);
  });

  test("come file by file where the client takes them so", async () => {
    const { client, at } = await opened(THREE);
    const whole = namesOf(
      await client.request("textDocument/references", { ...at, context: { includeDeclaration: true } }),
    );
    const rest = await client.request("textDocument/references", {
      ...at,
      context: { includeDeclaration: true },
      partialResultToken: "part",
    });
    expect(rest).toEqual([]);
    const parts = client.progress
      .filter(({ token }) => token === "part")
      .map(({ value }) => value as Location[]);
    expect(parts.length).toBeGreaterThan(2);
    expect(namesOf(parts.flat())).toEqual(whole);
  });
});

describe("rename", () => {
  test("is bound to versions, and words wait for a person", async () => {
    const { client, at, uri, text } = await opened(THREE);
    expect(await client.request("textDocument/prepareRename", at)).toEqual({
      range: { start: { line: 10, character: 2 }, end: { line: 10, character: 5 } },
      placeholder: "U14",
    });
    const edit: WorkspaceEdit = await client.request("textDocument/rename", { ...at, newName: "U77" });
    const changes = (edit.documentChanges ?? []) as {
      textDocument: { uri: string; version: number | null };
      edits: { range: Location["range"]; newText: string; annotationId: string }[];
    }[];
    const own = changes.find(({ textDocument }) => textDocument.uri === uri("three.md"));
    expect(own?.textDocument.version).toBe(1);
    const lines = lineIndex(text);
    const after = applyEdits(
      text,
      (own?.edits ?? []).map(({ range, newText }) => ({ span: spanOf(lines, range), newText })),
    );
    expect(after).toBe(text.replace("| U14", "| U77"));
    const two = changes.find(({ textDocument }) => textDocument.uri === uri("two.md"));
    expect(two?.textDocument.version).toBeNull();
    const [word] = two?.edits ?? [];
    expect(edit.changeAnnotations?.[word?.annotationId ?? ""]?.needsConfirmation).toBe(true);
    const [cell] = own?.edits ?? [];
    expect(edit.changeAnnotations?.[cell?.annotationId ?? ""]?.needsConfirmation).toBeUndefined();
  });

  test("is plain changes for a plain client", async () => {
    const { client, at, uri } = await opened(THREE, "three.md", {});
    await client.diagnostics(uri("three.md"));
    const edit: WorkspaceEdit = await client.request("textDocument/rename", { ...at, newName: "U77" });
    expect(edit.documentChanges).toBeUndefined();
    expect(edit.changeAnnotations).toBeUndefined();
    expect(Object.keys(edit.changes ?? {}).map((name) => name.split("/").at(-1))).toEqual(
      expect.arrayContaining(["example.board.yaml", "one.md", "two.md", "three.md"]),
    );
  });

  test("is refused in words", async () => {
    const { client, at, textDocument } = await opened(THREE);
    await expect(client.request("textDocument/rename", { ...at, newName: "U15" })).rejects.toThrow(
      /another part/,
    );
    await expect(
      client.request("textDocument/prepareRename", { textDocument, position: { line: 0, character: 0 } }),
    ).rejects.toThrow(/nothing here/);
  });
});

test("names of the workspace come without a place, which is given when it is gone to", async () => {
  const { client, uri } = await opened(THREE);
  const symbols = await client.request("workspace/symbol", { query: "U14" });
  const part = symbols.find(({ name }: { name: string }) => name.startsWith("U14 "));
  expect(part.location).toEqual({ uri: uri("example.board.yaml") });
  const placed = await client.request("workspaceSymbol/resolve", part);
  expect(placed.location.range.start.character).toBe(2);
});

test("links lead to earlier jobs and to what is there", async () => {
  const { client, uri, textDocument } = await opened(
    "---\nmendlog: 1\njob: 2026-003\ncomeback-of: 2026-002\n---\n\nSee 2026-001.$0\n\n## ROM check\n\n| Ref | Image | CRC-32 |\n| --- | --- | --- |\n| U34 | none.bin | 1 |\n",
  );
  const links = await client.request("textDocument/documentLink", { textDocument });
  expect(links.map(({ target }: { target: string }) => target)).toEqual([uri("two.md"), uri("one.md")]);
  expect(links[0].tooltip).toContain("Two");
});

test("paths follow a moved folder, and the memory follows it too", async () => {
  const { client, uri } = await opened(THREE);
  const edit: WorkspaceEdit = await client.request("workspace/willRenameFiles", {
    files: [{ oldUri: uri("pics"), newUri: uri("photos") }],
  });
  expect(edit.documentChanges).toEqual([
    {
      textDocument: { uri: uri("two.md"), version: null },
      edits: [expect.objectContaining({ newText: "photos/x.png" })],
    },
  ]);
  expect(
    await client.request("workspace/willRenameFiles", { files: [{ oldUri: uri("a"), newUri: uri("b") }] }),
  ).toBeNull();
  bench?.remove("two.md");
  await client.notify("workspace/didDeleteFiles", { files: [{ uri: uri("two.md") }] });
  await expect
    .poll(async () => JSON.stringify(await client.request("workspace/symbol", { query: "2026-002" })))
    .toBe("[]");
});

test("what a cell takes is told, the column marked", async () => {
  const { client, at } = await opened(THREE);
  const help = await client.request("textDocument/signatureHelp", at);
  expect(help.signatures[0].label).toBe("Ref | Pin | Reading (V)");
  expect(help.activeParameter).toBe(0);
  expect(help.signatures[0].parameters[0].documentation.value).toContain("designator");
});

test("a completion's text is given when it is looked at", async () => {
  const { client, at } = await opened(`---\nmendlog: 1\nboard: $0\n---\n`);
  const list = await client.request("textDocument/completion", at);
  const board = list.items.find(({ label }: { label: string }) => label === "example");
  expect(board.documentation).toBeUndefined();
  expect((await client.request("completionItem/resolve", board)).documentation.value).toContain(
    "Example board",
  );
  const plain = await opened(`---\nmendlog: 1\nboard: $0\n---\n`, "four.md", FULL_CAPABILITIES);
  const whole = await plain.client.request("textDocument/completion", plain.at);
  expect(whole.items[0].documentation.value).toContain("Example board");
});
