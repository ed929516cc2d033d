// What a command looked at on the disk to find its files, so that the next one can tell whether it would find the same.
import { createHash } from "node:crypto";
import type { Disk, Look, Name, Tried } from "./io";

/** A file written so shortly before it was looked at may have been written again unseen, in milliseconds. */
export const UNSURE = 2000;

/** All that was looked at, as plain data. */
export interface Seen {
  /** Of names that count in a folder, in small letters; those of folders and links always do. */
  readonly endings: readonly string[];
  /** Each folder that was gone through, with a sum of the names that count. */
  readonly folders: readonly (readonly [path: string, names: string])[];
  /** Paths one after another, each followed by what it turned out to be; by the folder that was told with them, "" for none. */
  readonly looks: readonly (readonly [folder: string, said: readonly string[]])[];
}

/**
 * A disk that takes down what it is asked.
 * @param endings of the names that count, in small letters
 */
export function seeing(disk: Disk, endings: readonly string[]) {
  const folders = new Map<string, string>();
  const looks = new Map<string, Map<string, string>>();
  let newest = 0;
  let isTold = true;
  const look: Disk["look"] = async (path, folder) => {
    const seen = await disk.look(path, folder);
    if (seen.ok && seen.value.kind === "file")
      newest = Math.max(newest, seen.value.changed ?? Number.POSITIVE_INFINITY);
    const told = looks.get(folder ?? "") ?? new Map<string, string>();
    looks.set(folder ?? "", told.set(path, inWords(seen)));
    return seen;
  };
  return {
    disk: {
      ...disk,
      look,
      async names(folder) {
        const names = await disk.names(folder);
        folders.set(folder, namesSum(names, endings));
        return names;
      },
      async read(path, most) {
        const before = await look(path);
        const bytes = await disk.read(path, most);
        if (before.ok !== bytes.ok) isTold = false;
        return bytes;
      },
    } satisfies Disk,
    /**
     * Undefined where not all of it can be told again.
     * @param began when the first look was taken, in milliseconds since 1970
     */
    seen(began: number): Seen | undefined {
      if (!isTold || newest > began - UNSURE) return undefined;
      return {
        endings,
        folders: [...folders],
        looks: [...looks].map(([folder, told]) => [folder, [...told].flat()]),
      };
    },
  };
}

/** Whether the disk says the same again. */
export async function isStillSo({ endings, folders, looks }: Seen, disk: Disk): Promise<boolean> {
  for (const [path, names] of folders) if (namesSum(await disk.names(path), endings) !== names) return false;
  for (const [folder, said] of looks)
    for (let at = 0; at < said.length; at += 2) {
      const look = folder === "" ? disk.look(said[at]!) : disk.look(said[at]!, folder);
      if (inWords(await look) !== said[at + 1]) return false;
    }
  return true;
}

/** Of a folder only what it is: when a name in it changed is seen by its names. */
function inWords(look: Tried<Look>): string {
  if (!look.ok) return look.reason;
  const { kind, size, changed, real } = look.value;
  return kind === "file" ? `${size} ${changed} ${real}` : `${kind} ${real}`;
}

function namesSum(names: Tried<readonly Name[]>, endings: readonly string[]): string {
  if (!names.ok) return names.reason;
  const counts = ({ name, kind }: Name): boolean => {
    if (kind === "folder" || kind === "link") return true;
    const small = name.toLowerCase();
    return endings.some((ending) => small.endsWith(ending));
  };
  const all = names.value.filter(counts).map(({ name, kind }) => `${kind} ${name}`);
  return createHash("sha256").update(all.sort().join("\n")).digest("base64");
}
