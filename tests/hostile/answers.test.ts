// Whatever stands in the files: what an editor is given to show holds no mark of theirs. Asked over the protocol, at every word of
// every file, of all that answers with Markdown, and of what is drawn.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { CompletionItem, InlayHint, MarkupContent, SignatureHelp } from "vscode-languageserver-protocol";
import { type Bench, startBench } from "../protocol/bench";
import { FULL_CAPABILITIES } from "../protocol/client.js";
import { hostileFiles, random } from "./fields";
import { wrongInHtml, wrongInMarkdown } from "./looks";

const SEED = process.env.MENDLOG_SEED === "random" ? Date.now() % 1e6 : Number(process.env.MENDLOG_SEED ?? 1);

/** Places asked in each file; more with MENDLOG_RUNS. */
const PLACES = Number(process.env.MENDLOG_RUNS ?? 60);

const capabilities = {
  ...FULL_CAPABILITIES,
  textDocument: {
    ...FULL_CAPABILITIES.textDocument,
    inlayHint: {},
    signatureHelp: { signatureInformation: { documentationFormat: ["markdown" as const] } },
  },
};

/** Beginnings of words, spread over the whole file. */
function placesIn(text: string, next: () => number): { line: number; character: number }[] {
  const all = text
    .split("\n")
    .flatMap((line, at) =>
      [...line.matchAll(/[^\s|]+/g)].map(({ index }) => ({ line: at, character: index + 1 })),
    );
  return all.length <= PLACES
    ? all
    : Array.from({ length: PLACES }, () => all[Math.floor(next() * all.length)]!);
}

const markdownOf = (content: MarkupContent | string | undefined): string[] =>
  typeof content === "object" && content.kind === "markdown" ? [content.value] : [];

describe.each([
  [SEED, true],
  [SEED + 1, false],
] as const)("seed %i, fields as they should be: %s", (seed, strict) => {
  let bench: Bench;
  /** How many texts held words of the files, by the file asked. */
  const evilOf = new Map<string, number>();
  const files = hostileFiles(seed, strict);
  beforeAll(async () => {
    bench = await startBench([...files].map(([path, text]) => `//- ${path}\n${text}`).join(""), {
      capabilities,
      initializationOptions: { pictures: true },
    });
    for (const [path, text] of files)
      await bench.client.open(bench.uri(path), text, path.endsWith(".md") ? "markdown" : "yaml");
  });
  afterAll(() => bench.end());

  test.each([...files.keys()])("%s", async (path) => {
    const { client, uri } = bench;
    const text = files.get(path)!;
    const next = random(seed);
    const textDocument = { uri: uri(path) };
    const wrong = new Set<string>();
    let looked = 0;
    let evil = 0;
    const look = (from: string, shown: readonly string[]): void => {
      for (const each of shown) {
        looked += 1;
        if (each.includes("EVIL")) evil += 1;
        for (const why of wrongInMarkdown(each))
          wrong.add(`${from}: ${why} in ${JSON.stringify(each.slice(0, 300))}`);
      }
    };
    for (const position of placesIn(text, next)) {
      const at = { textDocument, position };
      const hover = await client.request("textDocument/hover", at);
      look("hover", markdownOf(hover?.contents));
      const list = await client.request("textDocument/completion", at);
      look(
        "completion",
        (list?.items ?? []).flatMap(({ documentation }: CompletionItem) => markdownOf(documentation)),
      );
      const help: SignatureHelp | null = await client.request("textDocument/signatureHelp", at);
      look(
        "signature",
        (help?.signatures ?? []).flatMap(({ documentation, parameters }) => [
          ...markdownOf(documentation),
          ...(parameters ?? []).flatMap((each) => markdownOf(each.documentation)),
        ]),
      );
    }
    const range = { start: { line: 0, character: 0 }, end: { line: text.split("\n").length, character: 0 } };
    const hints: InlayHint[] | null = await client.request("textDocument/inlayHint", { textDocument, range });
    look(
      "hint",
      (hints ?? []).flatMap(({ tooltip }) => markdownOf(tooltip)),
    );
    if (path.endsWith(".md")) {
      const preview = await client.request("mendlog/preview", textDocument);
      const pictures: string[] = (preview?.tables ?? []).flatMap((table: { pictures?: { svg: string }[] }) =>
        (table.pictures ?? []).map(({ svg }) => svg),
      );
      for (const svg of pictures) for (const why of wrongInHtml(svg, false)) wrong.add(`picture: ${why}`);
      for (const command of ["mendlog.writeReport", "mendlog.writeBill", "mendlog.writeSheet"]) {
        const page = await client.request("workspace/executeCommand", {
          command,
          arguments: [textDocument.uri],
        });
        for (const why of wrongInHtml(page ?? "")) wrong.add(`${command}: ${why}`);
        expect(page.includes("EVIL"), command).toBe(true);
      }
    }
    expect([...wrong].slice(0, 5)).toEqual([]);
    // Nothing asked would be nothing wrong.
    expect(looked, path).toBeGreaterThan(5);
    evilOf.set(path, evil);
  });

  test("much of what was looked at came out of the files", () => {
    expect(evilOf.size).toBe(files.size);
    expect([...evilOf.values()].filter((count) => count > 0).length).toBeGreaterThan(3);
    expect([...evilOf.values()].reduce((sum, count) => sum + count)).toBeGreaterThan(30);
  });
});

test("a fault would be seen", () => {
  for (const bad of [
    "<img src=x onerror=EVILTAG>",
    "![x](http://evil.example/x.png)",
    "[x](command:evil)",
    "is `EVILCODE` now",
    "**EVILBOLD**",
    "http://evil.example/",
    "a\u001b[31m",
  ])
    expect(wrongInMarkdown(bad), bad).not.toEqual([]);
  for (const bad of [
    "<script>1</script>",
    "<p onclick=x>",
    "<img src=http://evil.example/x.png>",
    "<p>EVILTAG</p>",
  ])
    expect(wrongInHtml(bad), bad).not.toEqual([]);
});
