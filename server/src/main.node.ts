// The language server as the extension starts it; the command line's `mendlog serve` runs the same.
import { runServer } from "./protocol/run-node";
import { isParseThread, runParseThread } from "./workspace/parse-thread";

if (isParseThread()) runParseThread();
else runServer({ transport: process.argv.includes("--node-ipc") ? "ipc" : "stdio", program: __filename });
