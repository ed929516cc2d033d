// How low a rail may read to ground before it is taken for shorted: what its own voltage would drive through that
// resistance, against what such a rail carries. All figures: common practice, no source.

/** Ohms. Whatever a rail feeds, less than this is copper or a shorted part. */
export const LOWEST_SHORT = 2;

export interface RailToGround {
  /** Nominal voltage with its sign; absent where nobody knows it. */
  readonly volts?: number;
  /** Amperes that it usually carries, where somebody says so. */
  readonly load?: number;
  /** Before a regulator, or for coils and lamps: it carries more than a regulated rail of its voltage. */
  readonly unregulated?: boolean;
}

export interface ShortLimits {
  /** Ohms; below is a short, below `doubt` a question. `short` <= `doubt`. */
  readonly short: number;
  readonly doubt: number;
  /** Whose limits they are. */
  readonly source: string;
}

/** Amperes by the size of the voltage: more than the first no such rail carries, more than the second few do. */
const CARRIED: readonly { readonly upTo: number; readonly most: number; readonly usual: number }[] = [
  { upTo: 6, most: 2.5, usual: 1 },
  { upTo: 18, most: 2, usual: 1 },
  { upTo: 60, most: 10, usual: 5 },
  { upTo: Number.POSITIVE_INFINITY, most: 0.5, usual: 0.1 },
];
const BEFORE_REGULATOR = { most: 10, usual: 5 };

/** How many times its usual current a loaded rail would have to carry to be a question, and to be shorted. */
const TIMES_LOAD = { doubt: 2, short: 5 };

const PRACTICE = "common practice, no source";

/** Limits of a rail's resistance to ground. Without a voltage there is one for both, which any rail is held to. */
export function shortLimits({ volts, load, unregulated }: RailToGround): ShortLimits {
  const size = Math.abs(volts ?? 0);
  if (!(size > 0)) return { short: LOWEST_SHORT, doubt: LOWEST_SHORT, source: PRACTICE };
  const byVoltage = CARRIED.find(({ upTo }) => size <= upTo);
  const { most, usual } = (unregulated && size <= 60 ? BEFORE_REGULATOR : byVoltage) ?? BEFORE_REGULATOR;
  const known = load !== undefined && load > 0;
  const short = known ? Math.min(size / most, size / (TIMES_LOAD.short * load)) : size / most;
  const doubt = known ? size / (TIMES_LOAD.doubt * load) : size / usual;
  const low = Math.max(LOWEST_SHORT, short);
  return {
    short: low,
    doubt: Math.max(low, doubt),
    source: known ? `by its voltage and its load: ${PRACTICE}` : `by its voltage: ${PRACTICE}`,
  };
}
