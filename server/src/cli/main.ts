import { version } from "../../../package.json";
import { runBoard } from "./board";
import { runCheck } from "./check";
import { runDiagnose } from "./diagnose";
import { HELP } from "./help";
import type { Io } from "./io";
import { runNew } from "./new";
import { parseCommand } from "./options";
import { runOrder, runParts } from "./parts";
import { runReport } from "./report";

/** Runs one command, `argv` without the program's own name. Gives the exit status back; never throws. */
export async function main(argv: readonly string[], io: Io): Promise<number> {
  const parsed = parseCommand(argv);
  try {
    switch (parsed.kind) {
      case "help":
        io.out.write(HELP[parsed.of]);
        return 0;
      case "version":
        io.out.write(`${version}\n`);
        return 0;
      case "wrong":
        io.err.write(`mendlog: ${parsed.message} See mendlog --help.\n`);
        return 2;
      case "serve":
        await io.serve();
        return 0;
      case "check":
        return await runCheck(parsed.options, io, version);
      case "diagnose":
        return await runDiagnose(parsed.options, io);
      case "new":
        return await runNew(parsed.options, io);
      case "board":
        return await runBoard(parsed.options, io);
      case "parts":
        return await runParts(parsed.options, io);
      case "order":
        return await runOrder(parsed.options, io);
      case "report":
        return await runReport(parsed.options, io);
    }
  } catch (error) {
    const fault = error instanceof Error ? (error.stack ?? error.message) : String(error);
    io.err.write(`mendlog: a fault in Mendlog itself, please report it: ${fault}\n`);
    return 2;
  }
}
