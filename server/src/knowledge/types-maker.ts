import type { DeviceKind } from "./types";

/** What a number is behind a maker's letters, where it is not what it is alone. */
export interface AnotherPart {
  /** A number or a row of them: `x` is any figure, `*` anything. */
  readonly number: string;
  readonly is: string;
  /** Id of the device whose pins it has; absent where the library has none. */
  readonly device?: string;
}

export interface Prefix {
  readonly letters: string;
  /** What the letters are used for, in words. */
  readonly use: string;
  /** Kinds of device that keep their number behind these letters. */
  readonly kinds: readonly DeviceKind[];
  /** Numbers that do, whatever they are of; written as in `AnotherPart`. */
  readonly numbers: readonly string[];
  readonly another: readonly AnotherPart[];
}

/** A maker of components with the letters before its numbers. */
export interface Maker {
  readonly id: string;
  readonly title: string;
  /** Words that stand for the maker beside a number. */
  readonly marks: readonly string[];
  readonly prefixes: readonly Prefix[];
  readonly source: string;
}
