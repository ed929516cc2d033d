// A part's date code against the years the board was made in and the day the log saw it.

import { defined } from "../../base/defined";
import type { Saying } from "../../text/saying";
import type { Verdict } from "../verdict";
import { type CodeContext, type DateCode, dateCodeOf, type NoDateCode, readDateCode } from "./date-code";
import { mondayOf, weekOf } from "./iso-week";

/** Years a part may have lain in stock before a board was made with it. Common practice, no source. */
export const YEARS_IN_STOCK = 2;

export interface CodeRuling {
  readonly ok: true;
  readonly verdict: Verdict;
  /** Absent where the week does not exist. */
  readonly code?: DateCode;
  readonly says: Saying;
  readonly source: string;
}

const ISO = "ISO 8601 week calendar";

/**
 * Impossible: no such week, or a week that begins after the log saw the part. Suspect: newer than the board's era, so
 * fitted later, older than the era by more than stock explains, or a week 53 in a year that has none by ISO 8601. Unjudged without an era. A date says nothing of
 * whether the part works. Refuses what is not a date code, and a context that cannot be.
 */
export function judgeDateCode(
  text: string,
  context: CodeContext = {},
  yearsInStock = YEARS_IN_STOCK,
): CodeRuling | NoDateCode {
  const { era, latest } = context;
  if (latest !== undefined && !weekOf(latest)) return unusable(`"${latest}" is not a day, as 2026-03-02.`);
  if (era && !(era.from <= era.to)) {
    return unusable(`The board's era runs from ${era.from} to ${era.to}, which is no span of years.`);
  }
  const code = readDateCode(text, context);
  if (!code.ok) {
    return code.problem === "unreadable"
      ? code
      : code.problem === "doubtful"
        ? {
            ok: true,
            verdict: "suspect",
            says: saidOf(code),
            source: `${ISO}; makers' weeks: from memory`,
          }
        : { ok: true, verdict: "impossible", says: saidOf(code), source: ISO };
  }
  const typed = text.trim();
  const read = `${typed} is week ${code.week} of ${code.years.join(" or ")}`;
  const begins = mondayOf(code.years[0]!, code.week);
  // Days written year first compare as text.
  if (latest !== undefined && begins !== undefined && begins > latest) {
    return ruling(
      "impossible",
      {
        fact: `${read}, from ${begins} on, but the log saw the part on ${latest}.`,
        cause: "It may be a part number.",
        step: "Read the stamp again.",
        more: `The log's day is in week ${dateCodeOf(latest)}.`,
      },
      ISO,
    );
  }
  if (!era)
    return ruling("unjudged", { fact: `${read}. The board file gives no era to compare it with.` }, ISO);
  const years = `${era.from} to ${era.to}`;
  const source = "the board file's era; common practice, no source";
  if (code.years.some((year) => year >= era.from - yearsInStock && year <= era.to)) {
    const older = code.years.every((year) => year < era.from);
    return ruling(
      "within-limits",
      older
        ? { fact: `${read}, shortly before the board was made (${years}): parts wait in stock.` }
        : { fact: `${read}; the board was made ${years}.` },
      source,
    );
  }
  if (code.years[0]! > era.to) {
    return ruling(
      "suspect",
      {
        fact: `${read}; the board was made ${years}.`,
        cause: "The part was fitted later.",
        step: "Look at its joints and for other repairs.",
      },
      source,
    );
  }
  return ruling(
    "suspect",
    {
      fact: `${read}, ${era.from - code.years.at(-1)!} years before the board was made (${years}).`,
      cause: "An old part fitted later, a part number misread as a date, or a wrong era in the board file.",
      step: "Read the stamp again.",
    },
    source,
  );

  function ruling(verdict: Verdict, says: Saying, from: string): CodeRuling {
    return defined({ ok: true, verdict, code: code.ok ? code : undefined, says, source: from });
  }
}

const unusable = (reason: string): NoDateCode => ({ ok: false, problem: "unreadable", reason });

const saidOf = ({ reason, advice }: NoDateCode): Saying => ({ ...advice, fact: reason });
