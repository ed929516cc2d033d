// The logs at or below one folder, with all that is known around them.
import { resolve } from "node:path";
import type { LogSummary } from "../../log/summary";
import { compareValues } from "../../review/numbers/order";
import { openDesk, relativeToCwd } from "../desk";
import type { FoundFile } from "../find-files";
import { done, failed, type Io, type Tried } from "../io";
import { progress } from "../progress";
import { type FileProblem, findTargets } from "../targets";
import { tellOf } from "../tell";

export type ShopDesk = Awaited<ReturnType<typeof openDesk>>;

export interface ShopJobs {
  readonly desk: ShopDesk;
  /** In the order of their uris. */
  readonly jobs: readonly { readonly file: FoundFile; readonly summary: LogSummary }[];
  /** What could not be read so far. */
  readonly problems: readonly FileProblem[];
}

/** Fails where the folder is none or has no log. */
export async function shopJobs(path: string, io: Io): Promise<Tried<ShopJobs>> {
  const folder = resolve(io.cwd, path);
  const look = await io.disk.look(folder);
  if (!look.ok) return look;
  if (look.value.kind !== "folder") return failed("is not a folder");
  const { groups, problems } = await findTargets(io.disk, [folder], io.cwd);
  const [group] = groups;
  if (!group) return failed("has no log");
  const desk = await openDesk(io.disk, group, { severity: new Map() }, io.cwd);
  const step = progress(io, false);
  for await (const { done: read, total } of desk.remember()) step.step(read, total);
  step.end();
  const files = new Map(group.files.map((file) => [desk.uri(file), file]));
  const jobs = desk
    .jobs()
    .flatMap((summary) => {
      const file = files.get(summary.uri);
      return file ? [{ file, summary }] : [];
    })
    .sort((a, b) => compareValues(a.summary.uri, b.summary.uri));
  if (jobs.length === 0)
    return failed('has no log: logs are Markdown files with "mendlog: 1" in the front matter');
  return done({ desk, jobs, problems: [...problems, ...desk.unread()] });
}

/** Says what could not be read. Returns whether everything could. */
export function tellProblems(problems: readonly FileProblem[], io: Io): boolean {
  const byPath = new Map(problems.map(({ path, message }) => [path, message]));
  for (const [path, message] of byPath) tellOf(io, relativeToCwd(io.cwd, path), message);
  return byPath.size === 0;
}
