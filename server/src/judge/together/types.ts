import type { Cause } from "../../compute/together/types";
import type { LogTable, Reading, Subject } from "../../log/model";

/** A reading that a cause explains, with the pin it is of. */
export interface Explained {
  readonly reading: Reading;
  /** As on the board; absent for rails. */
  readonly ref?: string;
  readonly pin?: string;
}

/** What a reading is of, and the offset in the block that its cell begins at. */
export interface PlaceOfReading {
  readonly subject: Subject;
  readonly at: number;
}

/** One chip, or all rails of a table, as far as one cause goes for them. */
export interface PartOfCause {
  readonly ref?: string;
  /** A header or a network, and no chip. */
  readonly inLine?: true;
  /** Rows with a value, how many of them fit as typed, and how many under the cause. */
  readonly of: number;
  readonly fitsAsTyped: number;
  readonly fits: number;
  /** In the order of the table, from the first row on. */
  readonly readings: readonly Reading[];
  /** The same by what each is of, and by where its cell begins in the block: of a long table this costs less. */
  readonly places: readonly PlaceOfReading[];
  readonly explained: readonly Explained[];
  /** Number of the chip's pin that the device says is ground, and of its supply. */
  readonly ground?: Explained;
  readonly supply?: Explained;
  /** Readings of pins that are neither, as far as they were judged. */
  readonly signals: number;
  /** By its rows: the row, from 0, whose pin what stands there belongs to; absent where that is no other. */
  readonly meant?: readonly number[];
}

/** What one cause explains of a table, told once. */
export interface TableCause {
  readonly cause: Cause;
  readonly table: LogTable;
  readonly parts: readonly PartOfCause[];
  /** Natural logarithm of how many times likelier it makes the readings than faults of single pins. */
  readonly margin: number;
  readonly clear: boolean;
  /** Another way in which pins or rows went wrong that fits as well, for the first of the parts. */
  readonly or?: Cause;
}
