// What a command says on standard error: one line each, in which nothing of a file's name or text can move the cursor.
import { terminal, visible } from "../text/terminal";
import type { Io } from "./io";

/** @param message a whole sentence, or several */
export function tell(io: Io, message: string): void {
  io.err.write(terminal`mendlog: ${visible(message)}\n`);
}

/** @param reason the end of a sentence that begins with the path, without its full stop */
export const tellOf = (io: Io, path: string, reason: string): void => tell(io, `${path} ${reason}.`);
