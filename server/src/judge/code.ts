// A code that a test program showed, by what the board file says of it.

import type { Board, TestCode } from "../knowledge/types";
import type { Reading } from "../log/model";
import { nearest } from "../text/nearest";
import { hasBoardFile, type LogContext } from "./context";
import { unjudged } from "./judgement-from";
import type { TestPoint } from "./test-point";
import type { Judgement } from "./types";

const fold = (text: string): string => text.toUpperCase().replace(/[\s."'`_-]+/g, "");

/** The board file's code, else its symptom that shows it; undefined where it has neither. */
export function codeIn(board: Board | undefined, typed: string): TestCode | undefined {
  if (!board) return undefined;
  const wanted = fold(typed);
  const code = [...(board.codes?.values() ?? [])].find((one) => fold(one.code) === wanted);
  if (code) return code;
  const shown = [...board.symptoms.values()].find(
    ({ shows }) => shows !== undefined && fold(shows) === wanted,
  );
  return shown && { code: shown.shows ?? typed, title: shown.title, parts: [], circuits: shown.circuits };
}

/** What it points to, in words: "U7, U8" or the circuits' titles; empty where it points to nothing. */
export const accusedBy = ({ parts, circuits }: TestCode, { circuits: known }: Board): string =>
  [...parts, ...circuits.map((id) => known.get(id)?.title ?? id)].join(", ");

export function judgeCode(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  const { value, subject } = reading;
  const board = ctx.board?.value;
  const run = subject.item ? `${subject.item.text}: ` : "";
  const code = codeIn(board, value.typed);
  if (code && board) {
    const whom = accusedBy(code, board);
    if (code.pass)
      return {
        reading,
        verdict: "within-limits",
        says: { fact: `${run}${code.code}, ${code.title}.`, cause: NOT_PROVEN },
      };
    return {
      reading,
      verdict: "out-of-limits",
      code: "trial-failed",
      says: {
        fact: `${run}${code.code} is "${code.title}"${whom ? `; it points to ${whom}` : ""}.`,
        cause: "Those, or what feeds or selects them.",
        step: code.note ?? "Run it again, then measure there.",
        source: "the board file",
      },
    };
  }
  if (value.kind === "result") {
    if (value.ok === undefined)
      return unjudged(reading, place, `${run}"${value.typed}" decides nothing. Run it again, cold and warm.`);
    return value.ok
      ? { reading, verdict: "within-limits", says: { fact: `${run}${value.typed}.`, cause: NOT_PROVEN } }
      : {
          reading,
          verdict: "out-of-limits",
          code: "trial-failed",
          says: {
            fact: `${run}the test program stopped: ${value.typed}.`,
            cause: "It names no part, so this accuses none.",
            step: "Write the code it shows, if it shows one.",
          },
        };
  }
  if (value.kind !== "text") return undefined;
  const near = nearest(value.typed, [...(board?.codes?.keys() ?? [])]);
  return unjudged(
    reading,
    place,
    hasBoardFile(ctx)
      ? `The board file has no code "${value.typed}".${near ? ` Did you mean "${near}"?` : " Add it to codes with its parts."}`
      : `Nothing says what "${value.typed}" points to. A board file can, under codes.`,
  );
}

const NOT_PROVEN = "Not disproved. It reaches what it tests, slowly and cold.";
