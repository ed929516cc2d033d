// What a log says of its board while it reports of something else: this chip is a 7404, there is a +5 V rail, these two
// pins are joined. Statements are what somebody wrote; what follows from them is made in `judge/stated/`.
import type { Span } from "../../text/span";

/** Where a part's number was said. What was fitted stands there only from then on. */
export type SaidIn = "list" | "beside" | "heading" | "prose" | "fitted";

/** "U5 is a 7404", or a part's value, case or circuit. */
export interface PartStated {
  readonly kind: "part";
  readonly ref: string;
  /** The number printed on it, as typed. */
  readonly device?: string;
  /** Of a passive part, or words that are no number. */
  readonly value?: string;
  readonly package?: string;
  readonly circuit?: string;
  readonly note?: string;
  readonly by: SaidIn;
}

/** "There is a rail of +5 V", by its name. */
export interface RailStated {
  readonly kind: "rail";
  /** As it is written in board files: "+5V", "-12V", "+34V coils". */
  readonly name: string;
  /** Volts, below zero for a negative rail. */
  readonly nominal: number;
  /** "unreg", "coils": no regulator holds it. */
  readonly unregulated: boolean;
  /** The name does not say the voltage: "VCC" is 5 V by habit. */
  readonly byHabit?: true;
}

/** One end of a connection: a pin, or a net or rail by its name. */
export type LinkEnd = { readonly ref: string; readonly pin: string } | { readonly net: string };

/** "These two are joined", by a continuity row that was heard or a line that says so. */
export interface LinkStated {
  readonly kind: "link";
  readonly ends: readonly [LinkEnd, LinkEnd];
}

/** "There is a matrix of these lines", by a table that is its grid. */
export interface MatrixStated {
  readonly kind: "matrix";
  readonly of: "switch" | "lamp";
  /** Names of the lines as the grid has them, "1" to "8" where it numbers them. */
  readonly rows: readonly string[];
  readonly columns: readonly string[];
  /** The heading's words besides those of the procedure; "" where there are none. */
  readonly words: string;
}

/** One thing that a log says of its board, whatever it says besides. */
export type Statement = PartStated | RailStated | LinkStated | MatrixStated;

/** A statement with its place; what the span counts from is said where it is given. */
export type LocatedStatement<T extends Statement = Statement> = T & { readonly span: Span };
