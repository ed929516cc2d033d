import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { Documents } from "../../server/src/protocol/documents";
import { Service } from "../../server/src/service";
import { Disk } from "../support/disk";

const host = { read: async () => undefined, list: async () => [] };
const URI = "file:///log.md";

/** As the protocol describes it, written the slow way. */
function offsetOf(text: string, line: number, character: number): number {
  const lines = text.split(/(?<=\r\n|\n|\r(?!\n))/);
  if (/[\r\n]$/.test(text)) lines.push("");
  if (line >= lines.length) return text.length;
  const before = lines.slice(0, line).join("").length;
  return before + Math.min(character, lines[line]!.replace(/[\r\n]+$/, "").length);
}

describe("documents", () => {
  const place = fc.record({ line: fc.nat(6), character: fc.nat(8) });
  const piece = fc
    .array(fc.constantFrom("a", "|", "\n", "\r\n", "\r", "ö", "😀", ""), { maxLength: 8 })
    .map((it) => it.join(""));
  const change = fc.oneof(
    { weight: 5, arbitrary: fc.record({ start: place, end: place, text: piece }) },
    { weight: 1, arbitrary: fc.record({ text: piece }) },
  );

  test("hold the text the editor holds, whatever is typed", () => {
    fc.assert(
      fc.property(
        piece,
        fc.array(fc.array(change, { maxLength: 4 }), { maxLength: 6 }),
        (before, batches) => {
          const documents = new Documents(new Service(host));
          documents.open({ textDocument: { uri: URI, languageId: "markdown", version: 1, text: before } });
          let text = before;
          batches.forEach((batch, n) => {
            documents.change({
              textDocument: { uri: URI, version: n + 2 },
              contentChanges: batch.map((it) =>
                "start" in it ? { range: { start: it.start, end: it.end }, text: it.text } : it,
              ),
            });
            for (const it of batch) {
              if (!("start" in it)) text = it.text;
              else {
                const [a, b] = [it.start, it.end].map(({ line, character }) =>
                  offsetOf(text, line, character),
                );
                text = text.slice(0, Math.min(a!, b!)) + it.text + text.slice(Math.max(a!, b!));
              }
            }
            expect(documents.get(URI)).toMatchObject({ text, version: n + 2 });
            expect(documents.get(URI)?.lines.length).toBe(text.length);
          });
        },
      ),
    );
  });

  test("are known by one uri, and given back under the client's own", async () => {
    const documents = new Documents(new Service(host));
    const clientUri = "file:///C:/logs/(a).md";
    const open = documents.open({
      textDocument: { uri: clientUri, languageId: "markdown", version: 1, text: "" },
    });
    expect(open?.uri).toBe("file:///c%3A/logs/%28a%29.md");
    expect(documents.clientUri("file:///c%3A/logs/%28a%29.md")).toBe(clientUri);
    await documents.close({ textDocument: { uri: clientUri } });
    expect(documents.all()).toEqual([]);
    expect(documents.clientUri("file:///c%3A/logs/%28a%29.md")).toBe("file:///c%3A/logs/%28a%29.md");
  });

  test("tell those who keep something of them when they are closed", async () => {
    const documents = new Documents(new Service(host));
    const closed: string[] = [];
    documents.closing.on(({ uri }) => closed.push(uri));
    documents.open({ textDocument: { uri: URI, languageId: "markdown", version: 1, text: "" } });
    await documents.close({ textDocument: { uri: "file:///other.md" } });
    expect(closed).toEqual([]);
    await documents.close({ textDocument: { uri: URI } });
    expect(closed).toEqual([URI]);
  });

  test("the text of a board file is kept while there is one, and let go of when it is removed", async () => {
    const uri = "file:///a.board.yaml";
    const disk = new Disk({ [uri]: "mendlog-board: 1\nid: a\ntitle: A\n" });
    const text = disk.files.get(uri) ?? "";
    const service = new Service(disk);
    await service.load();
    const documents = new Documents(service);
    const first = documents.text(uri);
    documents.forgetGone();
    expect(documents.text(uri)).toBe(first);

    disk.files.delete(uri);
    await service.fileChanged(uri);
    documents.forgetGone();
    expect(documents.text(uri)).toBeUndefined();
    disk.files.set(uri, text);
    await service.fileChanged(uri);
    const second = documents.text(uri);
    expect(second?.text).toBe(text);
    expect(second).not.toBe(first);

    // While it is open there is one text of it, the editor's.
    documents.open({ textDocument: { uri, languageId: "yaml", version: 1, text } });
    await documents.close({ textDocument: { uri } });
    expect(documents.text(uri)?.text).toBe(text);
    expect(documents.text(uri)).not.toBe(second);
  });

  test("that can never be of use are not kept", () => {
    const documents = new Documents(new Service(host));
    const text = "---\nmendlog: 1\n---\n";
    const open = (uri: string, languageId: string) =>
      documents.open({ textDocument: { uri, languageId, version: 1, text } });
    expect(open("file:///a.txt", "plaintext")).toBeUndefined();
    expect(open("file:///a.yaml", "yaml")).toBeUndefined();
    expect(open("file:///a.board.yaml", "plaintext")).toBeDefined();
  });

  test.each(["untitled:Untitled-1", "file:///notes.txt"])(
    "are logs where only the editor says that they are Markdown, under the names they have: %s",
    (uri) => {
      const service = new Service(host);
      const documents = new Documents(service);
      const text = "---\nmendlog: 1\n---\n";
      const document = documents.open({ textDocument: { uri, languageId: "markdown", version: 1, text } });
      expect(document?.uri).toBe(uri);
      expect(service.view(uri)?.doc.uri).toBe(uri);
      // It stays Markdown while it is typed in.
      documents.change({
        textDocument: { uri, version: 2 },
        contentChanges: [{ text: text.replace("1", "1 ") }],
      });
      expect(service.view(uri)).toBeDefined();
    },
  );

  test("are logs by their ending, whatever the editor says", () => {
    const service = new Service(host);
    const documents = new Documents(service);
    const text = "---\nmendlog: 1\n---\n";
    documents.open({ textDocument: { uri: "file:///b.md", languageId: "plaintext", version: 1, text } });
    expect(service.view("file:///b.md")).toBeDefined();
  });

  test("of another ending are logs once the editor has said that they are Markdown", () => {
    const service = new Service(host);
    const documents = new Documents(service);
    const text = "---\nmendlog: 1\n---\n";
    documents.open({ textDocument: { uri: "file:///notes.txt", languageId: "markdown", version: 1, text } });
    expect(service.isLog("file:///notes.txt", text)).toBe(true);
    expect(service.isLog("file:///other.txt", text)).toBe(false);
  });
});
