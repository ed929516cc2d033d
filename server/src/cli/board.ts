// The commands that make and complete board files, each in a file of its own.
import { runBoardDraft } from "./board/draft";
import { runBoardImport } from "./board/import";
import { runBoardLimits } from "./board/limits";
import type { BoardCommandOptions } from "./board/options";
import type { Io } from "./io";

export function runBoard(options: BoardCommandOptions, io: Io): Promise<number> {
  switch (options.command) {
    case "draft":
      return runBoardDraft(options, io);
    case "import":
      return runBoardImport(options, io);
    case "limits":
      return runBoardLimits(options, io);
  }
}
