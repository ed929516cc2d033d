// The language server as the extension starts it; the command line's `mendlog serve` runs the same.
import { shelfFor } from "./cli/kept/shelf";
import { nodeSurroundings } from "./cli/node-surroundings";
import { runServer } from "./protocol/run-node";
import { isParseThread, runParseThread } from "./workspace/parse-thread";
import { isSummingThread, runSummingThread } from "./workspace/summing-threads";

if (isParseThread()) runParseThread();
else if (isSummingThread()) runSummingThread();
else
  runServer({
    transport: process.argv.includes("--node-ipc") ? "ipc" : "stdio",
    program: __filename,
    shelf: (of) => shelfFor(of, nodeSurroundings()),
  });
