/** Writes the section of suspects into a log. Its one argument is the log's uri. */
export const WRITE_SUSPECTS = "mendlog.writeSuspects";

/** All that may be asked for by name. */
export const COMMANDS: readonly string[] = [WRITE_SUSPECTS];
