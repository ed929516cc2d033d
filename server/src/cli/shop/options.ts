export const EXPORT_FORMATS = ["all", "ndjson", "parquet"] as const;

/** What `export` is asked to do; paths are as they were typed. */
export interface ExportOptions {
  readonly command: "export";
  /** The folder whose logs are exported. */
  readonly path: string;
  /** The folder that the files are written to. */
  readonly output: string;
  readonly format: (typeof EXPORT_FORMATS)[number];
  /** With what says who the owner is. */
  readonly withOwner: boolean;
  /** Stands in every row in place of the shop file's name. */
  readonly shop?: string;
  readonly force: boolean;
}

export const STATS_FORMATS = ["html", "json"] as const;

/** What `stats` is asked to do; paths are as they were typed. */
export interface StatsOptions {
  readonly command: "stats";
  readonly path: string;
  readonly format: (typeof STATS_FORMATS)[number];
  readonly output?: string;
  readonly force: boolean;
}

/** What `pool` is asked to do; paths are as they were typed. */
export interface PoolOptions {
  readonly command: "pool";
  /** Folders that exports were written to; at least one. */
  readonly paths: readonly string[];
  readonly output?: string;
  readonly force: boolean;
}
