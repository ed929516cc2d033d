// Readings held against others of the same node, and against what their rows say of the place.

import type { Reading } from "../../../log/model";

/** Two readings of one node agree within, and are apart from: in the unit, and as a share. Common practice, no source. */
const NEAR: Readonly<Record<string, readonly [number, number, number, number]>> = {
  drop: [0.013, 0, 0.025, 0],
  voltage: [0.1, 0.03, 0.5, 0.1],
  frequency: [0, 0.02, 0, 0.1],
  resistance: [1, 0.04, 5, 0.15],
};

export type HeldValue = number | string;

export interface HeldRow {
  readonly reading: Reading;
  readonly ref: string;
  readonly pin: string;
  /** What it can be compared with. */
  readonly kind: string;
  /** Absent where nothing was read. */
  readonly value: HeldValue | undefined;
  /** By what the row says of its place. */
  readonly wanted: readonly [low: number, high: number] | undefined;
  /** What it shares with others that read the same: the net and how it was read; absent where it is on none. */
  readonly node: string | undefined;
}

export type ByNode = ReadonlyMap<string, readonly HeldRow[]>;

/** What reads the same at two places: undefined where it lies between yes and no. */
function agree(kind: string, a: HeldValue, b: HeldValue): boolean | undefined {
  if (a === b) return true;
  if (typeof a === "string" || typeof b === "string" || !Number.isFinite(a) || !Number.isFinite(b))
    return false;
  const [near, nearShare, apart, apartShare] = NEAR[kind.split(" ")[0] ?? ""] ?? [0, 0, 0, 0];
  const by = Math.abs(a - b);
  const most = Math.max(Math.abs(a), Math.abs(b));
  return by <= near + nearShare * most ? true : by >= apart + apartShare * most ? false : undefined;
}

/** Whether a value may be what a place reads, by the others on its net and by what is said of it. */
export function fits(
  { kind, value }: HeldRow,
  others: readonly (HeldValue | undefined)[],
  wanted: HeldRow["wanted"],
): boolean | undefined {
  if (value === undefined) return undefined;
  let isOff = false;
  for (const other of others) {
    const same = other === undefined ? undefined : agree(kind, value, other);
    if (same) return true;
    isOff ||= same === false;
  }
  if (wanted) {
    const [low, high] = wanted;
    const isIn = typeof value === "number" && value >= low && value <= high;
    const near = isIn || agree(kind, value, typeof value === "number" && value < low ? low : high);
    if (near) return true;
    isOff ||= near === false;
  }
  return isOff ? false : undefined;
}

export const nodeNamed = (kind: string, net: string | undefined): string | undefined =>
  net === undefined ? undefined : `${kind} ${net}`;

export function rowsByNode(tables: readonly (readonly HeldRow[])[]): ByNode {
  const nodes = new Map<string, HeldRow[]>();
  for (const rows of tables)
    for (const row of rows) {
      if (row.node === undefined) continue;
      const node = nodes.get(row.node);
      if (node) node.push(row);
      else nodes.set(row.node, [row]);
    }
  return nodes;
}

/** The rows that disagree with another one on their node or with what they say themselves: no other is wrong where it stands. */
export function offIn(byNode: ByNode, tables: readonly (readonly HeldRow[])[]): ReadonlySet<HeldRow> {
  const off = new Set<HeldRow>();
  for (const [, rows] of byNode) {
    const values = [...new Set(rows.flatMap(({ value }) => value ?? []))];
    if (values.length < 2) continue;
    for (const row of rows)
      if (values.some((value) => row.value !== undefined && agree(row.kind, row.value, value) === false))
        off.add(row);
  }
  for (const rows of tables)
    for (const row of rows) if (row.wanted && fits(row, [], row.wanted) === false) off.add(row);
  return off;
}
