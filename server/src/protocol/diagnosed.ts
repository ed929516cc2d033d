// A diagnosis may take longer than a keystroke may wait: it is made in steps, edits and cancellations are heard in
// between, and the features that show it then find it made.
import { logDiagnosisSteps } from "../features/diagnosis";
import type { LogView } from "../features/view";
import { inTurns } from "./answer";
import type { Session } from "./session";

/** One after the other: several that are asked for at once, such as the lenses of one log, are the same one. */
const last = new WeakMap<Session, Promise<void>>();

/**
 * Makes the diagnosis of an open log as it stands, unless it is made already or `isOver` says that nobody waits for it.
 * A log that is typed in meanwhile is begun anew, which costs little where the words were not about the board.
 * @param steps what of it is needed, where that is not all
 */
export function diagnosed(
  session: Session,
  uri: string,
  isOver: () => boolean,
  steps: (view: LogView) => Iterator<void, unknown> = logDiagnosisSteps,
): Promise<void> {
  const { service } = session;
  const before = last.get(session);
  const made = (async () => {
    await before?.catch(() => undefined);
    for (let view = service.view(uri); view && !isOver(); ) {
      await inTurns(steps(view), isOver);
      const now = service.view(uri);
      if (now === view) return;
      view = now;
    }
  })();
  last.set(session, made);
  return made;
}
