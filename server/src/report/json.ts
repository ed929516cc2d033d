import { defined } from "../base/defined";
import { type Json, json } from "../text/json";
import type { Report, ReportFinding } from "./model";
import { countFindings, exitCode, hasFailed } from "./outcome";

/** Raised where a field changes its meaning or goes; new fields may come without. docs/command-line.md says the shape. */
export const JSON_FORMAT = 1;

/** The report as JSON, indented, with a line end. */
export function jsonReport(report: Report): Json {
  const counts = countFindings(report);
  const shape = {
    format: JSON_FORMAT,
    version: report.version,
    base: report.baseUri,
    summary: {
      logs: report.files.filter((file) => file.kind === "log").length,
      knowledgeFiles: report.files.filter((file) => file.kind !== "log").length,
      otherMarkdown: report.otherMarkdown,
      ...counts,
      failOn: report.failOn,
      failed: hasFailed(counts, report.failOn),
      exitCode: exitCode(report),
    },
    problems: report.problems,
    files: report.files.map(({ path, kind, findings }) => ({ path, kind, findings: findings.map(shapeOf) })),
  };
  return json(shape);
}

function shapeOf(finding: ReportFinding) {
  const { code, severity, message, formula, detail, source, start, end, related, tags, fix } = finding;
  return defined({ code, severity, message, formula, detail, source, start, end, related, tags, fix });
}
