// Until when a job is under warranty: what its log says, else the shop's own days from when it went back.

import type { Shop } from "../../knowledge/types";

/** What a log or its summary says of it; ISO 8601 days. */
export interface Returned {
  readonly returned?: string;
  readonly warrantyUntil?: string;
}

const DAY_MS = 86_400_000;

/** ISO 8601 day, the last of it; undefined where nothing says. */
export function warrantyUntil(
  { returned, warrantyUntil: said }: Returned,
  shop: Shop | undefined,
): string | undefined {
  if (said !== undefined) return said;
  const days = shop?.warrantyDays;
  const from = returned === undefined ? Number.NaN : Date.parse(`${returned}T00:00:00Z`);
  if (days === undefined || days === 0 || Number.isNaN(from)) return undefined;
  return new Date(from + days * DAY_MS).toISOString().slice(0, 10);
}
