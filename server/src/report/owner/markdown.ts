// The report as plain Markdown, for mail and for archives.

import { joined, type Markdown, markdown, markdownRow, md, RULE } from "../../text/markdown";
import { describe } from "./chart-svg";
import { usedColumns } from "./columns";
import type { OwnerReport } from "./model";
import { quoteHeader, quoteRows } from "./quote";
import { STATES } from "./words";

export function ownerMarkdown(report: OwnerReport): Markdown {
  const facts = [
    ...report.facts,
    ...(report.complaint === undefined ? [] : [{ label: "In your words", text: report.complaint }]),
    ...(report.symptoms.length > 0 ? [{ label: "Came in with", text: report.symptoms.join("; ") }] : []),
  ];
  const blocks = [
    markdown`# ${md(report.title)}`,
    ...(report.shop === undefined ? [] : [md(report.shop)]),
    ...(report.draft === undefined ? [] : [markdown`**${md(report.draft)}**`]),
    ...list(facts.map(({ label, text }) => markdown`**${md(label)}:** ${md(text)}`)),
    ...section(markdown`Before you power it`, list(report.beforePower.map(md))),
    ...section(
      markdown`What was found`,
      report.found.length === 0
        ? [markdown`The log has no reading outside its limits and no failed test.`]
        : table(
            ["Where", "Found", "Then"],
            report.found.map(({ where, said, outcome }) => [where, said.join("; "), outcome ?? ""]),
          ),
    ),
    ...section(
      markdown`What was done`,
      report.done.length === 0
        ? [markdown`The log lists no work.`]
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
      markdown`Parts fitted`,
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
      : section(markdown`Quote`, [
          ...table(quoteHeader(report.quote), quoteRows(report.quote)),
          ...list(report.quote.notes.map(md)),
        ])),
    ...section(markdown`Readings`, [
      ...list(report.charts.map((chart) => markdown`${md(describe(chart))} (${md(chart.source)})`)),
      ...(report.charts.length > 0 ? [md(report.chartsNote)] : []),
    ]),
    ...section(
      markdown`Proving`,
      table(
        ["Item", "State", "By what"],
        report.proving.map(({ item, state, said }) => [item, STATES[state], said]),
      ),
    ),
    ...section(markdown`From the log`, report.notes.map(md)),
    // Pictures stay in their files: there is no place for them in a text.
    ...section(
      markdown`Pictures`,
      list(report.images.map(({ alt, source }) => md(`${alt || "Picture"}: ${source}`))),
    ),
    ...section(markdown`Cautions`, list(report.cautions.map(md))),
    ...report.closing.flatMap(({ label, text }) => section(md(label), [md(text)])),
  ];
  return markdown`${joined(blocks, "\n\n")}\n`;
}

const section = (title: Markdown, content: readonly Markdown[]): Markdown[] =>
  content.length === 0 ? [] : [markdown`## ${title}`, ...content];

const list = (items: readonly Markdown[]): Markdown[] =>
  items.length === 0
    ? []
    : [
        joined(
          items.map((item) => markdown`- ${item}`),
          "\n",
        ),
      ];

function table(allHeaders: readonly string[], allRows: readonly (readonly string[])[]): Markdown[] {
  if (allRows.length === 0) return [];
  const { headers, rows } = usedColumns(allHeaders, allRows);
  return [
    joined(
      [
        markdownRow(headers.map(md)),
        markdownRow(headers.map(() => RULE)),
        ...rows.map((row) => markdownRow(row.map(md))),
      ],
      "\n",
    ),
  ];
}
