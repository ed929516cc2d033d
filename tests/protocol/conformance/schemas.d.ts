export interface Checks {
  /** What is wrong with what it carries; absent where it carries nothing. */
  readonly params: ((value: unknown) => string[]) | undefined;
  /** What is wrong with an answer; absent for a notification. */
  readonly result: ((value: unknown) => string[]) | undefined;
}

/** By method. */
export function protocolSchemas(): Promise<ReadonlyMap<string, Checks>>;
