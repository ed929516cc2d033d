// The language server as the extension starts it; the command line's `mendlog serve` runs the same.
import { shelvesFor } from "./cli/kept/shelves";
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
    shelves: (of) => shelvesFor(of, nodeSurroundings()),
  });
