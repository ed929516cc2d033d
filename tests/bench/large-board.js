// What a diagnosis with its advice costs on the largest board: 1,000 parts, 2,000 nets, 120 findings. All of it is time of
// the processor and not of the clock, so that it says the same beside other work; the ratio to the reading of that board's
// file says the same on a slow machine and a fast one. Ends with status 1 where it is too much.
//
//   node tests/bench/large-board.js [runs]
import { load } from "./sources.js";

const RUNS = Number(process.argv[2] ?? 10);
/** Milliseconds for the whole, for one step of it, and the whole against one reading of the board's file. */
const MOST = { median: 150, step: 10, ratio: 0.5 };

const tests = new URL("../compute/diagnosis/", import.meta.url);
const { largeDiagnosis, LARGEST } = await load(
  `export * from "./measure-large"; export { LARGEST } from "./large-board";`,
  tests,
  { "import.meta.url": JSON.stringify(new URL("regatta.ts", tests).href) },
);

const { median, worst, ratio, longestStep, runs } = largeDiagnosis(RUNS, LARGEST);
const { parts, nets, findings } = LARGEST;
console.log(
  `diagnosis with advice, ${parts} parts, ${nets} nets, ${findings} findings: median ${median.toFixed(1)} ms of CPU, worst ${worst.toFixed(1)} ms of ${runs}, ${ratio.toFixed(2)} of the reading of that board's file; longest step ${longestStep.toFixed(1)} ms`,
);
if (median > MOST.median || longestStep > MOST.step || ratio > MOST.ratio) {
  console.error(
    `Too slow: at most ${MOST.median} ms in the median, ${MOST.step} ms a step and ${MOST.ratio} of the reading.`,
  );
  process.exitCode = 1;
}
