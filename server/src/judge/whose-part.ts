// Why nothing is known of a part, in the words of who could have said it.
import { hasBoardFile, type LogContext } from "./context";

/** A sentence that says what to write, and where. */
export function noDevice(ref: string, isListed: boolean, ctx: LogContext): string {
  const write = `write its number beside it, as in "${ref} (7404)"`;
  if (!hasBoardFile(ctx))
    return `Nothing says what ${ref} is, so there is nothing to hold it against: ${write}.`;
  return isListed
    ? `The board file names no device at ${ref}: add it there, or ${write}.`
    : `The board file does not list ${ref}, so there is nothing to hold it against: add it there, or ${write}.`;
}
