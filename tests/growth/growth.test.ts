// Whatever is typed or pasted, what reading it costs grows as the text does. The short form for every run: a choice of all
// structures by a seed that is printed; `node tests/growth/all.js` takes every one at every size.
import { describe, expect, test } from "vitest";
import { cpuTime } from "../support/cpu-time";
import { costOf, GROUPS, SIZES } from "./cost";
import { chosen, SEED } from "./seed";

/** Structures of each group that are tried in one run; all of them would take minutes. */
const MOST = 4;
/** Where less than this is measured, in milliseconds of the processor, noise is more than what is looked for. */
const NOISE = 250;

/** For four times the text: twice 2.6 times as much. */
const MOST_GROWTH = 2.6 ** 2;

describe.each(Object.entries(GROUPS))(`%s, seed ${SEED}`, (_, { structures, file }) => {
  test.each(chosen(Object.entries(structures), MOST))("%s", async (_name, make) => {
    const [small, large] = SIZES;
    const cost = async (size: number) => {
      const { uri, text } = file(make(size));
      // The best of two: what comes between is never less.
      const once = await costOf(uri, text);
      return once < NOISE ? once : Math.min(once, await costOf(uri, text));
    };
    let more = await cost(large);
    if (more < NOISE) return;
    let less = await cost(small);
    const ratio = () => more / Math.max(NOISE / 4, less);
    // The first of a kind is worked out before the engine has made it fast, and one in a while gathers garbage: what seems too
    // much is measured again, both sizes, and the least of each counts, as in the long form.
    if (ratio() >= MOST_GROWTH) {
      more = Math.min(more, await cost(large));
      less = Math.min(less, await cost(small));
    }
    expect(ratio(), `${more.toFixed(0)} ms for ${large} characters`).toBeLessThan(MOST_GROWTH);
  });
});

test.each([
  ["one line of ten megabytes", "x".repeat(10_000_000)],
  ["300,000 brackets", "[".repeat(300_000)],
  ["a paragraph of 250 kB", "U14 was replaced and read again.\n".repeat(7500)],
  ["a quote of 250 kB", "> U14 was replaced and read again.\n".repeat(7000)],
  ["a list of 250 kB", "- U14 was replaced and read again.\n".repeat(7000)],
])("%s is answered", async (_, text) => {
  const { uri, text: whole } = GROUPS.markdown.file(text);
  expect(await costOf(uri, whole)).toBeLessThan(4000);
});

test("the measure sees a cost that grows as the square", () => {
  const square = (n: number) =>
    cpuTime(() => {
      let sum = 0;
      for (let i = 0; i < n; i++) for (let j = 0; j < n; j++) sum += (i ^ j) & 1;
      return sum;
    });
  square(1000);
  expect(square(16_000) / square(4_000)).toBeGreaterThan(MOST_GROWTH);
});
