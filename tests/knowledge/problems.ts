import type { Loaded } from "../../server/src/knowledge/loaded";
import { expectCarets, readCarets } from "../support/carets";

/** Loads a fixture, holds its problems against the caret lines and gives the value that was kept. */
export function checkProblems<T>(load: (text: string) => Loaded<T>, fixture: string): T | undefined {
  const marked = readCarets(fixture);
  const loaded = load(marked.text);
  expectCarets(marked, loaded.problems);
  return loaded.value;
}

/** The text after the edits that the problem with this code offers. */
export function applySuggestion(load: (text: string) => Loaded<unknown>, text: string, code: string): string {
  const edits = load(text).problems.find((problem) => problem.code === code)?.suggestion ?? [];
  return [...edits]
    .sort((a, b) => b.span.start - a.span.start)
    .reduce((done, { span, newText }) => done.slice(0, span.start) + newText + done.slice(span.end), text);
}
