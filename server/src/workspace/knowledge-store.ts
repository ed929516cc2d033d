import type { Knowledge, Known } from "../judge/context";
import { builtinLibrary, extend, type Library } from "../knowledge/library";
import { loadBoard } from "../knowledge/load-board";
import { loadDevice } from "../knowledge/load-device";
import { loadLimits } from "../knowledge/load-limits";
import { loadProcedure } from "../knowledge/load-procedure";
import { loadShop } from "../knowledge/load-shop";
import type { Loaded } from "../knowledge/loaded";
import type { Board, Device, PooledLimits, Procedure, Shop } from "../knowledge/types";
import { type KnowledgeKind, knowledgeKind } from "./host";

interface File {
  readonly uri: string;
  readonly kind: KnowledgeKind;
  readonly text: string;
  loaded?: Loaded<unknown>;
  /** What it says, the same object until it is loaded again. */
  known?: Known<unknown>;
  /** The library a board was loaded against: its pins were checked with it. */
  library?: Library;
}

/** The workspace's knowledge files, and an immutable view of what they say that is remade only after a change. */
export class KnowledgeStore {
  readonly #files = new Map<string, File>();
  #snapshot: Knowledge | undefined;
  #library: { key: readonly unknown[]; library: Library } | undefined;

  /** Takes a file's text in; returns false where it is not a knowledge file or nothing changed. */
  set(uri: string, text: string): boolean {
    const kind = knowledgeKind(uri);
    if (!kind || this.#files.get(uri)?.text === text) return false;
    this.#files.set(uri, { uri, kind, text });
    this.#snapshot = undefined;
    return true;
  }

  remove(uri: string): boolean {
    const gone = this.#files.delete(uri);
    if (gone) this.#snapshot = undefined;
    return gone;
  }

  uris(): readonly string[] {
    return [...this.#files.keys()].sort();
  }

  text(uri: string): string | undefined {
    return this.#files.get(uri)?.text;
  }

  loaded(uri: string): Loaded<unknown> | undefined {
    this.snapshot();
    return this.#files.get(uri)?.loaded;
  }

  snapshot(): Knowledge {
    this.#snapshot ??= this.#build();
    return this.#snapshot;
  }

  /** The snapshot's library, without a look at any board. */
  library(): Library {
    if (this.#snapshot) return this.#snapshot.library;
    return this.#extended(
      this.#load<Device>("device", loadDevice),
      this.#load<Procedure>("procedure", loadProcedure),
    );
  }

  #build(): Knowledge {
    const devices = this.#load<Device>("device", loadDevice);
    const procedures = this.#load<Procedure>("procedure", loadProcedure);
    const library = this.#extended(devices, procedures);
    const boards = new Map<string, Known<Board>>();
    const deviceOf = (part: string) => library.device(part)?.device;
    for (const board of this.#load<Board>("board", (text) => loadBoard(text, { deviceOf }), library)) {
      if (!boards.has(board.value.id)) boards.set(board.value.id, board);
    }
    const shops = this.#load<Shop>("shop", loadShop);
    const limits = this.#load<PooledLimits>("limits", loadLimits);
    return { library, boards, shops, limits, devices, procedures };
  }

  #load<T>(kind: KnowledgeKind, load: (text: string) => Loaded<T>, library?: Library): Known<T>[] {
    const known: Known<T>[] = [];
    for (const uri of this.uris()) {
      const file = this.#files.get(uri);
      if (file?.kind !== kind) continue;
      if (!file.loaded || (library && file.library !== library)) {
        const { text } = file;
        const loaded = load(text);
        file.loaded = loaded;
        if (library) file.library = library;
        if (loaded.value === undefined) delete file.known;
        else file.known = { uri, text, loaded, value: loaded.value };
      }
      if (file.known) known.push(file.known as Known<T>);
    }
    return known;
  }

  /** The library is remade only when a device or procedure file changed, so that boards keep theirs. */
  #extended(devices: readonly Known<Device>[], procedures: readonly Known<Procedure>[]): Library {
    const key = [...devices.map((d) => d.value), ...procedures.map((p) => p.value)];
    const same = this.#library?.key.length === key.length && this.#library.key.every((k, i) => k === key[i]);
    if (!this.#library || !same) {
      const library =
        key.length === 0
          ? builtinLibrary()
          : extend(builtinLibrary(), {
              devices: devices.map((d) => d.value),
              procedures: procedures.map((p) => p.value),
            });
      this.#library = { key, library };
    }
    return this.#library.library;
  }
}
