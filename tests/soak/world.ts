// A workspace in memory that files come to and go from, with a service that has been there all the time, and the same
// workspace as a service sees it that was begun just now.
import { Service } from "../../server/src/service";
import { applyEdits } from "../../server/src/text/edits";
import type { Host } from "../../server/src/workspace/host";
import { knowledgeKind } from "../../server/src/workspace/host";
import type { Texts } from "./sources";
import type { Typed } from "./texts";

export const FOLDER = "mem:/ws/";
export const uriOf = (path: string): string => FOLDER + path;

/** What somebody does. Paths as in `Texts`; it can be written as JSON and done again. */
export type Deed =
  | { readonly does: "open" | "close" | "save" | "delete" | "remember"; readonly path: string }
  | ({ readonly does: "type"; readonly path: string } & Typed)
  | { readonly does: "write"; readonly path: string; readonly text: string }
  | { readonly does: "rename"; readonly path: string; readonly to: string };

export interface World {
  /** As they lie on the disk, by path. */
  readonly disk: Map<string, string>;
  /** As they are being edited. */
  readonly open: Map<string, string>;
  readonly service: Service;
  /** Whatever was read outside of the folder. */
  readonly outside: string[];
}

function hostOf(disk: ReadonlyMap<string, string>, outside: string[]): Host {
  const pathOf = (uri: string): string | undefined => {
    if (uri.startsWith(FOLDER) && !uri.includes("/../")) return uri.slice(FOLDER.length);
    outside.push(uri);
    return undefined;
  };
  return {
    read: async (uri) => disk.get(pathOf(uri) ?? ""),
    list: async () => [...disk.keys()].map(uriOf),
    async readBytes(uri, most) {
      // The real one is asked about any uri, and tells them apart itself.
      const text = uri.startsWith(FOLDER) ? disk.get(uri.slice(FOLDER.length)) : undefined;
      if (text === undefined) return { ok: false, reason: "absent" };
      const bytes = Uint8Array.from(text, (char) => char.charCodeAt(0));
      return bytes.length > most
        ? { ok: false, reason: "too-large", size: bytes.length }
        : { ok: true, bytes };
    },
  };
}

export async function begin(files: Texts): Promise<World> {
  const disk = new Map(Object.entries(files));
  const outside: string[] = [];
  const service = new Service(hostOf(disk, outside));
  await service.load();
  return { disk, open: new Map(), service, outside };
}

export async function remember(service: Service): Promise<void> {
  for await (const _ of service.index());
}

/** Does it to the files and tells the service, as the server would. What cannot be done is left. */
export async function perform(world: World, deed: Deed): Promise<void> {
  const { disk, open, service } = world;
  const { path } = deed;
  const uri = uriOf(path);
  const text = open.get(path);
  switch (deed.does) {
    case "open": {
      const there = disk.get(path);
      if (there === undefined || text !== undefined) return;
      open.set(path, there);
      return service.open(uri, there);
    }
    case "type": {
      if (text === undefined) return;
      const to = Math.min(text.length, deed.to);
      const edit = { span: { start: Math.min(to, deed.from), end: to }, newText: deed.text };
      open.set(path, applyEdits(text, [edit]));
      return service.edit(uri, [edit]);
    }
    case "save": {
      if (text === undefined) return;
      disk.set(path, text);
      await service.fileChanged(uri);
      return;
    }
    case "close":
      if (open.delete(path)) await service.close(uri);
      return;
    case "delete":
      if (disk.delete(path)) await service.fileChanged(uri);
      return;
    case "write":
      disk.set(path, deed.text);
      await service.fileChanged(uri);
      return;
    case "rename": {
      const moved = disk.get(path);
      if (moved === undefined || disk.has(deed.to)) return;
      disk.delete(path);
      disk.set(deed.to, moved);
      await service.fileChanged(uri);
      await service.fileChanged(uriOf(deed.to));
      return;
    }
    case "remember":
      return remember(service);
  }
}

/** All findings of all files, by path, as JSON a line: the open ones as they are edited, the others as they lie there. */
async function told(
  service: Service,
  { disk, open }: World,
): Promise<ReadonlyMap<string, readonly string[]>> {
  const all = new Map<string, readonly string[]>();
  for (const path of [...new Set([...disk.keys(), ...open.keys()])].sort()) {
    const uri = uriOf(path);
    const text = open.get(path) ?? disk.get(path) ?? "";
    await service.prepareImages(uri, text);
    // One that is edited and is no longer there is known to the editor alone.
    const findings =
      open.has(path) || knowledgeKind(path) ? service.findings(uri) : service.findingsOf(uri, text);
    all.set(
      path,
      findings.map((finding) => JSON.stringify(finding)),
    );
  }
  return all;
}

/** The first finding that the service has and a new one has not, or the other way round; undefined where there is none. */
export async function differs(world: World): Promise<string | undefined> {
  await remember(world.service);
  const now = await told(world.service, world);
  const fresh = await begin(Object.fromEntries(world.disk));
  for (const [path, text] of world.open) fresh.service.open(uriOf(path), text);
  await remember(fresh.service);
  const anew = await told(fresh.service, world);
  for (const [path, findings] of now) {
    const others = anew.get(path) ?? [];
    const at = findings.findIndex((finding, i) => finding !== others[i]);
    if (at >= 0) return `${path}: after all that happened ${findings[at]}, anew ${others[at] ?? "nothing"}`;
    if (others.length > findings.length)
      return `${path}: after all that happened nothing, anew ${others[findings.length]}`;
  }
  return undefined;
}

/** Files whose text is not what was typed or written; nothing but the deeds may change one. */
export function lost(
  { disk, open, service }: World,
  before: ReadonlyMap<string, string>,
): string | undefined {
  for (const [path, text] of open)
    if (service.text(uriOf(path)) !== text) return `${path}: what is held is not what was typed`;
  for (const [path, text] of before)
    if (disk.get(path) !== text) return `${path}: the file was changed by looking at it`;
  return undefined;
}
