// Findings that say how a whole table was read: while one stands, the next reading would be as wrong as those before it.

export interface GuidedCause {
  readonly message: string;
  /** One that is not certain is only for information, and leads nobody. */
  readonly severity?: string;
  readonly data?: unknown;
}

export interface TableDoubt {
  readonly message: string;
  /** Offsets of the readings that were not taken as they should be, in the order of the log; one at least. */
  readonly places: readonly [number, ...number[]];
  /** True where the readings are right and stand in the wrong places: an edit mends that, and nothing has to be read again. */
  readonly isMended: boolean;
}

/**
 * The first finding that takes readings away as spoilt, by how they were taken. What a check's `data` holds is the check's
 * own: one that has no such list is none of these.
 */
export function tableCause(findings: Iterable<GuidedCause>): TableDoubt | undefined {
  for (const { message, severity, data } of findings) {
    if (severity === "information" || severity === "hint" || !isObject(data)) continue;
    const [first, ...others] = numbersIn(isObject(data.spoilt) ? data.spoilt.places : undefined);
    if (first !== undefined)
      return {
        message,
        places: [first, ...others],
        isMended: Array.isArray(data.edits) && data.edits.length > 0,
      };
  }
  return undefined;
}

const numbersIn = (list: unknown): number[] =>
  Array.isArray(list)
    ? list.filter((place): place is number => typeof place === "number").sort((a, b) => a - b)
    : [];

interface Data {
  readonly spoilt?: unknown;
  readonly places?: unknown;
  readonly edits?: unknown;
}

const isObject = (value: unknown): value is Data => typeof value === "object" && value !== null;
