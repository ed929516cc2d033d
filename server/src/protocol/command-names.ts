/** Writes the section of suspects into a log. Its one argument is the log's uri. */
export const WRITE_SUSPECTS = "mendlog.writeSuspects";

/** Writes the parts list into a log. Its one argument is the log's uri. */
export const WRITE_PARTS_LIST = "mendlog.writePartsList";

/**
 * Gives the owner's report of a log back as text. Its arguments are the log's uri and "html" (what is meant without it),
 * "md" or "json".
 */
export const WRITE_REPORT = "mendlog.writeReport";

/** Gives the bill back, as `WRITE_REPORT` does the report. */
export const WRITE_BILL = "mendlog.writeBill";
/** Gives the sheet with empty cells back, as `WRITE_REPORT` does the report. */
export const WRITE_SHEET = "mendlog.writeSheet";

/** Says in a log that its board works and stands for others of the type. Its one argument is the log's uri. */
export const TAKE_REFERENCE = "mendlog.takeAsReference";

/**
 * Writes what the logs of a board read into its board file, and gives that file's uri back where anything was written. Its
 * one argument is the uri of one of the logs.
 */
export const PROPOSE_LIMITS = "mendlog.proposeLimits";

/**
 * Writes a board file from all logs of a board, or adds to the one that is there. Its one argument is the uri of one of the
 * logs. Our own client asks for the name of a board that has none, and shows the file before it is saved.
 */
export const WRITE_BOARD_FILE = "mendlog.writeBoardFile";

/** The client's own, not done here: shows places one beside the other. Its arguments are a uri, a position and locations. */
export const SHOW_PLACES = "mendlog.showPlaces";

/** The editor's own, where the client says that it has it: opens the list of suggestions at the cursor. */
export const SUGGEST_AGAIN = "editor.action.triggerSuggest";

/** All that may be asked for by name. */
export const COMMANDS: readonly string[] = [
  WRITE_SUSPECTS,
  WRITE_PARTS_LIST,
  WRITE_REPORT,
  WRITE_BILL,
  WRITE_SHEET,
  TAKE_REFERENCE,
  PROPOSE_LIMITS,
  WRITE_BOARD_FILE,
];
