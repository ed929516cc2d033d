// Why nothing is known of a part, in the words of who could have said it.
import { hasBoardFile, type LogContext } from "./context";

/** A sentence that says what to write, and where. */
export function noDevice(ref: string, isListed: boolean, ctx: LogContext): string {
  const write = `write its number beside it, as in "${ref} (7404)"`;
  if (!hasBoardFile(ctx)) return `Nothing says what ${ref} is. To judge it, ${write}.`;
  return isListed
    ? `The board file names no device at ${ref}. Add it there, or ${write}.`
    : `The board file does not list ${ref}. Add it there, or ${write}.`;
}
