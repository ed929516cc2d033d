export const IMPORT_FORMATS = ["human", "json"] as const;

export interface ImportOptions {
  readonly command: "import";
  /** At least one. */
  readonly paths: readonly string[];
  /** Id of a new board file. */
  readonly board?: string;
  readonly output?: string;
  readonly format: (typeof IMPORT_FORMATS)[number];
}

export interface LimitsOptions {
  readonly command: "limits";
  /** A log of the board. */
  readonly path: string;
  readonly output?: string;
}

export interface DraftOptions {
  readonly command: "draft";
  /** Logs, or folders of logs; at least one. */
  readonly paths: readonly string[];
  /** Id of the board, or its name in words. */
  readonly board?: string;
  readonly output?: string;
}

/** What is to be done with a board file; `command` says which of the three. */
export type BoardCommandOptions = DraftOptions | ImportOptions | LimitsOptions;
