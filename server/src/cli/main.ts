import { version } from "../../../package.json";
import { ownShown, terminal, visibleLines } from "../text/terminal";
import { runBoard } from "./board";
import { runCheck } from "./check";
import { runDiagnose } from "./diagnose";
import { HELP } from "./help";
import type { Io } from "./io";
import type { Printing } from "./kept/again";
import { runNew } from "./new";
import { parseCommand } from "./options";
import { runOrder, runParts } from "./parts";
import { runReport } from "./report";
import { runExport } from "./shop/export";
import { runPool } from "./shop/pool";
import { runStats } from "./shop/stats";
import { tell } from "./tell";
import type { Threads } from "./threads/messages";

/**
 * Runs one command and gives its exit status back; never throws.
 * @param argv without the program's own name
 * @param threads for what one core would be long at
 * @param printing for what is printed and may be printed again
 */
export async function main(
  argv: readonly string[],
  io: Io,
  threads?: Threads,
  printing?: Printing,
): Promise<number> {
  const parsed = parseCommand(argv);
  try {
    switch (parsed.kind) {
      case "help":
        io.out.write(ownShown(HELP[parsed.of]));
        return 0;
      case "version":
        io.out.write(ownShown(`${version}\n`));
        return 0;
      case "wrong":
        tell(io, `${parsed.message} See mendlog --help.`);
        return 2;
      case "serve":
        await io.serve();
        return 0;
      case "check":
        return await runCheck(parsed.options, io, version, { threads, printing });
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
      case "export":
        return await runExport(parsed.options, io);
      case "stats":
        return await runStats(parsed.options, io);
      case "pool":
        return await runPool(parsed.options, io);
      case "report":
      case "bill":
      case "sheet":
        return await runReport(parsed.kind, parsed.options, io);
    }
  } catch (error) {
    const fault = error instanceof Error ? (error.stack ?? error.message) : String(error);
    io.err.write(terminal`mendlog: a fault in Mendlog itself, please report it: ${visibleLines(fault)}\n`);
    return 2;
  }
}
