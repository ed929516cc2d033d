declare module "virtual:mendlog-library" {
  interface LibraryFile {
    /** Path below server/data, with forward slashes. */
    readonly file: string;
    readonly data: unknown;
  }
  export const devices: readonly LibraryFile[];
  export const families: readonly LibraryFile[];
  export const makers: readonly LibraryFile[];
  export const procedures: readonly LibraryFile[];
}
