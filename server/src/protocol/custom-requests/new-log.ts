import type { NewLogChoices } from "../../features/new-log/choices";
import type { NewLogFacts } from "../../features/new-log/facts";
import type { OwnRequest } from "./request";

export type { BoardChoice, Choice, NewLogChoices } from "../../features/new-log/choices";
export type { NewLogFacts } from "../../features/new-log/facts";

interface ChoicesParams {
  /** ISO 8601 day: the client's clock counts. */
  readonly today: string;
}

/** What there is to pick from for a new log, so that little has to be typed. */
export const NEW_LOG_CHOICES: OwnRequest<ChoicesParams, NewLogChoices> = { method: "mendlog/newLogChoices" };

interface BoardParams {
  /** As somebody says it: an id, a title, other words. */
  readonly words: string;
}

export interface BoardOfWords {
  /** As logs will name it. */
  readonly id: string;
  readonly title: string;
  /** A known board that is called nearly so; absent where this one is known itself. */
  readonly near?: { readonly id: string; readonly title: string };
}

/** Which board typed words mean; null for blank words. */
export const NEW_LOG_BOARD: OwnRequest<BoardParams, BoardOfWords> = { method: "mendlog/newLogBoard" };

interface NewLogParams {
  readonly facts: NewLogFacts;
  readonly folder?: string;
}

/** The text of a new log, and the file that it is to become. */
export interface NewLog {
  readonly text: string;
  readonly name: string;
  /** Uri of the file it is to become; absent where nothing tells. No file was there when it was asked for. */
  readonly uri?: string;
  /** False where the place is only a proposal. */
  readonly sure: boolean;
}

/** The text of a new log and where to put it. Nothing is written by it. */
export const NEW_LOG: OwnRequest<NewLogParams, NewLog> = { method: "mendlog/newLog" };
