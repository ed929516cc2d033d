// What is said of one thing, in parts. They are joined where they are shown, and nothing is cut out of words again.

/** Full sentences each. Whose word it is and the arithmetic are no part of what is read first. */
export interface Saying {
  /** What was found, with its number and the limit it was held against: no more than fits at a glance. */
  readonly fact: string;
  /** What it likely comes from. */
  readonly cause?: string | undefined;
  /** What to do next. */
  readonly step?: string | undefined;
  /** What else was weighed, in full sentences; shown beside it and never in it. */
  readonly more?: string | undefined;
  /** Whose rule or figure it rests on, without a full stop; shown beside it and never in it. */
  readonly source?: string | undefined;
}

/** What may be behind a fact, and what to do about it. */
export type Advice = Omit<Saying, "fact">;

/** The words as they are shown in one line: the fact, the likely cause, the next step. */
export const inWords = ({ fact, cause, step }: Saying): string =>
  [fact, cause, step].filter((part) => part !== undefined && part !== "").join(" ");

/** Sources one after another, each once; undefined where there is none. */
export function sourcesOf(...sources: readonly (string | undefined)[]): string | undefined {
  const named = new Set(sources.filter((source) => source !== undefined && source !== ""));
  return named.size === 0 ? undefined : [...named].join("; ");
}
