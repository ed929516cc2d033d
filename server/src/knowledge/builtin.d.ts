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

declare module "virtual:mendlog-validators" {
  import type { ErrorObject } from "ajv";

  /** True where a value is as its schema says; else `errors` says what is not, until the next call. */
  interface Validator {
    (value: unknown): boolean;
    readonly errors?: readonly ErrorObject[] | null;
  }

  /** By kind of file, as the files under schemas/ are called. */
  export const VALIDATORS: Readonly<
    Record<
      "front-matter" | "board" | "device" | "family" | "maker" | "limits" | "procedure" | "shop",
      Validator
    >
  >;
}
