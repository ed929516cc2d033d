// What readings of one chip are to a common cause of theirs: rows, and windows by pin.

/** What a pin may read, in volts, and what it is: an input may be tied to ground or to the supply. */
export interface PinWindow {
  readonly low: number;
  readonly high: number;
  readonly is: "ground" | "supply" | "input" | "other";
  /** Another part on its net conducts there, whatever becomes of this one. */
  readonly shared?: true | undefined;
}

/** A row of a chip's column in the order of the table. */
export interface RowRead {
  readonly pin: number;
  /** Volts, infinite where open; absent where nothing that can be compared was read. */
  readonly value?: number;
  /** Nothing was typed there. */
  readonly blank: boolean;
}

/** The rows of one chip in a table, with what its pins ought to read. */
export interface ChipRows {
  readonly rows: readonly RowRead[];
  /** Pins of its package. */
  readonly pins: number;
  /** A header or a network: its pins stand in line and can only be counted from the other end, and nothing in it dies. */
  readonly inLine?: true;
  /** Undefined where nothing is known of what a pin reads, and for pins that the package does not have. */
  readonly windowOf: (pin: number) => PinWindow | undefined;
}

/** How the pins were counted, by what each number typed was in truth. */
export type Count =
  /** From the other end, which is also what a chip seen from the solder side comes to. */
  | { readonly way: "reversed" }
  /** From the corner across: the chip stood the other way round. */
  | { readonly way: "turned" }
  /** The second row from the top down, like the first. */
  | { readonly way: "second-row-down" }
  /** From the bottom of the first row. */
  | { readonly way: "rows-backward" }
  /** From side to side, like a header. */
  | { readonly way: "across" }
  /** From a pin further on: pin 1 as typed is pin 1 + `by`. */
  | { readonly way: "further-on"; readonly by: number };

/** What may have befallen all readings of one chip at once, by what it does to them. */
export type Cause =
  /** Nothing conducts, ground and supply included. */
  | { readonly kind: "open" }
  /** The lead stood on this pin as typed, which is no ground. */
  | { readonly kind: "lead-on-pin"; readonly pin: number }
  | { readonly kind: "swapped"; readonly shows: "below-zero" | "blocking" }
  | { readonly kind: "counted"; readonly by: Count }
  /** Rows `first` to `last`, from 0, belong so many rows further down; `wraps`: what falls off one end belongs to the other. */
  | {
      readonly kind: "shifted";
      readonly first: number;
      readonly last: number;
      readonly by: 1 | -1;
      readonly wraps: boolean;
    }
  /** So many volts on top of what each should read, or, `flat`, the same on every pin. */
  | { readonly kind: "offset"; readonly by: number; readonly flat: boolean }
  /** What was typed times `factor` is what was meant, for the values beyond `from`. */
  | { readonly kind: "scale"; readonly factor: 1000 | 0.001 }
  /** The chip as a whole does not conduct as it should. */
  | { readonly kind: "dead" };

/** A cause with how much better than the readings as they stand it fits. */
export interface CauseExplanation {
  readonly cause: Cause;
  /** Natural logarithm of how many times likelier it makes the readings, its own prior included. */
  readonly margin: number;
  /** Rows, from 0, that are wrong as typed and right under the cause. */
  readonly explains: readonly number[];
  /** Rows with a value that fit under the cause. */
  readonly fitting: readonly number[];
  /** Rows with a value that fit as typed. */
  readonly fitsAsTyped: number;
  /** Rows with a value. */
  readonly of: number;
}
