import type { Side } from "../compute/limits/compare";
import type { Verdict } from "../compute/verdict";
import type { Reading } from "../log/model";
import type { Saying } from "../text/saying";
import type { Span } from "../text/span";
import type { JudgementCode } from "./codes";
import type { TestPoint } from "./test-point";

/** The window a reading was held against, and whose word it is. */
export interface Reference {
  readonly kind: "board" | "shop" | "reference-job" | "shops" | "family" | "physics";
  /** What the window is of: "a TTL signal pin's drop to ground". */
  readonly of: string;
  /** Said behind it: "which reads as the rail does". */
  readonly aside?: string;
  /** Limits in `unit`, SI base; either end may be open. */
  readonly low?: number;
  readonly high?: number;
  /** Limits that some sound boards do not keep either: what lies outside them but inside these is suspect only. */
  readonly beyond?: { readonly low: number; readonly high: number };
  readonly unit: string;
  readonly source: string;
  /** Where the window is written, for references that stand in a file. */
  readonly link?: { readonly uri: string; readonly span: Span };
  /** For limits from returned boards: how many they are, and in how many shops where it is not this one. */
  readonly boards?: number;
  readonly shops?: number;
  /** For limits from other jobs: the last two that they were made from, with what each read. */
  readonly jobs?: readonly { readonly uri: string; readonly job: string; readonly value: number }[];
}

/** The verdict on one reading with all it rests on; `reference` is absent where nothing is known to hold it against. */
export interface Judgement {
  readonly reading: Reading;
  readonly verdict: Verdict;
  /** Which way it left its limits; absent within them, and where there are none to leave. */
  readonly side?: Side | undefined;
  /** Code of the check that reports it, where it is to be reported. */
  readonly code?: JudgementCode;
  /** What was read and what was expected, what may be behind it, what to do. */
  readonly says: Saying;
  /** The comparison with its numbers in it: "1.42 V > 0.7 V + 0.01 V". */
  readonly formula?: string;
  readonly reference?: Reference;
  /** Half-width of the meter's uncertainty in SI base units. */
  readonly uncertainty?: number;
  readonly place?: TestPoint;
  /** What digits without a point may stand for, with the verdict of each; see `pointedReadings`. */
  readonly mayBe?: readonly { readonly text: string; readonly verdict: Verdict }[];
}
