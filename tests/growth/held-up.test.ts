// Whatever is opened and typed in, nobody who types in another log waits for it: the built server is never deaf for long.
// In milliseconds of the processor, so that what else the machine does is not counted.
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { cpuTime } from "../support/cpu-time";
import { GROUPS } from "./cost";
import { type HeldUp, startHeldUp } from "./held-up.js";

/** Twice what the idle machine may take: caches are colder where others work too. */
const DEAF = 100;
/** What it costs to read a message of 10 MB, at least. */
const TAKEN_IN = 60;
/** Of the processor in all, both threads together, for opening it and typing a sign in it. */
const WHOLE = 4000;

const { markdown } = GROUPS;
const times = (piece: string, chars: number): string => piece.repeat(Math.ceil(chars / piece.length));

let held: HeldUp;
beforeAll(async () => {
  held = await startHeldUp();
  // The first of anything is slow: its code is not made yet.
  await held.give("warm.md", markdown.file(times("- a *b* [c](d)\n", 30_000)).text);
  await held.give("warm.md", markdown.file(times("| a | *b* |\n|---|---|\n| 1 | 2 |\n\n", 30_000)).text);
});
afterAll(() => held.end());

describe.skipIf(process.platform !== "linux")("the server hears others", () => {
  test.each([
    ["6 KB of list marks", times("- ", 6400)],
    ["12 KB of pictures", times("![", 12_000)],
    ["16 KB of emphasis", times("**a_", 16_000)],
    ["300,000 brackets", times("[", 300_000)],
    ["stars apart, line by line", times("* a\n", 32_000)],
    ["links in paragraphs", times("[a](b)\n\n", 32_000)],
    ["links in cells", `| a |\n|---|\n${times("| [a](b) |\n", 32_000)}`],
    ["a list of 64 KB", times("- U14 was *read* again.\n", 64_000)],
    ["quotes of 64 KB", times("> U14 was *read* again.\n\n", 64_000)],
    ["tasks of 64 KB", times("- [ ] U14 `socket`\n", 64_000)],
    ["32 KB of blanks along a line", `a${times(" ", 32_000)}b\n`],
    ["32 KB of blanks in a cell", `| a |\n|---|\n| ${times(" ", 32_000)} |\n`],
    ["32 KB of tabs in a heading", `# a${times("\t", 32_000)}b\n`],
    ["a comment full of white space", `<!-- mendlog-allow ${times(" ", 32_000)} -->\n`],
    ["paragraphs of 64 KB", times("U14 was *read* again.\n\n", 64_000)],
  ])("%s", async (_, text) => {
    const { stint, cpu } = await held.give("log.md", markdown.file(text).text);
    expect(stint).toBeLessThan(DEAF);
    expect(cpu).toBeLessThan(WHOLE);
  });

  test("a line of 10 MB: the message alone takes a while to be taken in", async () => {
    const { text } = markdown.file(times("x", 10_000_000));
    // To read such a message at all, here and now: a machine that is slow or busy is so for both.
    const message = Buffer.from(JSON.stringify({ params: { text } }));
    const takenIn = cpuTime(() => JSON.parse(message.toString("utf8")));
    const { stint, cpu } = await held.give("log.md", text);
    expect(stint).toBeLessThan(5 * Math.max(TAKEN_IN, takenIn));
    expect(cpu).toBeLessThan(WHOLE);
  });

  test("and the measure sees a server that does not", async () => {
    const { stint } = await held.give("sure.md", markdown.file("a\n").text, true);
    expect(stint).toBeGreaterThan(DEAF);
  });
});
