import { done, type Io, type Output } from "./io";
import { nodeDisk } from "./node-disk";

export function nodeIo(): Io {
  return {
    cwd: process.cwd(),
    env: process.env,
    out: output(process.stdout),
    err: output(process.stderr),
    disk: nodeDisk(),
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
    // Loaded only when asked for: a check has no use for the server's library.
    async serve() {
      const { runServer } = await import("../protocol/run-node");
      runServer({ transport: "stdio" });
    },
  };
}

function output(stream: NodeJS.WriteStream): Output {
  // A reader that went away, such as `head`, wants no more: no fault to report, but not all was written either.
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit(2);
  });
  return {
    write: (text) => void stream.write(text),
    isTerminal: stream.isTTY === true,
    columns: stream.columns,
  };
}
