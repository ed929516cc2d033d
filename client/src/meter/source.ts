/** What readings come from: an instrument on the network, or what another program appends to a file. */
export interface ReadingSource {
  /**
   * Waits for one reading; those who ask wait for each other.
   * @param query what an instrument is asked; what only listens has no use for it
   * @param timeout milliseconds, for all of it
   */
  ask(query: string, timeout: number, signal?: AbortSignal): Promise<SourceAnswer>;
  /** Sends what has no answer, where there is somebody to hear it. */
  tell(message: string): void;
  dispose(): void;
}

export type SourceAnswer =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly failure: Failure };

export type Failure =
  /** Nobody listens there, there is no such file, or the way is barred. */
  | { readonly kind: "unreachable"; readonly detail: string }
  /** No answer in time. */
  | { readonly kind: "silent"; readonly after: number }
  /** The instrument hung up in the middle. */
  | { readonly kind: "hung-up" }
  /** More than any answer holds came without an end. */
  | { readonly kind: "babble" }
  /** The person would not wait. */
  | { readonly kind: "cancelled" };

/** Characters of one answer; a reading has some twenty. */
export const LONGEST = 4096;

export const sourceFailed = (failure: Failure): SourceAnswer => ({ ok: false, failure });
