import type { Finding, Fix } from "../../server/src/checks/check";
import { buildFile } from "../../server/src/report/build";
import type { Report, ReportFile } from "../../server/src/report/model";

export function fileWith(
  text: string,
  findings: readonly (Partial<Finding> & { at: string })[],
  fix: (finding: Finding) => Fix | undefined = () => undefined,
  path = "logs/a.md",
): ReportFile {
  const full = findings.map(({ at, ...finding }): Finding => {
    const start = text.indexOf(at);
    if (start < 0) throw new Error(`"${at}" is not in the text`);
    return {
      code: "unreadable-value",
      severity: "warning",
      message: `about ${at}`,
      fact: `about ${at}`,
      span: { start, end: start + at.length },
      ...finding,
    };
  });
  const other = (uri: string) =>
    uri === "mem:/board" ? { path: "b.board.yaml", text: "one\ntwo three\n" } : { path: uri, text: "" };
  return buildFile({ path, kind: "log", text, findings: full, fix, other });
}

export function reportOf(files: readonly ReportFile[], more: Partial<Report> = {}): Report {
  return {
    version: "1.2.3",
    baseUri: "file:///bench/",
    failOn: "warning",
    severity: new Map(),
    files,
    otherMarkdown: 0,
    problems: [],
    ...more,
  };
}
