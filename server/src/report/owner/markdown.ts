// The report as plain Markdown, for mail and for archives.

import { md } from "../../text/markdown";
import { describe } from "./chart-svg";
import { usedColumns } from "./columns";
import type { OwnerReport } from "./model";
import { quoteHeader, quoteRows } from "./quote";
import { STATES } from "./words";

export function ownerMarkdown(report: OwnerReport): string {
  const facts = [
    ...report.facts,
    ...(report.complaint === undefined ? [] : [{ label: "In your words", text: report.complaint }]),
    ...(report.symptoms.length > 0 ? [{ label: "Came in with", text: report.symptoms.join("; ") }] : []),
  ];
  const blocks = [
    `# ${md(report.title)}`,
    ...(report.shop === undefined ? [] : [md(report.shop)]),
    ...(report.draft === undefined ? [] : [`**${md(report.draft)}**`]),
    ...list(facts.map(({ label, text }) => `**${md(label)}:** ${md(text)}`)),
    ...section("Before you power it", list(report.beforePower.map(md))),
    ...section(
      "What was found",
      report.found.length === 0
        ? ["The log has no reading outside its limits and no failed test."]
        : table(
            ["Where", "Found", "Then"],
            report.found.map(({ where, said, outcome }) => [where, said.join("; "), outcome ?? ""]),
          ),
    ),
    ...section(
      "What was done",
      report.done.length === 0
        ? ["The log lists no work."]
        : table(
            ["Where", "Work", "Part", "Date", "Note"],
            report.done.map(({ where, action, part, date, note }) => [
              where,
              action,
              part ?? "",
              date ?? "",
              note ?? "",
            ]),
          ),
    ),
    ...section(
      "Parts fitted",
      table(
        ["Part", "Quantity", "Where", "Note"],
        report.fitted.map(({ part, quantity, where, note, caution }) => [
          part,
          quantity,
          where,
          [note, caution].filter(Boolean).join(". "),
        ]),
      ),
    ),
    ...(report.quote === undefined
      ? []
      : section("Quote", [
          ...table(quoteHeader(report.quote), quoteRows(report.quote)),
          ...list(report.quote.notes.map(md)),
        ])),
    ...section("Readings", [
      ...list(report.charts.map((chart) => `${md(describe(chart))} (${md(chart.source)})`)),
      ...(report.charts.length > 0 ? [md(report.chartsNote)] : []),
    ]),
    ...section(
      "Proving",
      table(
        ["Item", "State", "By what"],
        report.proving.map(({ item, state, said }) => [item, STATES[state], said]),
      ),
    ),
    ...section("From the log", report.notes.map(md)),
    // Pictures stay in their files: there is no place for them in a text.
    ...section(
      "Pictures",
      list(report.images.map(({ alt, source }) => md(`${alt || "Picture"}: ${source}`))),
    ),
    ...section("Cautions", list(report.cautions.map(md))),
    ...report.closing.flatMap(({ label, text }) => section(md(label), [md(text)])),
  ];
  return `${blocks.join("\n\n")}\n`;
}

const section = (title: string, content: readonly string[]): string[] =>
  content.length === 0 ? [] : [`## ${title}`, ...content];

const list = (items: readonly string[]): string[] =>
  items.length === 0 ? [] : [items.map((item) => `- ${item}`).join("\n")];

function table(allHeaders: readonly string[], allRows: readonly (readonly string[])[]): string[] {
  if (allRows.length === 0) return [];
  const { headers, rows } = usedColumns(allHeaders, allRows);
  const line = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
  return [
    [line(headers), line(headers.map(() => "---")), ...rows.map((row) => line(row.map(md)))].join("\n"),
  ];
}
