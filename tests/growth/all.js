// The long form of `growth.test.ts`: every structure, doubled from 8 to 64 thousand characters. Prints what takes more than
// a second at the end or more than 2.6 times as long for twice the text, measured again where it does. Ends with status 1
// where it still does.
//
//   node tests/growth/all.js [group] [part of a name]
import { load } from "../bench/sources.js";

const [group = "", name = ""] = process.argv.slice(2);
const { costOf, GROUPS } = await load(`export * from "./cost";`, new URL("./", import.meta.url));
const SIZES = [8_000, 16_000, 32_000, 64_000];
const MOST = { ratio: 2.6, end: 1000, noise: 150 };

const measured = async (file, make) => {
  const costs = [];
  for (const size of SIZES) {
    const { uri, text } = file(make(size));
    costs.push(await costOf(uri, text));
    if (costs.at(-1) > 5000) break;
  }
  return costs;
};
const tooMuch = (costs) => {
  const [before, last] = costs.slice(-2);
  // Over both doublings: one alone is at the mercy of a collection of garbage.
  const ratio = Math.sqrt(last / (costs.at(-3) ?? before));
  return costs.length < SIZES.length || (last > MOST.noise && ratio > MOST.ratio) || last > MOST.end;
};

let tried = 0;
let grew = 0;
for (const [which, { structures, file }] of Object.entries(GROUPS)) {
  if (!which.includes(group)) continue;
  for (const [named, make] of Object.entries(structures)) {
    if (!named.includes(name)) continue;
    tried++;
    let costs = await measured(file, make);
    if (tooMuch(costs)) {
      const again = await measured(file, make);
      costs = again.map((cost, i) => Math.min(cost, costs[i] ?? cost));
    }
    if (!tooMuch(costs)) continue;
    grew++;
    console.log(`${which}: ${named}: ${costs.map((cost) => cost.toFixed(0)).join(", ")} ms`);
  }
}
console.log(`${tried} structures tried, ${grew} too slow or growing too fast`);
process.exitCode = grew === 0 ? 0 : 1;
