// A diagnosis may take longer than a keystroke may wait: it is made in steps, edits and cancellations are heard in
// between, and the features that show it then find it made.

import { type CancellationToken, stopIfCancelled } from "../base/cancellation";
import type { Steps } from "../base/steps";
import { inTurns } from "../base/turns";
import { logDiagnosisSteps } from "../features/shared/diagnosis";
import { boardsOf, type LogView } from "../features/view";
import type { Service } from "../service";

export class Diagnoses {
  readonly #service: Service;
  /** One after the other: several that are asked for at once, such as the lenses of one log, are the same one. */
  #last: Promise<unknown> = Promise.resolve();

  constructor(service: Service) {
    this.#service = service;
  }

  /**
   * Makes the diagnosis of an open log as it stands, unless it is made already. A log that is typed in meanwhile is begun
   * again, which costs little where the words were not about the board.
   * @param steps what of it is needed, where that is not all
   * @throws Cancelled where nobody waits for it any longer
   */
  make(
    uri: string,
    token: CancellationToken,
    steps: (view: LogView) => Steps<unknown> = logDiagnosisSteps,
  ): Promise<void> {
    const made = this.#last.then(() => this.#make(uri, token, steps));
    this.#last = made.catch(() => undefined);
    return made;
  }

  async #make(
    uri: string,
    token: CancellationToken,
    steps: (view: LogView) => Steps<unknown>,
  ): Promise<void> {
    stopIfCancelled(token);
    for (let view = this.#service.view(uri); view; ) {
      for (const one of boardsOf(view)) await inTurns(steps(one), token);
      const now = this.#service.view(uri);
      if (now === view) return;
      view = now;
    }
  }
}
