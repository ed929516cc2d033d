// Board files drafted from logs in many ways of writing: each loads without a problem, and takes nothing away from what
// the logs say by themselves.
import { readdirSync, readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { draftFile } from "../../server/src/features/board-file/draft";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { Service } from "../../server/src/service";

const FOLDERS = ["logs", "held-out/logs", "third/logs"].map(
  (folder) => new URL(`../depth0/${folder}/`, import.meta.url),
);
const LOGS = FOLDERS.map((folder) =>
  readdirSync(folder)
    .filter((name) => name.endsWith(".md"))
    .sort()
    .map((name) => readFileSync(new URL(name, folder), "utf8")),
);
const BOARD = "mem:/ws/halden.board.yaml";

type Texts = ReadonlyMap<string, string>;

/** The same log, of the one board that is asked about here. */
const ofBoard = (text: string): string =>
  text
    .replace(/^board:.*\r?\n/m, "")
    .replace(/^reference:.*\r?\n/m, "")
    .replace(/^---\r?\n/, (line) => `${line}board: halden\n`);

const deviceOf = (part: string) => builtinLibrary().device(part)?.device;

async function open(texts: Texts): Promise<Service> {
  const service = new Service({ read: async (uri) => texts.get(uri), list: async () => [...texts.keys()] });
  await service.load();
  for await (const _ of service.index());
  return service;
}

/** "log 1, line 12: pin-shorted", each as often as it is told. */
async function told(texts: Texts): Promise<string[]> {
  const service = await open(texts);
  return [...texts].flatMap(([uri, text]) => {
    if (!uri.endsWith(".md")) return [];
    service.open(uri, text);
    return service.findings(uri).flatMap(({ code, severity, span }) => {
      const line = text.slice(0, span.start).split("\n").length;
      return severity === "hint" || code === "board-not-named" ? [] : [`${uri}:${line} ${code}`];
    });
  });
}

function missing(some: readonly string[], from: readonly string[]): string[] {
  const left = [...from];
  return some.filter((one) => {
    const at = left.indexOf(one);
    if (at >= 0) left.splice(at, 1);
    return at < 0;
  });
}

async function hold(logs: readonly string[]): Promise<void> {
  const texts = new Map(logs.map((text, i) => [`mem:/ws/${i + 1}.md`, ofBoard(text)]));
  const service = await open(texts);
  const views = [...texts].flatMap(([uri, text]) => service.viewOf(uri, text) ?? []);
  const question = { logs: views, library: builtinLibrary(), name: "halden" };
  const made = draftFile(question);
  if (!made.ok) throw new Error(made.reason);
  expect(loadBoard(made.text, { deviceOf }).problems, made.text).toEqual([]);
  expect(made.text).not.toContain("left out:");
  expect(draftFile({ ...question, existing: made.text })).toMatchObject({ ok: true, edits: [] });
  const alone = await told(texts);
  const filed = await told(new Map([...texts, [BOARD, made.text]]));
  expect(missing(alone, filed), made.text).toEqual([]);
}

const PATIENCE = 600_000;

test.each([0, 1, 2])("every log of folder %i by itself", { timeout: PATIENCE }, async (folder) => {
  for (const log of LOGS[folder] ?? []) await hold([log]);
  expect(LOGS[folder]?.length).toBeGreaterThan(10);
});

test("five logs of a board together, though no two agree on its parts", { timeout: PATIENCE }, async () => {
  const all = LOGS.flat();
  for (let at = 0; at + 5 <= all.length; at += 10) await hold(all.slice(at, at + 5));
});
