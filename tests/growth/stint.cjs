// Loaded into a server: the longest time that its one thread was at work without hearing anybody, in milliseconds of the
// processor, so that what else the machine does is not counted. Told and begun anew at a signal. Linux only.
const { readFileSync } = require("node:fs");

const ran = () =>
  Number(readFileSync(`/proc/self/task/${process.pid}/schedstat`, "utf8").split(" ")[0]) / 1e6;

let longest = 0;
let before = ran();
const look = () => {
  const now = ran();
  longest = Math.max(longest, now - before);
  before = now;
};
setInterval(look, 1);
process.on("SIGUSR2", () => {
  look();
  process.stderr.write(`stint ${longest.toFixed(1)} cpu ${before.toFixed(1)}\n`);
  longest = 0;
});
// The measure's own measure: kept from hearing anybody for 300 milliseconds of the processor.
process.on("SIGPWR", () => {
  const until = ran() + 300;
  while (ran() < until);
});
