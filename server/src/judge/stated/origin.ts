// Where in its log, or in whose log, a part's number was said: looked up when it is shown, since every edit moves it.
import { memoEach } from "../../base/memo";
import type { LogDocument } from "../../log/document";
import { lineNumberAt } from "../../log/lines";
import { statementsOfLog } from "../../log/stated/of-block";
import type { LocatedStatement, PartStated } from "../../log/stated/statement";
import { type Span, shift } from "../../text/span";
import type { LogContext } from "../context";
import type { SaidBy } from "./types";

/** Where a part's number was said, for a hover to name and lead to. */
export interface Origin {
  /** "as this log says in line 12". */
  readonly words: string;
  readonly uri: string;
  /** Absent where it stands in a log that is not at hand. */
  readonly span?: Span;
}

/** Undefined for a part that the board file tells of. */
export function originOfPart(ref: string, doc: LogDocument, { stated }: LogContext): Origin | undefined {
  return originOfWord(stated?.parts.get(ref.toUpperCase()), doc, () => firstWord(ref, doc));
}

/** Whose word something is and where it stands; `find` looks for it in the log in hand. */
export function originOfWord(
  by: SaidBy | undefined,
  doc: LogDocument,
  find: () => Span | undefined,
): Origin | undefined {
  if (!by) return undefined;
  if (by.by === "job") return { words: `as the log of job ${by.job} says`, uri: by.uri };
  const span = find();
  return span && { words: `as this log says in line ${lineNumberAt(doc, span.start)}`, uri: doc.uri, span };
}

const firstWord = (ref: string, doc: LogDocument): Span | undefined => firstPlace(doc, ref.toUpperCase());

/**
 * Where the part was first named with its number, before what was fitted later: the place that counts. Looked for once
 * for a part, however many findings rest on it.
 */
const firstPlace = memoEach((doc: LogDocument, key: string): Span | undefined => {
  let fitted: Span | undefined;
  for (const { start, found } of statementsOfLog(doc)) {
    for (const one of found.all) {
      if (!isOf(one, key)) continue;
      const span = shift(one.span, start);
      if (one.by !== "fitted") return span;
      fitted ??= span;
    }
  }
  return fitted;
});

const isOf = (one: LocatedStatement, key: string): one is LocatedStatement<PartStated> =>
  one.kind === "part" && one.ref.toUpperCase() === key;
