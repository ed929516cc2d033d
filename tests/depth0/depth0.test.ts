// How much is found in a log that nothing is known of but what it says itself: no board file, no shop file, no other log.
// The table: MENDLOG_DEPTH0=print npx vitest run tests/depth0 --reporter=verbose
import { PLANTED } from "./faults";
import { holdCorpus } from "./hold";

// What holds now. It was written before the program could read any of it (7 of 180 found then), and has been learned from
// since: for an honest figure write logs that nobody has looked at.

holdCorpus(
  "a log without a board file",
  { folder: new URL("./logs/", import.meta.url), planted: PLANTED },
  { logs: 18, faults: 100, foundAtLeast: 180, falseAtMost: 0, namedAtLeast: 65 },
);
