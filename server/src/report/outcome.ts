import { memo } from "../base/memo";
import type { Severity } from "../checks/check";
import type { FailOn, Report } from "./model";

/** All severities, the heaviest first. */
export const SEVERITIES: readonly Severity[] = ["error", "warning", "information", "hint"];

export type Counts = Readonly<Record<Severity, number>>;

/** Worked out once for a report, whose findings may have to be unpacked for it. */
export const countFindings = memo((report: Report): Counts => {
  const counts = { error: 0, warning: 0, information: 0, hint: 0 };
  for (const file of report.files) for (const { severity } of file.findings) counts[severity]++;
  return counts;
});

/** True where a finding is at least as heavy as the run was told to fail on. */
export function hasFailed(counts: Counts, failOn: FailOn): boolean {
  if (failOn === "never") return false;
  return SEVERITIES.slice(0, SEVERITIES.indexOf(failOn) + 1).some((severity) => counts[severity] > 0);
}

/** 0 nothing at or above the level, 1 findings, 2 a file could not be looked at (which outweighs findings). */
export function exitCode(report: Report): 0 | 1 | 2 {
  if (report.problems.length > 0) return 2;
  return hasFailed(countFindings(report), report.failOn) ? 1 : 0;
}
