import type { CancellationToken } from "../base/cancellation";
import { stopIfCancelled } from "../base/cancellation";
import { nextTurn } from "../base/turns";

/** Knows when something was last typed: whatever can wait waits until the hand rests. */
export class TypingRest {
  #lastEdit = 0;

  edited(): void {
    this.#lastEdit = Date.now();
  }

  /**
   * Resolves when nothing was typed for so many milliseconds, and others have had a turn.
   * @throws Cancelled where the token was cancelled by then
   */
  async after(milliseconds: number, token: CancellationToken): Promise<void> {
    await nextTurn(token);
    for (;;) {
      const left = this.#lastEdit + milliseconds - Date.now();
      if (left <= 0) return;
      await new Promise((resolve) => setTimeout(resolve, left));
      stopIfCancelled(token);
    }
  }
}
