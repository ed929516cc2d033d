// A part's date code against the years the board was made in and the day the log saw it.
import { defined } from "../../base/defined";
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
  readonly sentence: string;
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
            sentence: code.reason,
            source: `${ISO}; makers' weeks: from memory`,
          }
        : { ok: true, verdict: "impossible", sentence: code.reason, source: ISO };
  }
  const typed = text.trim();
  const says = `${typed} is week ${code.week} of ${code.years.join(" or ")}`;
  const begins = mondayOf(code.years[0]!, code.week);
  // Days written year first compare as text.
  if (latest !== undefined && begins !== undefined && begins > latest) {
    return ruling(
      "impossible",
      `${says}, which begins on ${begins}, but the log saw the part on ${latest} (week code ${dateCodeOf(latest)}). Read the stamp again; it may be a part number.`,
      ISO,
    );
  }
  if (!era) return ruling("unjudged", `${says}. The board file gives no era to hold it against.`, ISO);
  const years = `${era.from} to ${era.to}`;
  const source = "the board file's era; common practice, no source";
  if (code.years.some((year) => year >= era.from - yearsInStock && year <= era.to)) {
    const older = code.years.every((year) => year < era.from);
    return ruling(
      "within-limits",
      older
        ? `${says}, shortly before the board was made (${years}): parts lie in stock.`
        : `${says}, within the years the board was made in (${years}).`,
      source,
    );
  }
  if (code.years[0]! > era.to) {
    return ruling(
      "suspect",
      `${says}, after the board was made (${years}): fitted later. Look at the joints and for other repairs.`,
      source,
    );
  }
  return ruling(
    "suspect",
    `${says}, ${era.from - code.years.at(-1)!} years before the board was made (${years}): an old part fitted later, a part number taken for a date, or a wrong era in the board file.`,
    source,
  );

  function ruling(verdict: Verdict, sentence: string, from: string): CodeRuling {
    return defined({ ok: true, verdict, code: code.ok ? code : undefined, sentence, source: from });
  }
}

const unusable = (reason: string): NoDateCode => ({ ok: false, problem: "unreadable", reason });
