// What a thread does: reads and sums up logs, is told what all threads found, and checks its share.
import type { Remembered } from "../../workspace/remembered";
import { type Checked, checkedBy, openDesk } from "../desk";
import type { Disk } from "../io";
import type { Opening, Replies, Sum, Sums, Task } from "./messages";

/** Answers one kind of task after another; each waits for the last. */
export function worker(disk: Disk, { group, severity, chosen, cwd }: Opening) {
  const opened = openDesk(disk, group, { severity, chosen }, cwd);
  return {
    /** One answer for each kind of task; see `Replies`. */
    async work(task: Task): Promise<Replies[Task["kind"]]> {
      const desk = await opened;
      switch (task.kind) {
        case "sum": {
          const markdown = desk.markdown();
          const found: Remembered[] = [];
          for (const at of task.at) found.push(await desk.sum(markdown[at]!));
          return packSums(found);
        }
        case "recall":
          desk.recall(task.sums.flatMap(unpackSums));
          return undefined;
        case "check": {
          const files: Checked[] = [];
          for (const at of task.at) files.push(await checkedBy(desk, group.files[at]!));
          return { files, unread: desk.unread() };
        }
      }
    },
  };
}

/** In shared memory, so that ten thousand of them are there once and not once for each thread. */
export function packSums(found: readonly Remembered[]): Sums {
  const encoder = new TextEncoder();
  const rests = found.map(({ packed }) => (packed ? encoder.encode(packed.rest) : undefined));
  const bytes = new SharedArrayBuffer(rests.reduce((sum, rest) => sum + (rest?.length ?? 0), 0));
  const view = new Uint8Array(bytes);
  let at = 0;
  const all = found.map(({ uri, hash, packed }, i): Sum => {
    const rest = rests[i];
    if (!packed || !rest) return hash === undefined ? { uri } : { uri, hash };
    const from = at;
    view.set(rest, from);
    at += rest.length;
    return { uri, ...(hash === undefined ? {} : { hash }), packed: { head: packed.head, from, to: at } };
  });
  return { all, bytes };
}

/** What was put together; each long half is read when it is asked for. */
export function unpackSums({ all, bytes }: Sums): Remembered[] {
  const view = new Uint8Array(bytes);
  return all.map(({ uri, hash, packed }): Remembered => {
    const known = hash === undefined ? { uri } : { uri, hash };
    if (!packed) return known;
    const { head, from, to } = packed;
    return {
      ...known,
      packed: {
        head,
        // A decoder takes no shared memory, so this is a copy.
        get rest() {
          return new TextDecoder().decode(view.slice(from, to));
        },
      },
    };
  });
}
