/** An export that a file of another folder imports. */
export interface Crossing {
  /** From the project's folder. */
  readonly path: string;
  /** "default" for a default export. */
  readonly name: string;
  /** From 1. */
  readonly line: number;
  /** How many files of other folders import it. */
  readonly users: number;
  readonly isDocumented: boolean;
}

export function readSources(): ReadonlyMap<string, string>;

export function crossings(sources: ReadonlyMap<string, string>): {
  readonly all: readonly Crossing[];
  /** "path name" of what is imported and declared nowhere. */
  readonly lost: readonly string[];
};
