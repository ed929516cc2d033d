// What the readings of a table say together before any pin is blamed: a lead, a count, a column, or a chip as a whole.

import { memo } from "../../base/memo";
import { once } from "../../base/once";
import type { LogBlock, Reading } from "../../log/model";
import { contextAt, type LogContext } from "../context";
import { verdictsOf } from "../index";
import { chipCauses } from "./of-chips";
import { manyOpenCause } from "./of-many";
import { ohmsCounted } from "./of-ohms";
import { poweredCauses } from "./of-powered";
import { ohmsCauses, railCause } from "./of-rails";
import { valuesCauses } from "./of-values";
import { voltsCause } from "./of-volts";
import type { PartOfCause, TableCause } from "./types";

export type { Explained, PartOfCause, TableCause } from "./types";

/** Every cause that explains many readings of a table of the block; worked out once for a block and a context. */
export const causesIn = (block: LogBlock, whole: LogContext): readonly TableCause[] =>
  causesOf(block, contextAt(block, whole));

const causesOf = memo((block: LogBlock, ctx: LogContext): readonly TableCause[] => {
  if (block.tables.length === 0) return NONE;
  const found = block.tables.flatMap((table): TableCause[] => {
    const verdicts = once(() => verdictsOf(table, block, ctx));
    const rails = railCause(table, ctx);
    const many = manyOpenCause(table, verdicts, ctx);
    if (many) return [many];
    const volts = voltsCause(table, ctx);
    if (volts) return [volts];
    return [
      ...(rails ? [rails] : []),
      ...ohmsCauses(table, ctx),
      ...ohmsCounted(table, ctx),
      ...valuesCauses(table, ctx),
      ...chipCauses(table, verdicts, ctx),
      ...poweredCauses(table, ctx),
    ];
  });
  return found.length === 0 ? NONE : found;
});

const NONE: readonly TableCause[] = [];

/** Readings that were measured or written wrong, whatever their verdicts: they say nothing of the board. */
export const mistakenIn = (block: LogBlock, whole: LogContext): ReadonlySet<Reading> =>
  mistakenReadings(block, contextAt(block, whole));

const mistakenReadings = memo((block: LogBlock, ctx: LogContext): ReadonlySet<Reading> => {
  const parts = partsMistaken(block, ctx);
  return new Set(parts.flatMap(({ readings }) => readings));
});

/** The same by where their cells begin in the block. */
export const mistakenPlaces = (block: LogBlock, whole: LogContext): ReadonlySet<number> =>
  placesMistaken(block, contextAt(block, whole));

const placesMistaken = memo((block: LogBlock, ctx: LogContext): ReadonlySet<number> => {
  const parts = partsMistaken(block, ctx);
  return new Set(parts.flatMap(({ places }) => places.map(({ at }) => at)));
});

const partsMistaken = (block: LogBlock, ctx: LogContext): readonly PartOfCause[] =>
  causesOf(block, ctx).flatMap(({ cause, parts }) => (cause.kind === "dead" ? [] : parts));
