// What a thread does: reads and sums up logs, is told what all threads found, and checks its share.
import type { Remembered } from "../../workspace/remembered";
import { packSums, unpackSums } from "../../workspace/shared-sums";
import { type Checked, checkedBy, openDesk } from "../desk";
import type { Disk } from "../io";
import type { Opening, Replies, Task } from "./messages";
import { resultPacker } from "./packed-results";

/** Answers one kind of task after another; each waits for the last. */
export function worker(disk: Disk, { group, severity, chosen, cwd }: Opening) {
  const opened = openDesk(disk, group, { severity, chosen }, cwd);
  const packed = resultPacker();
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
          return { files: packed(files), unread: desk.unread() };
        }
      }
    },
  };
}
