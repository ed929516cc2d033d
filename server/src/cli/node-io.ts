import { changesBelow } from "./changes";
import { changedSince } from "./git";
import { done, type Io, type Output } from "./io";
import { shelfFor } from "./kept/shelf";
import { reasonOf } from "./node-disk";
import { nodeSurroundings } from "./node-surroundings";

/** The world of this process. */
export function nodeIo(): Io {
  return {
    ...nodeSurroundings(),
    out: output(process.stdout),
    err: output(process.stderr),
    async stdin() {
      const chunks: Buffer[] = [];
      for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
      return done(Buffer.concat(chunks));
    },
    now: () => performance.now(),
    today() {
      const now = new Date();
      const two = (part: number) => String(part).padStart(2, "0");
      return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
    },
    changes: changesBelow,
    changedSince: (revision) => changedSince(revision, process.cwd()),
    // A file of its own beside the program, which a package may leave out.
    async parquet() {
      try {
        return (await import("./shop/parquet")).writeParquet;
      } catch (error) {
        if (/^(?:ERR_)?MODULE_NOT_FOUND$/.test((error as NodeJS.ErrnoException).code ?? "")) return undefined;
        throw error;
      }
    },
    // Loaded only when asked for: a check has no use for the server's library.
    async serve() {
      const { runServer } = await import("../protocol/run-node");
      runServer({
        transport: "stdio",
        program: __filename,
        shelf: (of) => shelfFor(of, nodeSurroundings()),
      });
    },
  };
}

function output(stream: NodeJS.WriteStream): Output {
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
