// That the board does something, or that its rails were read right, as running words and remarks say: then it has its supplies,
// whoever measured them. Words that are common practice, no source.

import { siValue } from "../../../judge/uncertainty";
import type { Board } from "../../../knowledge/types";
import type { LogDocument } from "../../../log/document";
import type { LogTable } from "../../../log/model";
import { sentencesOf } from "./sentences";

const THING =
  "board|it|game|machine|program|display|digits?|figures?|picture|LED\\d*|lamps?|tune|sound|speaker|motor|test|coils?(?: \\d+)?|everything|all";
const DOES =
  "plays?|playing|runs?|running|scores?|count(?:s|ing|ed)?|flash(?:es|ing|ed)?|blink(?:s|ing)?|lights?|shows?|glows?|steps?|talks?|howls?|sings?|kicks?|fires?|pulls?|works?|answers?|starts?|chatters?";
const RUNS = new RegExp(`\\b(?:${THING})\\b[^,;.]{0,30}\\b(?:${DOES})\\b`, "i");
/** "Plays, talks, keys ok." */
const BEGINS = new RegExp(`^\\s*(?:${DOES})\\b(?!\\s+(?:up|off|out|with|at|between|like)\\b)`, "i");
const RUNS_NOT =
  /\b(?:not|never|no longer|nothing|hardly|only|until|stops?|stopped|hangs?|if|when|should|would|won|dark|dead|wrong|without)\b|n't\b/i;
/** What it does with something put in from outside it does not do by itself. */
const FED =
  /\b(?:generator|injected|fed (?:in|with)|external clock|clock from outside|from (?:a|the|my) (?:bench|function)|substitut\w+)\b/i;
const isRunning = (text: string): boolean =>
  (RUNS.test(text) || BEGINS.test(text)) && !RUNS_NOT.test(text) && !FED.test(text);

/** Of its voltage, a rail that is named in words is read right within this. */
const NEAR = 0.1;

function isRailRight(text: string, { rails }: Board): boolean {
  return [...rails.values()].some(({ name, nominal }) => {
    const volts = siValue(nominal, "V");
    const at = text.indexOf(name);
    const [, read = ""] =
      /^[^\d;.-]{0,12}([-\u2212]?\d+(?:[.,]\d+)?)/.exec(at < 0 ? "" : text.slice(at + name.length)) ?? [];
    const figure = Number(read.replace(",", ".").replace("\u2212", "-"));
    return volts !== undefined && read !== "" && Math.abs(figure / volts - 1) <= NEAR;
  });
}

/** A sentence, or a remark beside a reading, that says so. */
export const isSaidToRun = (blocks: LogDocument["blocks"], board: Board | undefined): boolean =>
  blocks.some(
    ({ block }) =>
      sentencesOf(block).some(
        ({ text }) => isRunning(text) || (board !== undefined && isRailRight(text, board)),
      ) ||
      block.tables.some(
        ({ pieces, readings }) =>
          !pieces &&
          readings.some(({ subject }) => subject.note !== undefined && isRunning(subject.note.text)),
      ),
  );

/** The board was tried between the same two repairs, and did all that was asked of it. */
export const wasTriedRight = (
  blocks: LogDocument["blocks"],
  isSameTime: (table: LogTable) => boolean,
): boolean => {
  const results = blocks.flatMap(({ block }) =>
    block.tables.flatMap((table) =>
      table.kind.judgedBy === "trial" && isSameTime(table)
        ? table.readings.flatMap(({ value }) => (value.kind === "result" ? [value.ok] : []))
        : [],
    ),
  );
  return results.length > 0 && results.every((ok) => ok === true);
};
