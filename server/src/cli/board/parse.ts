// The options of the commands that write board files. Wrong ones are thrown; see `parseCommand`.

import { parseArgs } from "node:util";
import { defined } from "../../base/defined";
import { idOf } from "../../knowledge/board-file";
import { nearest } from "../../text/nearest";
import { oneOf, read, Wrong } from "../read-options";
import { type BoardCommandOptions, IMPORT_FORMATS } from "./options";

export type ParsedBoard =
  | { readonly kind: "help"; readonly of: "board" | "board draft" | "board import" | "board limits" }
  | { readonly kind: "board"; readonly options: BoardCommandOptions };

const BOARD_COMMANDS = ["draft", "import", "limits"] as const;

/**
 * The words behind "board", the command among them.
 * @throws Wrong where the command or an option is none
 */
export function parseBoard([command, ...args]: readonly string[]): ParsedBoard {
  if (command === "--help" || command === "-h") return { kind: "help", of: "board" };
  if (command === "draft") return parseBoardDraft(args);
  if (command === "import") return parseBoardImport(args);
  if (command === "limits") return parseBoardLimits(args);
  const near = command === undefined ? undefined : nearest(command, BOARD_COMMANDS);
  throw new Wrong(
    command === undefined
      ? `Say what to do with a board file: board ${BOARD_COMMANDS.join(", board ")}.`
      : `There is no command "board ${command}".${near ? ` Did you mean board ${near}?` : ` There are board ${BOARD_COMMANDS.join(", board ")}.`}`,
  );
}

function parseBoardDraft(args: readonly string[]): ParsedBoard {
  const options = {
    board: { type: "string" },
    output: { type: "string", short: "o" },
    help: { type: "boolean", short: "h" },
  } as const;
  const { values, positionals } = read(() =>
    parseArgs({ args: [...args], options, allowPositionals: true, strict: true }),
  );
  if (values.help) return { kind: "help", of: "board draft" };
  if (positionals.includes("") || values.output === "") throw new Wrong("A path is empty.");
  const board = values.board?.trim();
  if (board === "") throw new Wrong("--board takes the board's id or its name.");
  return {
    kind: "board",
    options: defined({
      command: "draft",
      paths: positionals.length > 0 ? positionals : ["."],
      board,
      output: values.output,
    }),
  };
}

function parseBoardImport(args: readonly string[]): ParsedBoard {
  const options = {
    board: { type: "string" },
    format: { type: "string", default: "human" },
    output: { type: "string", short: "o" },
    help: { type: "boolean", short: "h" },
  } as const;
  const { values, positionals } = read(() =>
    parseArgs({ args: [...args], options, allowPositionals: true, strict: true }),
  );
  if (values.help) return { kind: "help", of: "board import" };
  if (positionals.length === 0) throw new Wrong("Name the netlist, board layout or parts list to import.");
  if (positionals.includes("") || values.output === "") throw new Wrong("A path is empty.");
  const board = values.board?.trim();
  if (board !== undefined && idOf(board) !== board)
    throw new Wrong(`--board takes an id such as ${idOf(board)}, not "${board}".`);
  return {
    kind: "board",
    options: defined({
      command: "import",
      paths: positionals,
      format: oneOf("--format", values.format, IMPORT_FORMATS),
      board,
      output: values.output,
    }),
  };
}

function parseBoardLimits(args: readonly string[]): ParsedBoard {
  const options = {
    output: { type: "string", short: "o" },
    help: { type: "boolean", short: "h" },
  } as const;
  const { values, positionals } = read(() =>
    parseArgs({ args: [...args], options, allowPositionals: true, strict: true }),
  );
  if (values.help) return { kind: "help", of: "board limits" };
  const [path, ...more] = positionals;
  if (path === undefined) throw new Wrong("Name a log of the board to take limits for.");
  if (more.length > 0) throw new Wrong(`One log names the board, not ${positionals.length}.`);
  if (path === "" || values.output === "") throw new Wrong("A path is empty.");
  return {
    kind: "board",
    options: defined({ command: "limits", path, output: values.output }),
  };
}
