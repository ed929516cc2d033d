// What is written between a heading and its table, or between two tables: how it was read, and what was off meanwhile.

import { type Disconnection, disconnectionsIn } from "./disconnections";
import type { LogBlock, LogTable } from "./model";

/** The prose right above a table, without the rows of a table before it; empty where there is none. */
export function saidAbove({ source, tables }: LogBlock, { span, section }: LogTable): string {
  const before = tables.flatMap((other) => (other.span.end <= span.start ? other.span.end : []));
  const from = Math.max(0, section.heading?.span.end ?? 0, ...before);
  return source.text.slice(from, span.start);
}

/** The last paragraph of it: what leads over to the table. */
export const leadingTo = (block: LogBlock, table: LogTable): string =>
  saidAbove(block, table)
    .trim()
    .split(/\n\s*\n/)
    .at(-1) ?? "";

/** What the heading, a row's note or the prose above the table says was off. */
export const offWhile = (
  block: LogBlock,
  table: LogTable,
  apart: readonly Disconnection[] = [],
): readonly Disconnection[] => [...apart, ...disconnectionsIn(saidAbove(block, table))];
