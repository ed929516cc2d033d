// Pooled limits as the file that a shop file can name.
import { formatQuantity } from "../../quantity/format";
import type { PooledRow } from "./limits";

/** Digits of a limit: a meter has no more. */
const DIGITS = 6;

/**
 * @param shops their names
 * @param made ISO 8601 day
 */
export function pooledYaml(rows: readonly PooledRow[], shops: readonly string[], made: string): string {
  const source = `limits of ${rows.length} places, 95 %/95 % tolerance intervals, pooled on ${made}`;
  return [
    "mendlog-limits: 1",
    `source: ${JSON.stringify(source)}`,
    `made: ${made}`,
    `shops: [${shops.map((shop) => JSON.stringify(shop)).join(", ")}]`,
    rows.length === 0 ? "limits: []" : "limits:",
    ...rows.map((row) => `  - { ${entries(row).join(", ")} }`),
    "",
  ].join("\n");
}

function entries(row: PooledRow): string[] {
  const value = (of: number | null): string | undefined =>
    of === null ? undefined : formatQuantity(of, row.unit, { digits: DIGITS });
  const fields: readonly (readonly [string, string | number | undefined | null])[] = [
    ["board", row.board],
    ["revision", row.revision],
    ["procedure", row.procedure],
    ["measure", row.measure],
    ["load", row.load],
    ["place", row.place],
    ["low", value(row.low)],
    ["middle", value(row.middle)],
    ["high", value(row.high)],
    ["boards", row.boards],
    ["left-out", row.leftOut === 0 ? undefined : row.leftOut],
    ["shops", row.shops],
  ];
  return fields.flatMap(([name, of]) =>
    of === undefined || of === null ? [] : [`${name}: ${typeof of === "number" ? of : JSON.stringify(of)}`],
  );
}
