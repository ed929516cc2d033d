// A whole workspace in one string: `//- path` begins a file, caret lines say what is found where, `$0` is the
// cursor. Nothing touches a disk.
import type { Finding } from "../../server/src/checks/check";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import type { LogView } from "../../server/src/features/view";
import { Service } from "../../server/src/service";
import { knowledgeKind } from "../../server/src/workspace/host";
import { expectCarets, type Marked, readCarets } from "./carets";

export interface FixtureFile {
  readonly uri: string;
  readonly marked: Marked;
}

/** Splits a fixture into its files; one without `//-` lines is the log alone. */
export function readFixture(fixture: string): FixtureFile[] {
  const parts = fixture.split(/^\/\/- (.+)\r?\n/m);
  const files: FixtureFile[] = [];
  if ((parts[0] ?? "").trim() !== "")
    files.push({ uri: "mem:/ws/log.md", marked: readCarets(parts[0] ?? "") });
  for (let i = 1; i < parts.length; i += 2) {
    files.push({ uri: `mem:/ws/${(parts[i] ?? "").trim()}`, marked: readCarets(parts[i + 1] ?? "") });
  }
  return files;
}

export interface World {
  readonly service: Service;
  readonly files: readonly FixtureFile[];
}

/** The fixture opened in a service, the examples' board beside it where it brings no board of its own. */
export async function openWorld(fixture: string): Promise<World> {
  const files = readFixture(fixture);
  const texts = new Map(files.map(({ uri, marked }) => [uri, marked.text]));
  if (!files.some(({ uri }) => knowledgeKind(uri) === "board"))
    texts.set("mem:/ws/example.board.yaml", EXAMPLE_BOARD);
  const service = new Service({
    read: async (uri) => texts.get(uri),
    list: async () => [...texts.keys()],
    // The files of a fixture are the images as well, one byte a character; its folder is the workspace.
    async readBytes(uri, most) {
      if (!uri.startsWith("mem:/ws/")) return { ok: false, reason: "outside" };
      const text = texts.get(uri);
      if (text === undefined) return { ok: false, reason: "absent" };
      const bytes = Uint8Array.from(text, (char) => char.charCodeAt(0));
      return bytes.length > most
        ? { ok: false, reason: "too-large", size: bytes.length }
        : { ok: true, bytes };
    },
  });
  await service.load();
  for (const { uri, marked } of files) if (!knowledgeKind(uri)) service.open(uri, marked.text);
  for (const { uri } of files) await service.prepareImages(uri);
  // One log alone has no others to be remembered.
  if (files.filter(({ uri }) => uri.endsWith(".md")).length > 1) for await (const _ of service.index());
  return { service, files };
}

/** Holds the findings of every file of the fixture against its caret lines. */
export async function checkFindings(fixture: string): Promise<ReadonlyMap<string, readonly Finding[]>> {
  const { service, files } = await openWorld(fixture);
  const found = new Map<string, readonly Finding[]>();
  for (const { uri, marked } of files) {
    const findings = service.findings(uri);
    found.set(uri, findings);
    expectCarets(marked, findings);
  }
  return found;
}

export interface CursorWorld {
  readonly service: Service;
  readonly uri: string;
  readonly view: LogView;
  readonly offset: number;
}

/** Opens a fixture whose cursor is at `$0`. */
export async function openAt(fixture: string): Promise<CursorWorld> {
  const file = readFixture(fixture).find(({ marked }) => marked.text.includes("$0"));
  if (!file) throw new Error("the fixture has no $0");
  const { service } = await openWorld(fixture.replace("$0", ""));
  const view = service.view(file.uri);
  if (!view) throw new Error(`${file.uri} is not a log`);
  return { service, uri: file.uri, view, offset: file.marked.text.indexOf("$0") };
}
