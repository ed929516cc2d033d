// The same measure on a fourth set, written on 30 November 2026.
// The table: MENDLOG_DEPTH0=print npx vitest run tests/depth0/fourth.test.ts --reporter=verbose

import { PLANTED } from "./fourth/faults";
import { holdCorpus } from "./hold";

holdCorpus(
  "a fourth log without a board file",
  { folder: new URL("./fourth/logs/", import.meta.url), planted: PLANTED },
  { logs: 20, faults: 115, foundAtLeast: 114, falseAtMost: 0, namedAtLeast: 40 },
);
