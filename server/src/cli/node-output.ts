// The streams of this process.
import type { Output } from "./io";
import { reasonOf } from "./node-disk";

/** A stream that ends the process where not all that is written to it gets out. */
export function nodeOutput(stream: NodeJS.WriteStream): Output {
  // Whatever the reason, not all was written, and the exit status says so. With standard error gone nobody can be told.
  stream.on("error", (error: NodeJS.ErrnoException) => {
    const why = error.code === "EPIPE" ? "was not read to its end" : reasonOf(error);
    if (stream === process.stderr) process.exit(2);
    process.stderr.write(`mendlog: the output ${why}.\n`, () => process.exit(2));
  });
  return {
    write: (text) => void stream.write(text),
    isTerminal: stream.isTTY === true,
    columns: stream.columns,
  };
}

/** Writes each piece when the last is out, so that they may all lie in the same memory. */
export async function writePieces(pieces: Iterable<Uint8Array>, stream: NodeJS.WriteStream): Promise<void> {
  for (const piece of pieces) await new Promise<void>((out) => stream.write(piece, () => out()));
}
