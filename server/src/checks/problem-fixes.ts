import type { Problem } from "../knowledge/loaded";
import type { TextEdit } from "../text/edits";
import type { Finding, Fix } from "./check";

/** What a finding made of a file's problem carries for its fix; plain data. */
export interface ProblemData {
  readonly problem: string;
  readonly edits?: readonly TextEdit[];
}

export const problemData = ({ code, suggestion }: Problem): ProblemData => ({
  problem: code,
  ...(suggestion && suggestion.length > 0 ? { edits: suggestion } : {}),
});

/** The fix that the problem suggests itself; none where it suggests nothing. */
export function suggestedFixes({ data }: Finding): Fix[] {
  const { problem, edits } = (data ?? {}) as Partial<ProblemData>;
  const first = edits?.[0];
  if (problem === undefined || !edits || !first) return [];
  return [{ title: titleOf(problem, first.newText, edits.length), edits, preferred: true }];
}

function titleOf(problem: string, newText: string, edits: number): string {
  if (problem === "yaml-indent") {
    const what = edits > 1 ? `these ${edits} lines` : "this line";
    return newText === "" ? `Take the indentation of ${what} away` : `Indent ${what} by ${newText.length}`;
  }
  if (problem === "yaml-tab") return "Put spaces in the place of the tab";
  if (problem === "yaml-colon") return "Put a space behind the colon";
  return `Change to ${newText}`;
}
