import { describe, expect, it } from "vitest";
import { LogReader } from "../../server/src/log/document";
import { contextFor } from "../../server/src/workspace/context";
import { fileName, folderOf, isMarkdown, knowledgeKind } from "../../server/src/workspace/host";
import { KnowledgeStore } from "../../server/src/workspace/knowledge-store";

const board = (id: string, title = id) =>
  `mendlog-board: 1\nid: ${id}\ntitle: ${title}\nparts:\n  U1: { device: 74LS04 }\n`;
const shop = (name: string) =>
  `mendlog-shop: 1\nname: ${name}\nmeters:\n  bench: { title: Meter of ${name}, ranges: [] }\n`;
const device = (id: string, title: string) =>
  `mendlog-device: 1\nid: "${id}"\ntitle: ${title}\nkind: logic\nfamilies: [LS]\npackage: { name: DIP-14, pins: 2 }\npins:\n  1: { name: A, direction: input }\n  2: { name: B, direction: output }\nsource: from memory\n`;

function store(files: Readonly<Record<string, string>>): KnowledgeStore {
  const made = new KnowledgeStore();
  for (const [uri, text] of Object.entries(files)) made.set(uri, text);
  return made;
}

describe("the kinds of file", () => {
  it.each([
    ["file:///a/x.board.yaml", "board"],
    ["x.device.yaml", "device"],
    ["mem:/x.procedure.yaml", "procedure"],
    ["mem:/mendlog.shop.yaml", "shop"],
    ["mem:/.board.yaml", undefined],
    ["mem:/board.yaml", undefined],
    ["mem:/x.board.yml", undefined],
    ["mem:/my.shop.yaml", undefined],
    ["mem:/x.board.yaml/a", undefined],
  ])("go by the name alone: %s is %s", (uri, kind) => {
    expect(knowledgeKind(uri)).toBe(kind);
  });

  it.each([
    ["a.md", true],
    ["A.MD", true],
    ["b.markdown", true],
    ["c.mdx", false],
    ["md", false],
  ])("Markdown goes by its ending: %s %s", (name, is) => {
    expect(isMarkdown(name)).toBe(is);
  });

  it("are named by folder and file", () => {
    expect([folderOf("mem:/a/b.md"), fileName("mem:/a/b.md")]).toEqual(["mem:/a/", "b.md"]);
  });
});

const contextOf = (
  uri: string,
  front: Parameters<typeof contextFor>[1],
  knowledge: ReturnType<KnowledgeStore["snapshot"]>,
  last: ReturnType<typeof contextFor>["ctx"] | undefined,
) => {
  const doc = new LogReader(uri).read("", knowledge.library);
  const made = contextFor(doc, front, { knowledge }, last && { ctx: last, logBoard: boards.get(last) });
  boards.set(made.ctx, made.logBoard);
  return made.ctx;
};
const boards = new WeakMap<object, ReturnType<typeof contextFor>["logBoard"]>();

describe("what a log is judged against", () => {
  it("is the board it names and the nearest shop at or above it", () => {
    const knowledge = store({
      "mem:/mendlog.shop.yaml": shop("top"),
      "mem:/a/mendlog.shop.yaml": shop("a"),
      "mem:/a/b/c/mendlog.shop.yaml": shop("c"),
      "mem:/boards/x.board.yaml": board("x"),
    }).snapshot();
    const at = (uri: string) => contextOf(uri, { board: "x", meter: "bench" }, knowledge, undefined);
    expect(at("mem:/a/b/log.md").shop?.value.name).toBe("a");
    expect(at("mem:/a/b/c/d/log.md").shop?.value.name).toBe("c");
    expect(at("mem:/ab/log.md").shop?.value.name).toBe("top");
    expect(at("mem:/a/log.md").meter?.title).toBe("Meter of a");
    expect(at("mem:/log.md").board?.value.id).toBe("x");
    expect(contextOf("mem:/log.md", { board: "y", meter: "z" }, knowledge, undefined)).toEqual({
      library: knowledge.library,
      shop: expect.anything(),
    });
  });

  it("is the only shop there is, wherever it lies, but none of several elsewhere", () => {
    const one = store({ "mem:/shop/mendlog.shop.yaml": shop("only") }).snapshot();
    expect(contextOf("mem:/logs/log.md", {}, one, undefined).shop?.value.name).toBe("only");
    const two = store({
      "mem:/s1/mendlog.shop.yaml": shop("1"),
      "mem:/s2/mendlog.shop.yaml": shop("2"),
    }).snapshot();
    expect(contextOf("mem:/logs/log.md", {}, two, undefined).shop).toBeUndefined();
  });

  it("is the very same object while nothing of it changes", () => {
    const files = store({ "mem:/x.board.yaml": board("x"), "mem:/mendlog.shop.yaml": shop("s") });
    const first = contextOf("mem:/log.md", { board: "x" }, files.snapshot(), undefined);
    expect(
      contextOf("mem:/log.md", { board: "x", job: "7", stage: "repairing" }, files.snapshot(), first),
    ).toBe(first);
    expect(files.set("mem:/x.board.yaml", board("x"))).toBe(false);
    expect(contextOf("mem:/log.md", { board: "x" }, files.snapshot(), first)).toBe(first);
    expect(contextOf("mem:/log.md", { board: "x", meter: "bench" }, files.snapshot(), first)).not.toBe(first);
    expect(contextOf("mem:/log.md", {}, files.snapshot(), first)).not.toBe(first);
    files.set("mem:/y.board.yaml", board("y"));
    files.set("mem:/a/mendlog.shop.yaml", shop("of another folder"));
    expect(contextOf("mem:/log.md", { board: "x" }, files.snapshot(), first)).toBe(first);
    files.set("mem:/x.board.yaml", board("x", "X again"));
    expect(contextOf("mem:/log.md", { board: "x" }, files.snapshot(), first)).not.toBe(first);
  });
});

describe("the knowledge files", () => {
  it("are loaded once, and only what changed again", () => {
    const files = store({ "mem:/x.board.yaml": board("x"), "mem:/y.board.yaml": board("y") });
    const before = files.snapshot();
    expect(files.snapshot()).toBe(before);
    files.set("mem:/y.board.yaml", board("y", "other"));
    const after = files.snapshot();
    expect(after).not.toBe(before);
    expect(after.library).toBe(before.library);
    expect(after.boards.get("x")?.value).toBe(before.boards.get("x")?.value);
    expect(after.boards.get("y")?.value.title).toBe("other");
  });

  it("put a workspace's device over the library, and boards are read with it", () => {
    const files = store({ "mem:/x.board.yaml": `${board("x")}nets:\n  N: [U1.3]\n` });
    expect(files.loaded("mem:/x.board.yaml")?.problems).toEqual([]);
    files.set("mem:/own.device.yaml", device("7404", "Two-pin oddity"));
    expect(files.snapshot().library.device("74LS04")?.device.title).toBe("Two-pin oddity");
    // The board's net names a pin that the part no longer has.
    expect(files.loaded("mem:/x.board.yaml")?.problems).not.toEqual([]);
    expect(files.remove("mem:/own.device.yaml")).toBe(true);
    expect(files.remove("mem:/own.device.yaml")).toBe(false);
    expect(files.snapshot().library.device("74LS04")?.device.title).toBe("Hex inverter");
    expect(files.loaded("mem:/x.board.yaml")?.problems).toEqual([]);
  });

  it("use the first of two boards with one id, in order of path, and the second when that goes", () => {
    const files = store({
      "mem:/b.board.yaml": board("x", "from b"),
      "mem:/a.board.yaml": board("x", "from a"),
    });
    expect(files.snapshot().boards.get("x")?.value.title).toBe("from a");
    files.remove("mem:/a.board.yaml");
    expect(files.snapshot().boards.get("x")?.value.title).toBe("from b");
  });

  it("leave out a file that cannot be read, and keep its problems", () => {
    const files = store({ "mem:/x.board.yaml": "- a list\n", "mem:/y.board.yaml": board("y") });
    expect([...files.snapshot().boards.keys()]).toEqual(["y"]);
    expect(files.loaded("mem:/x.board.yaml")?.problems).not.toEqual([]);
    expect(files.set("mem:/notes.md", "# x")).toBe(false);
    expect(files.uris()).toEqual(["mem:/x.board.yaml", "mem:/y.board.yaml"]);
  });
});
