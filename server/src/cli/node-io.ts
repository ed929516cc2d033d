import { changesBelow } from "./changes";
import { changedSince } from "./git";
import { done, type Io } from "./io";
import { shelvesFor } from "./kept/shelves";
import { nodeOutput } from "./node-output";
import { nodeSurroundings, type nodeWorld } from "./node-surroundings";

/** The world of this process. */
export function nodeIo(world: ReturnType<typeof nodeWorld>): Io {
  return {
    ...world,
    err: nodeOutput(process.stderr),
    async stdin() {
      const chunks: Buffer[] = [];
      for await (const chunk of process.stdin) chunks.push(chunk as Buffer);
      return done(Buffer.concat(chunks));
    },
    now: () => performance.now(),
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
        shelves: (of) => shelvesFor(of, nodeSurroundings()),
      });
    },
  };
}
