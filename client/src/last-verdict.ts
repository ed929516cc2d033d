// The reading just taken and its verdict, by whichever hand: who shows one hears of it here, so that it is shown once.
import { EventEmitter } from "vscode";
import type { ShownVerdict } from "../../server/src/protocol/custom-requests/capture";

/** A reading just taken, and what the server says of it. */
export interface LastVerdict {
  readonly by: "meter" | "keys";
  /** Of the log. */
  readonly uri: string;
  /** The reading as it stands in its cell. */
  readonly text: string;
  readonly verdict: ShownVerdict;
}

const told = new EventEmitter<LastVerdict>();
/** Hears of every verdict, whether it was typed or read from a meter. */
export const onVerdict = told.event;
/** To be called once for a reading, by whoever brought it in. */
export const tellVerdict = (verdict: LastVerdict): void => told.fire(verdict);

let writing = 0;

/** True while the meter writes its reading: that is nobody's typing. */
export const isMeterWriting = (): boolean => writing > 0;

/** Does what writes a meter's reading, so that nobody takes it for typing; what it throws is passed on. */
export async function asMeter<T>(write: () => Promise<T>): Promise<T> {
  writing += 1;
  try {
    return await write();
  } finally {
    writing -= 1;
  }
}
