import type { Severity } from "../checks/check";
import { lineIndex } from "../text/line-index";
import { joinedShown, ownShown, type TerminalText, terminal, trimmedEnd, visible } from "../text/terminal";
import { type Excerpt, excerptOf } from "./excerpt";
import type { Report, ReportFinding } from "./model";
import { countFindings, SEVERITIES } from "./outcome";

export interface HumanOptions {
  readonly colour: boolean;
  /** Findings only: no summary. */
  readonly quiet: boolean;
  /** Cells in a line of the terminal; excerpts are cut to it. */
  readonly width: number;
}

/** SGR codes, ECMA-48 8.3.117: 1 bold, 2 faint, 31 red, 33 yellow, 34 blue, 36 cyan. */
const STYLE = { error: "1;31", warning: "1;33", information: "1;36", hint: "1;34", bold: "1", faint: "2" };
type Paint = (style: keyof typeof STYLE, text: TerminalText) => TerminalText;

/** For people: place, severity, message and code on one line, then the line of the log with a marker under it. */
export const humanReport = (report: Report, options: HumanOptions): TerminalText =>
  joinedShown([...humanPieces(report, options)], "");

/** The same file by file, so that the report of ten thousand need not be there all at once. */
export function* humanPieces(report: Report, options: HumanOptions): Generator<TerminalText> {
  const paint: Paint = (style, text) =>
    options.colour ? terminal`\u001b[${ownShown(STYLE[style])}m${text}\u001b[0m` : text;
  let before: TerminalText | "" = "";
  for (const { path, text, findings } of report.files) {
    if (findings.length === 0) continue;
    const lines = lineIndex(text);
    const all = findings.map((finding) => {
      const room = Math.max(options.width - String(finding.start.line).length - 5, 20);
      return findingText(path, finding, excerptOf(text, lines, finding, room), paint);
    });
    yield terminal`${before}${joinedShown(all, "\n\n")}\n`;
    before = terminal`\n`;
  }
  if (!options.quiet) yield terminal`${before}${summary(report, paint)}\n`;
}

function findingText(
  path: string,
  finding: ReportFinding,
  { line, marker }: Excerpt,
  paint: Paint,
): TerminalText {
  const { start, end } = finding;
  const severity = visible(finding.severity);
  const bar = paint("faint", terminal`${visible(" ".repeat(String(start.line).length + 2))}|`);
  const onward = end.line > start.line ? terminal` (to line ${end.line})` : "";
  const lines = [
    terminal`${paint("bold", where(path, finding))}: ${paint(finding.severity, severity)}: ${visible(finding.message)} ${paint("faint", terminal`[${visible(finding.code)}]`)}`,
    terminal`${paint("faint", terminal` ${start.line} |`)} ${visible(line)}`,
    terminal`${bar} ${paint(finding.severity, visible(marker))}${onward}`,
    ...finding.related.map(
      (related) => terminal`${bar} see ${where(related.path, related)}: ${visible(related.message)}`,
    ),
    ...(finding.fix ? [terminal`${bar} fix: ${visible(finding.fix.title)}`] : []),
  ];
  return joinedShown(lines.map(trimmedEnd), "\n");
}

const where = (path: string, { start }: Pick<ReportFinding, "start">): TerminalText =>
  terminal`${visible(path)}:${start.line}:${start.column}`;

function summary(report: Report, paint: Paint): TerminalText {
  const logs = report.files.filter((file) => file.kind === "log").length;
  const knowledge = report.files.length - logs;
  const looked = `${count(logs, "log")} and ${count(knowledge, "knowledge file")} checked`;
  const others =
    report.otherMarkdown > 0 ? `, ${count(report.otherMarkdown, "other Markdown file")} left alone` : "";
  const unread = report.problems.length > 0 ? `, ${count(report.problems.length, "file")} not read` : "";
  return paint("bold", visible(`${looked}${others}${unread}: ${tally(report)}.`));
}

function tally(report: Report): string {
  const counts = countFindings(report);
  const parts = SEVERITIES.filter((severity) => counts[severity] > 0).map((s) => count(counts[s], NOUN[s]));
  return parts.length === 0 ? "nothing found" : parts.join(", ");
}

const NOUN: Readonly<Record<Severity, string>> = {
  error: "error",
  warning: "warning",
  information: "information",
  hint: "hint",
};

/** "information" has no plural. */
const count = (n: number, noun: string): string =>
  `${n} ${noun}${n === 1 || noun === "information" ? "" : "s"}`;
