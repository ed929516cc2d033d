// What earlier boards read: gathered from what was known of the jobs before, it is what is gathered from nothing.
import fc from "fast-check";
import { expect, test } from "vitest";
import { boardHistory } from "../../../server/src/judge/baseline/history";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import { LogReader } from "../../../server/src/log/document";
import { summarise } from "../../../server/src/log/summary";
import { BOARD } from "../../support/judged";

const library = builtinLibrary();
const board = loadBoard(BOARD, { deviceOf: (part) => library.device(part)?.device }).value!;

const job = (n: number, drop: string) => {
  const uri = `mem:/${n}.md`;
  const text = `---
mendlog: 1
job: J${n}
board: trial
stage: returned
---

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| ${n % 2 ? "U6" : "u6"} | 3 | ${drop} |
| U6 | 6 | 0.6 |
`;
  return summarise(new LogReader(uri).read(text, library));
};

const shown = ({ at }: ReturnType<typeof boardHistory>) => [...at].map(([key, readings]) => [key, readings]);

test("with what the last history knew of its jobs, it is the one that is gathered from nothing", () => {
  fc.assert(
    fc.property(
      fc.array(fc.array(fc.tuple(fc.nat(6), fc.constantFrom("0.5", "0.61", "OL")), { maxLength: 6 }), {
        minLength: 1,
        maxLength: 5,
      }),
      (rounds) => {
        const known = new Map<string, ReturnType<typeof job>>();
        let last: ReturnType<typeof boardHistory> | undefined;
        for (const round of rounds) {
          const jobs = round.map(([n, drop]) => {
            const words = `${n} ${drop}`;
            const one = known.get(words) ?? job(n, drop);
            known.set(words, one);
            return one;
          });
          const history = boardHistory(jobs, board, library, last);
          expect(history.isAtHand()).toBe(false);
          expect(shown(history)).toEqual(shown(boardHistory(jobs, board, library)));
          expect(history.isAtHand()).toBe(true);
          for (const one of jobs) expect(history.readBy(one)!.readings.length).toBeGreaterThan(0);
          last = history;
        }
      },
    ),
    { seed: 20_261_201, numRuns: 40 },
  );
});

test("jobs share the words of their places, and a place is named as the job named it", () => {
  const { at } = boardHistory([job(1, "0.5"), job(3, "0.6")], board, library);
  const [one, other] = [...at.values()].find((readings) => readings.length === 2)!;
  expect(one!.place).toBe(other!.place);
  expect(one!.uri).not.toBe(other!.uri);
});
