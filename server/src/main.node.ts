// The language server as the extension starts it; the command line's `mendlog serve` runs the same.
import { shelfFor } from "./cli/kept/shelf";
import { nodeSurroundings } from "./cli/node-surroundings";
import { runServer } from "./protocol/run-node";
import { isLogThread, runLogThread } from "./threads/log-threads";
import { isParseThread, runParseThread } from "./workspace/parse-thread";

if (isParseThread()) runParseThread();
else if (isLogThread()) runLogThread();
else
  runServer({
    transport: process.argv.includes("--node-ipc") ? "ipc" : "stdio",
    program: __filename,
    shelf: (of) => shelfFor(of, nodeSurroundings()),
  });
