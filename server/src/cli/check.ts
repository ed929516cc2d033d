import { CHECKS } from "../checks/registry";
import { humanPieces } from "../report/human";
import { jsonReport } from "../report/json";
import type { Report } from "../report/model";
import { exitCode } from "../report/outcome";
import { sarifReport } from "../report/sarif";
import type { Printable } from "../text/printable";
import { collect } from "./collect";
import { fixFiles } from "./fix";
import type { Io } from "./io";
import type { Printing } from "./kept/again";
import { folderOfCache } from "./kept/place";
import type { CheckOptions } from "./options";
import { progress } from "./progress";
import type { Seen } from "./seen";
import { tellOf } from "./tell";
import type { Threads } from "./threads/messages";
import { checkAndWatch } from "./watch";
import { writeOutput } from "./write-output";

/** Cells in a line where the output is no terminal. */
const PLAIN_WIDTH = 120;

/** What makes a check faster, where it is there. */
export interface CheckHelp {
  readonly threads?: Threads | undefined;
  readonly printing?: Printing | undefined;
}

export function runCheck(
  options: CheckOptions,
  io: Io,
  version: string,
  help: CheckHelp = {},
): Promise<number> {
  const once = () => checkOnce(options, io, version, help);
  return options.watch ? checkAndWatch(once, options.paths, io) : once();
}

async function checkOnce(
  options: CheckOptions,
  io: Io,
  version: string,
  { threads, printing }: CheckHelp,
): Promise<number> {
  const shown = progress(io, options.quiet);
  let { report, seen, close } = await collect(options, io, version, shown.step, threads);
  const fixed = options.fix ? await fixFiles(report, io, options.fix === "dry-run") : [];
  // What is left is told as the files stand now.
  if (fixed.some(({ refused }) => refused === undefined) && options.fix === "write") {
    close();
    ({ report, seen, close } = await collect(options, io, version, shown.step, threads));
  }
  shown.end();
  for (const { path, titles, refused } of fixed) {
    const done = options.fix === "dry-run" ? "that would be made" : "made";
    tellOf(
      io,
      path,
      refused ??
        `has ${titles.length === 1 ? "a fix" : `${titles.length} fixes`} ${done}: ${titles.join("; ")}`,
    );
  }
  for (const { path, message } of report.problems) tellOf(io, path, message);
  const isWritten = await tellReport(report, seen, options, io, printing);
  const code = exitCode(report);
  close();
  return !isWritten || fixed.some(({ refused }) => refused !== undefined) ? 2 : code;
}

/** False where it could not be written to the file that was named, which is told. */
async function tellReport(
  report: Report,
  seen: Seen | undefined,
  options: CheckOptions,
  io: Io,
  printing: Printing | undefined,
): Promise<boolean> {
  const pieces = write(report, options, io);
  if (options.output === undefined) {
    const folder = seen && isOfFilesAlone(options) ? folderOfCache(options.cache, io) : undefined;
    const kept = folder === undefined ? undefined : await printing?.(folder);
    for (const piece of pieces) {
      io.out.write(piece);
      kept?.add(piece);
    }
    if (seen) kept?.end(seen, exitCode(report));
    return true;
  }
  const written = await writeOutput(options.output, [...pieces].join(""), { force: options.force }, io);
  if (!written.ok) tellOf(io, options.output, written.reason);
  return written.ok;
}

/** What is printed hangs on no more than the files, and the command changes none. */
const isOfFilesAlone = ({ fix, since, watch, stdinPath }: CheckOptions): boolean =>
  fix === undefined && since === undefined && !watch && stdinPath === undefined;

function write(report: Report, options: CheckOptions, io: Io): Iterable<Printable> {
  switch (options.format) {
    case "json":
      return [jsonReport(report)];
    case "sarif":
      return [sarifReport(report, CHECKS)];
    case "human": {
      const toTerminal = options.output === undefined && io.out.isTerminal;
      const colour =
        options.colour === "always" || (options.colour === "auto" && toTerminal && !io.env.NO_COLOR);
      const width = toTerminal ? (io.out.columns ?? PLAIN_WIDTH) : PLAIN_WIDTH;
      return humanPieces(report, { colour, quiet: options.quiet, width });
    }
  }
}
