declare module "virtual:mendlog-library" {
  /** The data of each file of a kind, made again at every call. */
  type Files = () => readonly unknown[];
  export const devices: Files;
  export const families: Files;
  export const makers: Files;
  export const procedures: Files;
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
