// The program `mendlog`, and what each of its threads begins with.
import { isMainThread } from "node:worker_threads";
import { main } from "./cli/main";
import { nodeIo } from "./cli/node-io";
import { nodeThreads, runThread } from "./cli/threads/node-threads";
import { isParseThread, runParseThread } from "./workspace/parse-thread";
import { isSummingThread, runSummingThread } from "./workspace/summing-threads";

if (isMainThread) {
  // Not process.exit(): what is still being written must get out.
  main(process.argv.slice(2), nodeIo(), nodeThreads(__filename)).then((code) => {
    process.exitCode = code;
  });
} else if (isParseThread()) runParseThread();
else if (isSummingThread()) runSummingThread();
else runThread();
