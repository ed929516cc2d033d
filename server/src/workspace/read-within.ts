// Reading a file that a log names, and no other: the same rules for the editor and the command line.
import type { FileBytes } from "../compute/memory/file-bytes";

type Tried<T> = { readonly ok: true; readonly value: T } | { readonly ok: false };

/** What is asked of a disk. Absolute paths; nothing throws. */
export interface Lookable {
  look(path: string): Promise<
    Tried<{
      readonly kind: "file" | "folder" | "other";
      /** Bytes. */
      readonly size: number;
      /** The path with every link followed. */
      readonly real: string;
    }>
  >;
  /** The file's first `most` bytes. */
  read(path: string, most: number): Promise<Tried<Uint8Array>>;
}

/**
 * The bytes of a file in one of the folders, links followed, unless it has more than `most`. What lies outside is
 * not opened, and what plainly does is not even looked at.
 * @param path absolute, without "." and ".."
 */
export async function readWithin(
  disk: Lookable,
  folders: readonly string[],
  path: string,
  most: number,
): Promise<FileBytes> {
  if (!folders.some((folder) => isWithin(folded(folder), folded(path))))
    return { ok: false, reason: "outside" };
  const seen = await disk.look(path);
  if (!seen.ok) return { ok: false, reason: "absent" };
  const { kind, real, size } = seen.value;
  const roots = await Promise.all(folders.map((folder) => disk.look(folder)));
  if (!roots.some((root) => root.ok && isWithin(root.value.real, real)))
    return { ok: false, reason: "outside" };
  if (kind !== "file") return { ok: false, reason: "not-a-file" };
  if (size > most) return { ok: false, reason: "too-large", size };
  // One more than is allowed: a file may have grown since it was looked at.
  const read = await disk.read(real, most + 1);
  if (!read.ok) return { ok: false, reason: "unreadable" };
  if (read.value.length > most) return { ok: false, reason: "too-large", size: read.value.length };
  // A copy of its own: a buffer that is cut from a larger one would keep all of that alive.
  return { ok: true, bytes: new Uint8Array(read.value) };
}

/** A disk may take capitals or accents for the same in another spelling; where the file really lies is found out behind it. */
const folded = (path: string): string => path.normalize("NFC").toLowerCase();

/** True where `path` is the folder or lies in it, by their spelling alone. */
export const isWithin = (folder: string, path: string): boolean =>
  path === folder ||
  (path.startsWith(folder) && (/[/\\]$/.test(folder) || /^[/\\]/.test(path.slice(folder.length))));
