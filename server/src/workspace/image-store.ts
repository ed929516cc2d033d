// The image files that logs name, as they were when last read. An image is read when a log first names it, and again
// when it changed on disk or the log was saved.
import { type CancellationToken, NEVER_CANCELLED, stopIfCancelled } from "../base/cancellation";
import type { ImageFile, Images } from "../compute/memory/image-file";
import { LARGEST_IMAGE, MOST_IMAGES, sameImage } from "../compute/memory/image-file";
import type { Host } from "./host";
import { imageUri, liesInFolder } from "./image-uri";

/** Photographs looked for, for one log. */
const MOST_PHOTOGRAPHS = 200;
/** Photographs looked for before it is asked whether anybody still waits. */
const AT_A_TIME = 4;

interface Named {
  /** Undefined for a log that is not open: its images are not held on to. */
  readonly images: Images | undefined;
  readonly uris: ReadonlySet<string>;
  /** Another object whenever the images may have changed. */
  readonly stamp: object;
  /** True where the images have to be read again. */
  readonly stale: boolean;
}

export class ImageStore {
  readonly #host: Host;
  readonly #byLog = new Map<string, Named>();

  constructor(host: Host) {
    this.#host = host;
  }

  /** As last read; the same object until something in it changed. */
  of(log: string): Images | undefined {
    return this.#byLog.get(log)?.images;
  }

  stamp(log: string): object | undefined {
    return this.#byLog.get(log)?.stamp;
  }

  /** Nothing of the log is held on to; what it names is still known, so that a change of that is noticed. */
  closed(log: string): void {
    const known = this.#byLog.get(log);
    if (known) this.#byLog.set(log, { ...known, images: undefined, stale: true });
  }

  /** A closed log was read elsewhere, and names these. */
  named(log: string, uris: readonly string[]): void {
    if (uris.length === 0) this.#byLog.delete(log);
    else {
      const stamp = this.#byLog.get(log)?.stamp ?? {};
      this.#byLog.set(log, { images: undefined, uris: new Set(uris), stamp, stale: true });
    }
  }

  /** Uris of what a log names, where it was looked at. */
  namedBy(log: string): readonly string[] {
    return [...(this.#byLog.get(log)?.uris ?? [])];
  }

  /** A file changed: the logs that name it have to have it read again. True where there are any. */
  changed(uri: string): boolean {
    let any = false;
    for (const [log, known] of this.#byLog) {
      if (log === uri) this.#byLog.set(log, { ...known, stale: true });
      else if (known.uris.has(uri)) {
        this.#byLog.set(log, { ...known, stamp: {}, stale: true });
        any = true;
      }
    }
    return any;
  }

  /** The folders changed: what lies outside them is another question now. */
  allChanged(): void {
    for (const [log, known] of this.#byLog) this.#byLog.set(log, { ...known, stamp: {}, stale: true });
  }

  /**
   * Reads what was not read yet of the images at these paths. Undefined where none are named or this host reads none.
   * @param keep whether the log is open and its images are held on to
   * @param photographs paths of which only is asked whether they are there and how large, a few at a time
   * @throws Cancelled where nobody waits for it any longer
   */
  async prepare(
    log: string,
    paths: readonly string[],
    keep: boolean,
    photographs: readonly string[] = [],
    token: CancellationToken = NEVER_CANCELLED,
  ): Promise<Images | undefined> {
    const { readBytes } = this.#host;
    const looked = photographs.filter((path) => !paths.includes(path));
    if (!readBytes || paths.length + looked.length === 0 || !liesInFolder(log)) {
      this.#byLog.delete(log);
      return undefined;
    }
    const before = this.#byLog.get(log);
    const old = before?.stale === false ? before.images : undefined;
    const uris = new Set<string>();
    const read = async (path: string, at: number, most: number): Promise<readonly [string, ImageFile]> => {
      const known = old?.get(path);
      const uri = imageUri(log, path);
      if (uri !== undefined) uris.add(uri);
      if (at >= (most === 0 ? MOST_PHOTOGRAPHS : MOST_IMAGES))
        return [path, { ok: false, reason: "too-many" }];
      if (known && !(known.ok === false && known.reason === "too-many")) return [path, known];
      if (uri === undefined) return [path, { ok: false, reason: "outside" }];
      const now = await readBytes.call(this.#host, uri, most);
      const last = before?.images?.get(path);
      return [path, last && sameImage(last, now) ? last : now];
    };
    const images = new Map(await Promise.all(paths.map((path, at) => read(path, at, LARGEST_IMAGE))));
    for (let from = 0; from < looked.length; from += AT_A_TIME) {
      stopIfCancelled(token);
      const some = looked.slice(from, from + AT_A_TIME);
      // No byte is asked for: a photograph that has any is there, and too large.
      for (const [path, file] of await Promise.all(some.map((path, at) => read(path, from + at, 0))))
        images.set(path, file);
    }
    const after = this.#byLog.get(log);
    const same = before?.images !== undefined && isSame(before.images, images);
    const result = same ? before.images! : images;
    this.#byLog.set(log, {
      images: keep ? result : undefined,
      uris,
      // Of a closed log it is not known what its images were; they changed when `changed` said so.
      stamp: after !== before || same || !keep ? (after?.stamp ?? {}) : {},
      // It changed while it was being read.
      stale: !keep || (after !== before && after?.stale === true),
    });
    return result;
  }
}

const isSame = (a: Images, b: Images): boolean =>
  a.size === b.size && [...b].every(([path, file]) => a.get(path) === file);
