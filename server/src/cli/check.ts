import { resolve } from "node:path";
import { CHECKS } from "../checks/registry";
import { humanReport } from "../report/human";
import { jsonReport } from "../report/json";
import type { Report } from "../report/model";
import { exitCode } from "../report/outcome";
import { sarifReport } from "../report/sarif";
import { collect } from "./collect";
import type { Io } from "./io";
import type { CheckOptions } from "./options";
import { progress } from "./progress";
import { spareSource } from "./source-file";

/** Cells in a line where the output is no terminal. */
const PLAIN_WIDTH = 120;

export async function runCheck(options: CheckOptions, io: Io, version: string): Promise<number> {
  const shown = progress(io, options.quiet);
  const report = await collect(options, io, version, shown.step);
  shown.end();
  for (const { path, message } of report.problems) io.err.write(`mendlog: ${path} ${message}.\n`);
  const text = write(report, options, io);
  if (options.output === undefined) {
    io.out.write(text);
  } else {
    const target = resolve(io.cwd, options.output);
    const may = await spareSource(target, io.disk);
    const written = may.ok ? await io.disk.write(target, text) : may;
    if (!written.ok) {
      io.err.write(`mendlog: ${options.output} ${written.reason}.\n`);
      return 2;
    }
  }
  return exitCode(report);
}

function write(report: Report, options: CheckOptions, io: Io): string {
  switch (options.format) {
    case "json":
      return jsonReport(report);
    case "sarif":
      return sarifReport(report, CHECKS);
    case "human": {
      const toTerminal = options.output === undefined && io.out.isTerminal;
      const colour =
        options.colour === "always" || (options.colour === "auto" && toTerminal && !io.env.NO_COLOR);
      const width = toTerminal ? (io.out.columns ?? PLAIN_WIDTH) : PLAIN_WIDTH;
      return humanReport(report, { colour, quiet: options.quiet, width });
    }
  }
}
