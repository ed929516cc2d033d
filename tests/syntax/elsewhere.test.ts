// Blocks that another thread reads come over whole, and the log is the same as if it had been read here.
import fc from "fast-check";
import { expect, test } from "vitest";
import { NEVER_CANCELLED } from "../../server/src/base/cancellation";
import { finish, type Steps, type Waiting } from "../../server/src/base/steps";
import { inTurns } from "../../server/src/base/turns";
import { createBlockCache, parseBlocks, parseBlocksGradually } from "../../server/src/syntax/blocks";
import {
  type Elsewhere,
  packTree,
  readToSend,
  type SentReading,
  type ToRead,
  unpackTree,
} from "../../server/src/syntax/elsewhere";
import { parseBlock } from "../../server/src/syntax/parse-block";
import { nastyDocument } from "./fragments";

const LONG = `# Notes\n\n${"- U14 was *replaced* and [read] again.\n".repeat(300)}\n`;

/** Another thread, as far as can be told: what it is sent and sends is copied as between threads. */
function other(answer: (block: ToRead) => SentReading | undefined = readToSend) {
  const asked: string[] = [];
  let dropped = 0;
  const elsewhere: Elsewhere = {
    read(block) {
      asked.push(block.text);
      return {
        answer: Promise.resolve().then(() => structuredClone(answer(structuredClone(block)))),
        drop: () => {
          dropped++;
        },
      };
    },
  };
  return { elsewhere, asked, dropped: () => dropped };
}

test("a tree comes over as it was", () => {
  fc.assert(
    fc.property(nastyDocument, (text) => {
      const { block } = parseBlock(text, "last");
      expect(finish(unpackTree(structuredClone(packTree(block!.tree))))).toEqual(block!.tree);
    }),
    { numRuns: 300, seed: 7 },
  );
});

test.each([
  ["a long list", `${LONG}# B\n\nshort *text*\n`],
  ["names that are defined elsewhere", `${LONG}# B\n\n[read]: u.md\n`],
  ["a fence that is not closed, and headings in it", `${LONG}\`\`\`\n${LONG}${LONG}`],
  ["a comment over several headings", `${LONG}<!--\n${LONG}-->\n\n${LONG}`],
  ["front matter and CR LF", `---\nmendlog: 1\n---\n${LONG}${LONG}`.replaceAll("\n", "\r\n")],
])("%s is read as it is here", async (_, text) => {
  const { elsewhere, asked } = other();
  const cache = createBlockCache();
  const read = await inTurns(parseBlocksGradually(text, cache, elsewhere), NEVER_CANCELLED);
  const here = parseBlocks(text, createBlockCache());
  expect(read.blocks.map(({ source }) => source.tree)).toEqual(here.blocks.map(({ source }) => source.tree));
  expect(read.blocks.map(({ start }) => start)).toEqual(here.blocks.map(({ start }) => start));
  expect(asked.length).toBeGreaterThan(0);
  // Nothing is asked for twice, and what follows finds it read.
  expect(parseBlocks(text, cache).blocks.map(({ source }) => source)).toEqual(
    read.blocks.map(({ source }) => source),
  );
  const before = asked.length;
  await inTurns(parseBlocksGradually(text, cache, elsewhere), NEVER_CANCELLED);
  expect(asked).toHaveLength(before);
});

test("plain tables and short sections are not sent", async () => {
  const table = `# A\n\n| Ref | Pin |\n|---|---|\n${"| U14 | 1 |\n".repeat(2000)}\n# B\n\nsome *words*\n`;
  const { elsewhere, asked } = other();
  await inTurns(parseBlocksGradually(table, createBlockCache(), elsewhere), NEVER_CANCELLED);
  expect(asked).toEqual([]);
});

test("what cannot be read there is read here", async () => {
  const { elsewhere } = other(() => undefined);
  const read = await inTurns(parseBlocksGradually(LONG, createBlockCache(), elsewhere), NEVER_CANCELLED);
  expect(read.blocks[0]?.source.tooLarge).toBe(false);
});

test("where nobody waits any longer the other thread hears of it", async () => {
  const never: Elsewhere = {
    read: () => ({ answer: new Promise(() => {}), drop: () => told.push("dropped") }),
  };
  const told: string[] = [];
  const token = { isCancellationRequested: false };
  const waiting = inTurns(parseBlocksGradually(LONG, createBlockCache(), never), token);
  setTimeout(() => {
    token.isCancellationRequested = true;
  }, 5);
  await expect(waiting).rejects.toThrow("cancelled");
  expect(told).toEqual(["dropped"]);
});

test("all at once, nothing is waited for", () => {
  const steps: Steps<unknown, Waiting> = parseBlocksGradually(LONG, createBlockCache());
  for (let step = steps.next(); !step.done; step = steps.next()) expect(step.value).toBeUndefined();
});
