export interface LibraryFile {
  /** Path below server/data, with forward slashes. */
  readonly file: string;
  readonly data: unknown;
}
/** Every data file of one kind, sorted by path. Throws on YAML that does not parse. */
export function readKind(kind: "devices" | "families" | "makers" | "procedures"): LibraryFile[];
/** Source text of the module that holds them all. */
export function librarySource(): string;
export const libraryPlugin: {
  // The plug-in types belong to esbuild and vite; naming them here would tie this file to both.
  // biome-ignore lint/suspicious/noExplicitAny: see above
  esbuild(): any;
  // biome-ignore lint/suspicious/noExplicitAny: see above
  vite(): any;
};
