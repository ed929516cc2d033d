// One known difference between a device of ours and its symbol, and why ours stands.

export interface Exception {
  /** Pins it covers; "*" for all pins whose pair of directions is the one named. */
  readonly pins: readonly string[] | "*";
  readonly ours: string;
  readonly theirs: string;
  readonly reason: string;
}

/** By device id. Every entry must still be needed. */
export type Exceptions = Readonly<Record<string, readonly Exception[]>>;

export const one = (pins: Exception["pins"], ours: string, theirs: string, reason: string): Exception => ({
  pins,
  ours,
  theirs,
  reason,
});

/** The same exceptions for several devices, by their ids. */
export const every = (ids: string, ...list: readonly Exception[]): Exceptions =>
  Object.fromEntries(ids.split(" ").map((id) => [id, list]));
