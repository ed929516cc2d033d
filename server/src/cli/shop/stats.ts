// The command that says what all of a shop's jobs add up to.
import { writeStats } from "../../report/stats";
import type { Io } from "../io";
import { tellOf } from "../tell";
import { writeOutput } from "../write-output";
import { shopJobs, tellProblems } from "./jobs";
import type { StatsOptions } from "./options";

/** Gives the exit status: 0 written, 2 where nothing was or a log could not be read. */
export async function runStats({ path, format, output, force }: StatsOptions, io: Io): Promise<number> {
  const found = await shopJobs(path, io);
  if (!found.ok) {
    tellOf(io, path, found.reason);
    return 2;
  }
  const { desk, jobs, problems } = found.value;
  const complete = tellProblems(problems, io);
  const counted = new Set(jobs.map(({ summary }) => summary.uri));
  const { boards, shops, library } = desk.knowledge();
  const text = writeStats(
    {
      numbers: desk.numbers((uri) => counted.has(uri)),
      boardTitle: (id) => boards.get(id)?.value.title ?? id,
      procedureTitle: (id) => library.procedures.find((it) => it.id === id)?.title ?? id,
      shop: shops[0]?.value.name,
    },
    format,
  );
  if (output === undefined) io.out.write(text);
  else {
    const written = await writeOutput(output, text, { force }, io);
    if (!written.ok) {
      tellOf(io, output, written.reason);
      return 2;
    }
  }
  return complete ? 0 : 2;
}
