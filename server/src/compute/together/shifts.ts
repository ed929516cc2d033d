// Columns that slid by one row against their pins.

import type { Cause, RowRead } from "./types";

type Shift = Extract<Cause, { kind: "shifted" }>;

/**
 * What may have slid: a stretch of readings towards a blank cell at its end, the longest first; or, where no cell is
 * blank, the whole column round, or all from a row on where a pin was read twice: the last pin was then not read at all.
 * @param gaps also where the next row is not the next pin: pins that were passed over, whose names stood there before the readings
 */
export function shiftsOf(rows: readonly RowRead[], gaps = false): Shift[] {
  const found: Shift[] = [];
  const last = rows.length - 1;
  const isRun = (from: number, to: number): boolean => gaps || follow(rows, from, to);
  if (rows.every(({ blank }) => !blank)) {
    if (!follow(rows, 0, last)) return found;
    for (const by of [1, -1] as const) found.push({ kind: "shifted", first: 0, last, by, wraps: true });
    for (let first = 1; first < last; first += 1)
      found.push({ kind: "shifted", first, last, by: -1, wraps: false });
    return found;
  }
  rows.forEach(({ blank }, at) => {
    if (!blank) return;
    const above = stretch(rows, at, -1);
    for (let first = above; first < at; first += 1)
      if (isRun(first, at)) found.push({ kind: "shifted", first, last: at - 1, by: 1, wraps: false });
    const below = stretch(rows, at, 1);
    for (let end = below; end > at; end -= 1)
      if (isRun(at, end)) found.push({ kind: "shifted", first: at + 1, last: end, by: -1, wraps: false });
  });
  return found;
}

/** Whether each row is the next pin. */
function follow(rows: readonly RowRead[], from: number, to: number): boolean {
  for (let at = from + 1; at <= to; at += 1) if (rows[at]?.pin !== (rows[at - 1]?.pin ?? 0) + 1) return false;
  return true;
}

export const hasGaps = (rows: readonly RowRead[], { first, last, by, wraps }: Shift): boolean =>
  !wraps && !(by === 1 ? follow(rows, first, last + 1) : follow(rows, first - 1, last));

/** The last row in a direction before another blank one or the end. */
function stretch(rows: readonly RowRead[], from: number, step: 1 | -1): number {
  let at = from;
  while (rows[at + step] && !rows[at + step]?.blank) at += step;
  return at;
}

/** The row, from 0, that what stands in `row` belongs to. */
export function rowMeant(row: number, rows: number, { first, last, by, wraps }: Shift): number {
  if (row < first || row > last) return row;
  return wraps ? (row + by + rows) % rows : row + by;
}
