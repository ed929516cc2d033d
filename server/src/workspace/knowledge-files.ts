import { memoBy } from "../base/memo";
import type { KnowledgeInput } from "../checks/check";
import type { Knowledge } from "../judge/context";
import type { Library } from "../knowledge/library";
import type { YamlTree } from "../syntax/yaml";
import { type FileText, type Host, type KnowledgeKind, knowledgeKind } from "./host";
import { KnowledgeStore } from "./knowledge-store";

const libraryFiles = memoBy<Library, readonly FileText[]>();
const allFiles = memoBy<Knowledge, readonly FileText[]>();

/** A file with its tree and all that is known with it. */
export interface ReadFile {
  readonly uri: string;
  readonly kind: KnowledgeKind;
  readonly text: string;
  readonly tree: YamlTree;
  readonly knowledge: Knowledge;
}

/** The workspace's knowledge files as they are on disk, and as the editor has them where they are open there. */
export class KnowledgeFiles {
  readonly store = new KnowledgeStore();
  readonly #host: Host;
  /** What the editor has wins over what is on disk. */
  readonly #edited = new Set<string>();

  constructor(host: Host) {
    this.#host = host;
  }

  async load(): Promise<void> {
    const uris = (await this.#host.list()).filter(knowledgeKind);
    await Promise.all(uris.map((uri) => this.changed(uri)));
  }

  edited(uri: string, text: string): void {
    this.#edited.add(uri);
    this.store.set(uri, text);
  }

  /** The editor let go of a file: it goes back to what is on disk. */
  async closed(uri: string): Promise<void> {
    if (this.#edited.delete(uri)) await this.changed(uri);
  }

  /** A file on disk may have changed. Returns true where that changes what is known. */
  async changed(uri: string): Promise<boolean> {
    if (this.#edited.has(uri)) return false;
    const text = await this.#host.read(uri);
    if (this.#edited.has(uri)) return false;
    return text === undefined ? this.store.remove(uri) : this.store.set(uri, text);
  }

  /** As it stands now; undefined for any other file. */
  file(uri: string): ReadFile | undefined {
    const kind = knowledgeKind(uri);
    const text = this.store.text(uri);
    const loaded = this.store.loaded(uri);
    if (!kind || text === undefined || !loaded) return undefined;
    return { uri, kind, text, tree: loaded.tree, knowledge: this.store.snapshot() };
  }

  /** Those of devices and procedures, by uri; the same list for as long as what they say is. */
  ofLibrary(): readonly FileText[] {
    const { library, devices, procedures } = this.store.snapshot();
    return libraryFiles(library, () => [...devices, ...procedures].map(({ uri, text }) => ({ uri, text })));
  }

  /** All of them, by uri; the same list for as long as none changes. */
  all(): readonly FileText[] {
    const { store } = this;
    return allFiles(store.snapshot(), () =>
      store.uris().map((uri) => ({ uri, text: store.text(uri) ?? "" })),
    );
  }

  /** What its checks look at. */
  input(uri: string): KnowledgeInput | undefined {
    const found = this.file(uri);
    const loaded = this.store.loaded(uri);
    if (!found || !loaded) return undefined;
    const { tree: _tree, ...rest } = found;
    const { text } = rest;
    const file = loaded.value === undefined ? undefined : { uri, text, loaded, value: loaded.value };
    return { ...rest, file, problems: loaded.problems };
  }
}
