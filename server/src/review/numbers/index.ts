// What a shop's jobs add up to. Counts and limits of what was written down: they say where to look first, and prove nothing
// of any one board.
import { memo } from "../../base/memo";
import { eachBoard } from "../../log/summary";
import { comebackRows } from "./comebacks";
import { cureRows } from "./cures";
import { failureRows } from "./failures";
import { hoursRows } from "./hours";
import { boardsIn } from "./order";
import { placeNumbers } from "./places";
import type { NumbersInput, ShopNumbers } from "./types";

export type { NumbersInput, ShopNumbers } from "./types";

/** All figures that a shop's jobs add up to: each board of a log about several is a job of its own. Made once for an input. */
export const shopNumbers = memo((input: NumbersInput): ShopNumbers => {
  const { logs } = input;
  const jobs = eachBoard(logs.values());
  const places = boardsIn(jobs).map((board) => placeNumbers(input, board));
  return {
    jobs: jobs.length,
    returned: jobs.filter(({ stage }) => stage === "returned").length,
    limits: places.flatMap(({ limits }) => limits),
    drift: places.flatMap(({ drift }) => drift),
    years: places.flatMap(({ years }) => years),
    meters: places.flatMap(({ meters }) => meters),
    cures: cureRows(jobs),
    failures: failureRows(jobs),
    comebacks: comebackRows(logs),
    hours: hoursRows(jobs),
  };
});
