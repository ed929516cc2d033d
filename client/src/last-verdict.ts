// The reading just taken and its verdict, by whichever hand: who shows one hears of it here, so that it is shown once.
import { EventEmitter } from "vscode";
import type { ShownVerdict } from "../../server/src/protocol/own/capture";

export interface Told {
  readonly by: "meter" | "keys";
  /** Of the log. */
  readonly uri: string;
  /** The reading as it stands in its cell. */
  readonly text: string;
  readonly verdict: ShownVerdict;
}

const told = new EventEmitter<Told>();
export const onVerdict = told.event;
export const tellVerdict = (verdict: Told): void => told.fire(verdict);

let writing = 0;

/** True while the meter writes its reading: that is nobody's typing. */
export const isMeterWriting = (): boolean => writing > 0;

export async function asMeter<T>(write: () => Promise<T>): Promise<T> {
  writing += 1;
  try {
    return await write();
  } finally {
    writing -= 1;
  }
}
