import { defined } from "../base/defined";
import type { Problem } from "../knowledge/loaded";
import type { TextEdit } from "../text/edits";
import type { Saying } from "../text/saying";
import type { OfferFixes } from "./check";

/** What a finding made of a file's problem carries for its fix; plain data. */
export interface ProblemData {
  readonly problem: string;
  readonly edits?: readonly TextEdit[];
}

export const problemData = ({ code, suggestion }: Problem): ProblemData =>
  defined({
    problem: code,
    edits: suggestion && suggestion.length > 0 ? suggestion : undefined,
  });

/** The words of a problem. */
export const saidOf = ({ message, step }: Pick<Problem, "message" | "step">): Saying =>
  defined({ fact: message, step });

interface Suggested {
  readonly problem: string;
  /** Of the first edit. */
  readonly newText: string;
  readonly edits: readonly TextEdit[];
}

const suggested =
  (isOf: (one: Suggested) => boolean, title: (one: Suggested) => string): OfferFixes =>
  ({ data }) => {
    const { problem, edits } = (data ?? {}) as Partial<ProblemData>;
    const newText = edits?.[0]?.newText;
    if (problem === undefined || !edits || newText === undefined) return [];
    const one = { problem, newText, edits };
    return isOf(one) ? [{ title: title(one), edits, preferred: true }] : [];
  };

const linesOf = (edits: readonly TextEdit[]): string =>
  edits.length > 1 ? `these ${edits.length} lines` : "this line";

/** Problems of how the lines stand, not of what they say. */
const OF_SPACES: ReadonlySet<string> = new Set(["yaml-indent", "yaml-tab", "yaml-colon", "yaml-comma"]);

/** What a problem of a file's text suggests itself; nothing where it suggests nothing. */
export const PROBLEM_FIXES = {
  indent: suggested(
    ({ problem, newText }) => problem === "yaml-indent" && newText !== "",
    ({ newText, edits }) => `Indent ${linesOf(edits)} by ${newText.length}`,
  ),
  takeIndentationAway: suggested(
    ({ problem, newText }) => problem === "yaml-indent" && newText === "",
    ({ edits }) => `Take the indentation of ${linesOf(edits)} away`,
  ),
  spacesForTab: suggested(
    ({ problem }) => problem === "yaml-tab",
    () => "Put spaces in the place of the tab",
  ),
  spaceBehindColon: suggested(
    ({ problem }) => problem === "yaml-colon",
    () => "Put a space behind the colon",
  ),
  change: suggested(
    ({ problem }) => !OF_SPACES.has(problem),
    ({ newText }) => `Change to ${newText}`,
  ),
} as const satisfies Readonly<Record<string, OfferFixes>>;

/** Of entries between braces, which only knowledge files have. */
export const COMMA_FIX: OfferFixes = suggested(
  ({ problem }) => problem === "yaml-comma",
  () => "Put the comma in",
);
