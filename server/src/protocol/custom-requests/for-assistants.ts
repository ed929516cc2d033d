// What an assistant's tools ask of a log. Answers are bounded in size, and nothing is written.
import type {
  AssistantNextReading,
  AssistantReading,
  JudgedTable,
  TypedReading,
} from "../../features/for-assistants";
import type { OfDocument, OwnRequest } from "./request";

export interface ReadingsAsked extends OfDocument {
  /** A designator; every part's readings where it is not given. */
  readonly ref?: string;
  /** How many of them to pass over. */
  readonly from?: number;
}

export interface ReadingsAnswer {
  readonly total: number;
  /** Lines count from 1. */
  readonly readings: readonly (AssistantReading & { readonly line: number })[];
  /** The `from` to go on with; absent where these are the last. */
  readonly next?: number;
}

/** What was read in a log, with its verdicts. */
export const TOOL_READINGS: OwnRequest<ReadingsAsked, ReadingsAnswer> = { method: "mendlog/toolReadings" };

export interface JudgeAsked extends OfDocument {
  /** What a table of such readings stands under: "Diode check". */
  readonly procedure: string;
  /** Which board they are of, by its short name, where the log is about several. */
  readonly board?: string;
  readonly readings: readonly TypedReading[];
}

/** The verdicts on readings that are in no log; none is written. */
export const TOOL_JUDGE: OwnRequest<JudgeAsked, JudgedTable> = { method: "mendlog/toolJudge" };

/** What to read next, with the suspects that it is to tell apart. */
export const TOOL_NEXT: OwnRequest<OfDocument, AssistantNextReading> = { method: "mendlog/toolNext" };
