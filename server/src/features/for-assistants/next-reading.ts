import { suspectList } from "../suspects";
import type { LogView } from "../view";
import { bounded } from "./bounds";

/**
 * The next reading as an assistant is told of it, cautions first to be passed on; `next` is absent where none would
 * tell more.
 */
export interface AssistantNextReading {
  readonly next?: ToldAction;
  readonly others: readonly ToldAction[];
  readonly suspects: readonly { readonly name: string; readonly share: string }[];
  /** How far this goes. */
  readonly notes: readonly string[];
}

interface ToldAction {
  readonly action: string;
  readonly why: string;
  readonly cautions: readonly string[];
}

/** What to read next and whom it is to tell apart; undefined without a board. */
export function assistantNextReading(view: LogView): AssistantNextReading | undefined {
  const found = suspectList(view);
  if (!found) return undefined;
  const action = ({ action, why, cautions }: ToldAction): ToldAction => ({
    action: bounded(action),
    why: bounded(why),
    cautions: cautions.map(bounded),
  });
  return {
    ...(found.next ? { next: action(found.next) } : {}),
    others: found.others.map(action),
    suspects: found.suspects.map(({ name, share }) => ({
      name: bounded(name),
      share: `${share.how} ${share.percent} %`,
    })),
    notes: found.notes.slice(0, NOTES).map(bounded),
  };
}

/** A log with many mistakes has a note on each. */
const NOTES = 20;
