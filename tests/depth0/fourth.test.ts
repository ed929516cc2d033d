// The same measure on a fourth set, written on 30 November 2026 in 22 other habits: sheets with a drop, a level and a state
// in one row, chips or rails across the top, a chip's two sides beside each other, headings that say nothing, a meter's own
// log. Whoever wrote it had not looked at what reads a log, nor at the other sets. The first figures measured: 44 of 120
// faults found, 40 findings that are not so, 22 of 47 parts named. Tables are told by what they hold since then, which was
// written with these logs in view: for an honest figure write a new set.
// The table: MENDLOG_DEPTH0=print npx vitest run tests/depth0/fourth.test.ts --reporter=verbose

import { PLANTED } from "./fourth/faults";
import { holdCorpus } from "./hold";

holdCorpus(
  "a fourth log without a board file",
  { folder: new URL("./fourth/logs/", import.meta.url), planted: PLANTED },
  { logs: 20, faults: 115, foundAtLeast: 115, falseAtMost: 1, namedAtLeast: 42 },
);
