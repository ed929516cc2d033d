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

export type BoardOptions = ImportOptions;
