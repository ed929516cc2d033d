// What the logs of a board without a file say of it together: the same object while they say the same, and after any changes
// what is put together from nothing.
import fc from "fast-check";
import { expect, test } from "vitest";
import { finish } from "../../server/src/base/steps";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { Service } from "../../server/src/service";
import { LogIndex } from "../../server/src/workspace/log-index";
import { remembered } from "../../server/src/workspace/read-index";
import type { Remembered } from "../../server/src/workspace/remembered";
import { SharedBoards } from "../../server/src/workspace/shared-statements";

const library = builtinLibrary();
const uri = (n: number) => `mem:/${n}.md`;
const log = (n: number, chip: string, reading = "0.6", board = "unfiled") =>
  remembered(
    uri(n),
    `---
mendlog: 1
job: J${n}
board: ${board}
received: 2026-01-${10 + n}
stage: returned
---

## Diode check U${n % 3}${chip && ` (${chip})`}

| Ref | Pin | Reading |
|-----|-----|---------|
| U${n % 3} | 1 | ${reading} |
`,
    library,
  );

test("after any changes it is what nothing kept gives, and the same object where the logs say the same", () => {
  const change = fc.record({
    n: fc.nat(7),
    chip: fc.constantFrom("7404", "74LS138", "SN7404N", ""),
    reading: fc.constantFrom("0.5", "0.6"),
    is: fc.constantFrom("there", "there", "gone", "elsewhere"),
  });
  fc.assert(
    fc.property(
      fc.array(fc.array(change, { maxLength: 4 }), { minLength: 1, maxLength: 6 }),
      fc.option(fc.nat(7), { nil: undefined }),
      (rounds, n) => {
        const except = n === undefined ? undefined : uri(n);
        const index = new LogIndex();
        const shared = new SharedBoards();
        let last: { readonly words: string; readonly of: unknown } | undefined;
        for (const round of rounds) {
          for (const one of round) {
            if (one.is === "gone") index.forget(uri(one.n));
            else
              index.recall(
                log(one.n, one.chip, one.reading, one.is === "elsewhere" ? "other" : undefined),
                library,
              );
          }
          const memory = index.finish();
          const now = shared.of("unfiled", memory, library, except);
          expect(now).toEqual(new SharedBoards().of("unfiled", memory, library, except));
          const words = JSON.stringify(
            [...memory.logs.values()]
              .filter(
                ({ uri: of, board, stated }) => of !== except && board === "unfiled" && stated.length > 0,
              )
              .map(({ uri: of, job, stated }) => [of, job, stated]),
          );
          if (last?.words === words) expect(now).toBe(last.of);
          last = { words, of: now };
        }
      },
    ),
    { seed: 20_261_201, numRuns: 150 },
  );
});

test("a log that was saved is unpacked, and not all others of its board", async () => {
  let asked = 0;
  const counting = (one: Remembered): Remembered => {
    const { head, rest } = one.packed!;
    return {
      ...one,
      packed: {
        head,
        get rest() {
          asked++;
          return rest;
        },
      },
    };
  };
  const service = new Service({ read: async () => undefined, list: async () => [] });
  const logs = Array.from({ length: 40 }, (_, n) => counting(log(n % 19, "7404")));
  service.recall(logs.map((one, n) => ({ ...one, uri: uri(n) })));
  const before = finish(service.earlierJobsOfAll());
  expect(asked).toBeGreaterThanOrEqual(40);
  asked = 0;
  service.recall([counting(log(3, "7404", "0.5"))]);
  const after = finish(service.earlierJobsOfAll());
  expect(asked).toBeGreaterThan(0);
  expect(asked).toBeLessThan(8);
  expect(after).toHaveLength(before.length);
});

test("where all logs of a board are new, few of them are read at a time, and none only to see that they say more", () => {
  const index = new LogIndex();
  const shared = new SharedBoards();
  finish(shared.steps("unfiled", index.finish(), library));
  for (let n = 0; n < 200; n += 1) {
    const one = log(n % 15, "7404");
    index.recall({ ...one, uri: uri(n) }, library);
  }
  const memory = index.finish();
  let reads = 0;
  const logs = new Map(
    [...memory.logs].map(([of, summary]) => [
      of,
      new Proxy(summary, {
        get(target, name) {
          if (name === "stated") reads += 1;
          return Reflect.get(target, name);
        },
      }),
    ]),
  );
  let most = 0;
  let all = 0;
  for (const steps = shared.steps("unfiled", { ...memory, logs }, library); ; ) {
    reads = 0;
    const { done } = steps.next();
    most = Math.max(most, reads);
    all += reads;
    if (done) break;
  }
  // Each is asked whether it says anything, and then for it.
  expect(all).toBeGreaterThanOrEqual(200);
  expect(all).toBeLessThanOrEqual(2 * 200 + 2);
  expect(most).toBeLessThanOrEqual(2 * 16 + 2);
});
