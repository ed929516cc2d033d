// How often the diagnosis has the faulty part first, and what the advice on readings saves, on a simulated bench;
// what the simulator assumes stands at the head of tests/compute/diagnosis/simulator.ts. The seeds are not those the
// diagnosis was written by. Ends with status 1 where a figure falls short.
//
//   node tests/bench/diagnosis.js [boards]
import { load } from "./sources.js";

const BOARDS = Number(process.argv[2] ?? 240);
/** The harder model is held to nothing and takes as long again: `node tests/bench/diagnosis.js 240 hidden`. */
const MODELS = process.argv[3] === "hidden" ? [false, true] : [false];
const FROM = 5001;
const tests = new URL("../compute/diagnosis/", import.meta.url);
const { ranking, comparison, boardsWorth, largeDiagnosis } = await load(
  `export * from "./measure"; export * from "./measure-search"; export * from "./measure-sets"; export * from "./measure-large";`,
  tests,
  { "import.meta.url": JSON.stringify(new URL("regatta.ts", tests).href) },
);

const percent = (share) => `${(100 * share).toFixed(1)} %`;
let short = false;
const hold = (ok) => {
  short ||= !ok;
  return ok ? "" : "   <- falls short";
};

const sets = boardsWorth();
console.log(
  `hitting sets, 300 parts, 600 nets, 20 conflicts: median ${sets.median.toFixed(1)} ms, worst ${sets.worst.toFixed(1)} ms of ${sets.runs}${hold(sets.median < 10)}`,
);
// A measure of this machine, so that the figure means the same on another: reading the board's file takes long on both.
const large = largeDiagnosis();
console.log(
  `whole diagnosis with advice, 300 parts, 600 nets, 20 findings: median ${large.median.toFixed(1)} ms, worst ${large.worst.toFixed(1)} ms of ${large.runs}, ${large.ratio.toFixed(2)} of the reading of that board's file; longest step ${large.longestStep.toFixed(1)} ms${hold(large.median < 50)}`,
);
for (const hidden of MODELS) {
  console.log(
    `\n${BOARDS} boards, ${hidden ? "shared nets hiding open pins" : "every wrong pin showing on its own leg"}`,
  );
  const { first, topThree } = ranking(FROM, BOARDS, hidden);
  console.log(`  faulty part first: ${percent(first)}${hidden ? "" : hold(first >= 0.88)}`);
  console.log(`  in the first three: ${percent(topThree)}${hidden ? "" : hold(topThree >= 0.97)}`);
  for (const thrift of ["readings", "minutes"]) {
    const { advised, pinByPin, ratio, givenUp, needless } = comparison(FROM, BOARDS, hidden, thrift);
    const held = hidden || thrift === "minutes" ? "" : hold(ratio <= 0.5);
    console.log(
      `  ${thrift} to the part: ${advised.toFixed(1)} advised, ${pinByPin.toFixed(1)} pin by pin: ${percent(ratio)}${held}; given up ${givenUp}, replaced for nothing ${needless.toFixed(3)} a board`,
    );
  }
}
process.exitCode = short ? 1 : 0;
