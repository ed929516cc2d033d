// The program `mendlog`.
import { main } from "./cli/main";
import { nodeIo } from "./cli/node-io";

// Not process.exit(): what is still being written must get out.
main(process.argv.slice(2), nodeIo()).then((code) => {
  process.exitCode = code;
});
