// What one run of the checks found, with every place worked out. All formats print this and only this, so that
// none of them can show a finding that another hides.
import type { CheckCode, Severity } from "../checks/check";

/** A place in a text: `offset` in UTF-16 code units from 0 (a byte order mark not counted), the others from 1. */
export interface TextLocation {
  readonly offset: number;
  readonly line: number;
  readonly column: number;
}

export interface Range {
  readonly start: TextLocation;
  /** Behind the last character. */
  readonly end: TextLocation;
}

/** Text that a fix puts in place of the range; an empty range is an insertion. */
export interface ReportEdit extends Range {
  readonly newText: string;
}

export interface ReportFix {
  readonly title: string;
  /** Only how it is written changes, not what is said. */
  readonly certain?: true;
  readonly edits: readonly ReportEdit[];
}

export interface ReportRelated extends Range {
  readonly path: string;
  readonly message: string;
}

export interface ReportFinding extends Range {
  readonly code: CheckCode;
  readonly severity: Severity;
  readonly message: string;
  /** What is beside the message: the comparison with its numbers, what else was weighed, whose figures they are. */
  readonly formula?: string;
  readonly detail?: string;
  readonly source?: string;
  readonly related: readonly ReportRelated[];
  readonly tags: readonly string[];
  /** The check's preferred fix, where it has one for this finding. */
  readonly fix?: ReportFix;
}

/** What sort of file was checked; of Markdown files only logs are. */
export type FileKind = "log" | "board" | "device" | "limits" | "procedure" | "shop";

/** A file that was checked, with its findings. */
export interface ReportFile {
  /** As people are shown it: from the working folder where it lies below it, with forward slashes. */
  readonly path: string;
  readonly kind: FileKind;
  readonly text: string;
  readonly findings: readonly ReportFinding[];
}

/** A file that could not be looked at, and why, as the end of a sentence: "is not text". */
export interface ReportProblem {
  readonly path: string;
  readonly message: string;
}

/** The least severity of a finding that has the run end with a failure. */
export type FailOn = Severity | "never";

/** One run of the checks over all files that were asked for. */
export interface Report {
  readonly version: string;
  /** Absolute, as a uri that ends in a slash; relative paths count from it. */
  readonly baseUri: string;
  readonly failOn: FailOn;
  readonly severity: ReadonlyMap<string, Severity | "off">;
  readonly files: readonly ReportFile[];
  /** Markdown files that are no logs; they are left alone. */
  readonly otherMarkdown: number;
  readonly problems: readonly ReportProblem[];
}
