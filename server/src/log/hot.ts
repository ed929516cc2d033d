// What a row of first power says got hot.

import type { Span } from "../text/span";
import type { CellText } from "./cell-text";
import type { LogTable } from "./model";

export interface Hot {
  /** As typed. */
  readonly ref: string;
  /** Of the block. */
  readonly span: Span;
  readonly rail: CellText | undefined;
}

/** A hand stays on these. */
const MILD = /\b(?:nothing|none|no|not|cold|cool|normal|hand[- ]?warm|slight(?:ly)?|luke\s?warm|ok)\b/i;
const REF = /\b[A-Za-z]{1,3}\d{1,4}\b/g;

/** One for each designator in the row's words of heat; none where they say that it was mild. */
export const hotIn = ({ rows }: LogTable): readonly Hot[] =>
  rows.flatMap(({ cells: { item, rail } }) =>
    !item || MILD.test(item.text)
      ? []
      : [...item.text.matchAll(REF)].map(({ 0: ref, index }) => ({
          ref,
          span: { start: item.span.start + index, end: item.span.start + index + ref.length },
          rail,
        })),
  );
