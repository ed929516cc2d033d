// Findings that say how a whole table was read: while one stands, the next reading would be as wrong as those before it.

export interface TableCause {
  readonly message: string;
  readonly data?: unknown;
}

/**
 * The first finding that takes readings away as spoilt, by how they were taken, with the place of the first of them. What a
 * check's `data` holds is the check's own: one that has no such list is none of these.
 */
export function tableCause(
  findings: Iterable<TableCause>,
): { readonly message: string; readonly at: number } | undefined {
  for (const { message, data } of findings) {
    const [at] = spoiltPlaces(data);
    if (at !== undefined) return { message, at };
  }
  return undefined;
}

function spoiltPlaces(data: unknown): readonly number[] {
  const spoilt = isObject(data) ? data.spoilt : undefined;
  const places = isObject(spoilt) ? spoilt.places : undefined;
  return Array.isArray(places) ? places.filter((place): place is number => typeof place === "number") : [];
}

const isObject = (value: unknown): value is { readonly spoilt?: unknown; readonly places?: unknown } =>
  typeof value === "object" && value !== null;
