// What is written between a heading and its table, or between two tables: how it was read, and what was off meanwhile.

import { type Disconnection, disconnectionsIn } from "../../log/disconnections";
import type { LogBlock, LogTable } from "../../log/model";

/** The prose right above a table, without the rows of a table before it; empty where there is none. */
export function saidAbove({ source, tables }: LogBlock, { span, section }: LogTable): string {
  const before = tables.flatMap((other) => (other.span.end <= span.start ? other.span.end : []));
  const from = Math.max(0, section.heading?.span.end ?? 0, ...before);
  return source.text.slice(from, span.start);
}

/** What the heading, a row's note or the prose above the table says was off. */
export const offWhile = (
  block: LogBlock,
  table: LogTable,
  apart: readonly Disconnection[] = [],
): readonly Disconnection[] => [...apart, ...disconnectionsIn(saidAbove(block, table))];
