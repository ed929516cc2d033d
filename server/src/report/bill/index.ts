// The bill in each of its forms. All say the same amounts.

import { cell, html } from "../../text/html";
import { md } from "../../text/markdown";
import type { ReportFormat } from "../owner/formats";
import type { ReportSource } from "../owner/model";
import { factList, list, page, paragraphs, section, table } from "../owner/page";
import { quoteHeader, quoteRows } from "../owner/quote";
import { type Bill, billOf } from "./model";

export { type Bill, billOf } from "./model";

/** The data leaves out who the owner is, as every export does; the page and the text are for the owner. */
export const writeBill = (source: ReportSource, format: ReportFormat, personal = format !== "json"): string =>
  WRITERS[format](billOf(source, personal));

const WRITERS: Readonly<Record<ReportFormat, (bill: Bill) => string>> = {
  html: billHtml,
  md: billMarkdown,
  json: (bill) => `${JSON.stringify(bill, null, 2)}\n`,
};

export function billHtml({ title, shop, draft, facts, table: sums, notes, closing }: Bill): string {
  const lines =
    sums === undefined
      ? ""
      : table(
          quoteHeader(sums),
          quoteRows(sums).map((row) => row.map(cell)),
          [sums.currency],
        );
  return page(
    title,
    [
      `<h1>${cell(title)}</h1>\n`,
      shop === undefined ? "" : `<p class="shop">${html(shop)}</p>\n`,
      draft === undefined ? "" : `<p class="warn">${html(draft)}</p>\n`,
      factList(facts),
      section("Amount", lines),
      section("Notes", notes.length === 0 ? "" : list(notes)),
      ...closing.map(({ label, text }) => section(label, paragraphs([text]))),
    ].join(""),
  );
}

export function billMarkdown({ title, shop, draft, facts, table: sums, notes, closing }: Bill): string {
  const row = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
  const blocks = [
    `# ${md(title)}`,
    ...(shop === undefined ? [] : [md(shop)]),
    ...(draft === undefined ? [] : [`**${md(draft)}**`]),
    ...(facts.length === 0
      ? []
      : [facts.map(({ label, text }) => `- **${md(label)}:** ${md(text)}`).join("\n")]),
    ...(sums === undefined
      ? []
      : [
          "## Amount",
          [
            row(quoteHeader(sums)),
            row(["---", "---:", "---:", "---:"]),
            ...quoteRows(sums).map((cells) => row(cells.map(md))),
          ].join("\n"),
        ]),
    ...(notes.length === 0 ? [] : ["## Notes", notes.map((note) => `- ${md(note)}`).join("\n")]),
    ...closing.flatMap(({ label, text }) => [`## ${md(label)}`, md(text)]),
  ];
  return `${blocks.join("\n\n")}\n`;
}
